"""What holds of every walk through every sound library."""

from collections.abc import Iterator
from fractions import Fraction

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from engine.errors import Refusal
from engine.interview import command as ask
from engine.interview.decide import decide
from engine.interview.evolve import evolve, replay
from engine.interview.pack import pack
from engine.interview.prompt import prompt
from engine.interview.state import State
from engine.model.tree import Document, Run, Sort, Step, Verdict
from engine.records.codec import NOTHING_BEFORE, decode, encode, seal
from engine.records.event import Entry, Event
from tests.engine.interview.given import after, library, walk
from tests.engine.interview.random_libraries import texts
from tests.engine.interview.walker import chosen, finished, forward, picks, walked

some = settings(max_examples=60, suppress_health_check=[HealthCheck.too_slow])


def happened(first: Event, state: State, numbers: list[int]) -> tuple[list[Event], State]:
    """The events of a random walk, the opening included, and the state it ends in."""
    events = [first]
    for number in numbers:
        command = chosen(state, number)
        assert command is not None
        decision = decide(state, command)
        assert not isinstance(decision, Refusal), (command, decision)
        events.extend(decision)
        state = after(state, command)
    return events, state


def same(one: State, other: State) -> None:
    """Both states are equal, and so is every state that they can step back to."""
    assert one == other
    assert [past.before for past in one.past] == [past.before for past in other.past]


def core(state: State) -> tuple[object, ...]:
    """A state apart from the numbers of its events."""
    trail = [(p.line.step, p.line.question, p.line.answer, p.line.remarks) for p in state.past]
    return (
        state.frames,
        state.holds,
        state.concluded,
        state.followed,
        state.acknowledged,
        state.reminders,
        trail,
    )


@some
@given(texts(), picks)
def test_every_walk_reaches_a_verdict(documents: tuple[str, ...], numbers: list[int]) -> None:
    """Wherever a random walk has come to, going on leads to an accepted verdict of the tree."""
    *_, state = walked(walk(*documents), numbers)
    end, _ = finished(state)

    assert end.concluded
    assert isinstance(end.tree.steps[end.where], Verdict)


@some
@given(texts(), picks)
def test_replay_is_the_live_state(documents: tuple[str, ...], numbers: list[int]) -> None:
    """Folding the events one by one, and replaying the entries as they were stored, give the live state."""
    held = library(*documents)
    events, live = happened(pack(held, "bench", "wagon"), walk(*documents), numbers)
    entries: list[Entry] = []
    for number, event in enumerate(events, 1):
        previous = entries[-1].hash if entries else NOTHING_BEFORE
        entries.append(decode(encode(seal("bench", number, "", event, previous))))
    folded: State | None = None
    for entry in entries:
        folded = evolve(folded, entry)

    assert folded is not None
    same(folded, live)
    same(replay(tuple(entries)), live)


_words = st.sampled_from(["x", "y", "hot", "turning", "p-a", "p-b", "nonsense", ""]) | st.text(max_size=8)
_typed = st.dictionaries(
    _words, st.text(max_size=12) | st.sampled_from(["1", "99", "2 kPa", "1/0", "-3 in"]), max_size=3
)
_anything = st.one_of(
    st.builds(ask.Acknowledge, _words),
    st.just(ask.Confirm()),
    st.builds(ask.Choose, st.integers()),
    st.builds(ask.Read, _typed, st.booleans()),
    st.builds(ask.CannotTell, st.text(max_size=5)),
    st.builds(ask.StepBack, st.integers(-2, 40)),
    st.builds(ask.Note, st.text(max_size=5)),
    st.just(ask.Accept()),
    st.builds(ask.Follow, _words),
)


@some
@given(texts(), picks, st.lists(_anything, min_size=1, max_size=20))
def test_no_command_breaks_a_walk(
    documents: tuple[str, ...], numbers: list[int], commands: list[ask.Command]
) -> None:
    """Any command in any state gives events that fit or a refusal; the state asked stays as it was."""
    held = library(*documents)
    events, state = happened(pack(held, "bench", "wagon"), walk(*documents), numbers)
    for command in commands:
        decision = decide(state, command)
        assert isinstance(decision, Refusal | tuple)
        if not isinstance(decision, Refusal):
            after(state, command)

    same(state, replay(tuple(Entry("bench", k, "", event, "") for k, event in enumerate(events, 1))))


@some
@given(texts(), picks, st.integers(0, 99))
def test_the_same_answers_give_the_same_walk(
    documents: tuple[str, ...], numbers: list[int], line: int
) -> None:
    """Stepped back to any line, the same answers lead to the same state, save the numbers of its events."""
    given_: list[ask.Command] = []
    state = walk(*documents)
    for number in numbers:
        command = chosen(state, number, back=False)
        if command is None:
            break
        state = after(state, command)
        if not isinstance(command, ask.Acknowledge):
            given_.append(command)
    if state.past:
        first = line % len(state.past)
        again = after(state, ask.StepBack(state.past[first].line.sequence))
        for command in given_[first:]:
            again = after(_read(again), command)
        # cautions of the step that stands open may have been read in the first walk
        while again.acknowledged != state.acknowledged or again.where != state.where:
            again = after(again, ask.Acknowledge(again.pending[0]))

        assert core(again) == core(state)


def _read(state: State) -> State:
    while state.pending:
        state = after(state, ask.Acknowledge(state.pending[0]))
    return state


@some
@given(texts(), picks)
def test_equal_states_ask_the_same(documents: tuple[str, ...], numbers: list[int]) -> None:
    """After any prefix of a walk its prompt is the same asked twice, and the same once replayed."""
    held = library(*documents)
    events, state = happened(pack(held, "bench", "wagon"), walk(*documents), numbers)
    for length in range(1, len(events) + 1):
        again = replay(tuple(Entry("bench", k, "", event, "") for k, event in enumerate(events[:length], 1)))

        assert prompt(again) == prompt(again)
    assert prompt(again) == prompt(state)


@some
@given(texts(), picks)
def test_spare_minutes_and_suspects_are_those_of_every_path(
    documents: tuple[str, ...], numbers: list[int]
) -> None:
    """Minutes left and suspects still possible are what walking every path, one by one, finds."""
    for state in walked(walk(*documents), numbers):
        where = prompt(state).where
        ends = list(_paths_out(state))

        assert (where.spare.fewest, where.spare.most) == (min(m for m, _ in ends), max(m for m, _ in ends))
        assert set(where.suspects) == _convicted(state, {end for _, end in ends})
        assert list(where.suspects) == sorted(where.suspects, key=["Bearing", "Coupling", "Shaft"].index)


Path = tuple[Fraction, str]


def _paths_out(state: State) -> Iterator[Path]:
    """Every path from the open step to the verdict that ends it, with its minutes, out of all procedures."""
    if state.accepted:
        yield Fraction(0), ""
    else:
        yield from _out_of(state, len(state.frames) - 1, state.frames[-1].step)


def _out_of(state: State, level: int, name: str) -> Iterator[Path]:
    frame = state.frames[level]
    document: Document = state.library.procedures[frame.procedure] if frame.procedure else state.tree
    for minutes, end in _paths(state, document, name):
        outside = state.frames[level - 1] if level else None
        if outside is None:
            yield minutes, end
            continue
        around = state.library.procedures[outside.procedure] if outside.procedure else state.tree
        run = around.steps[outside.step]
        if not isinstance(run, Run):
            yield minutes, ""
            continue
        for more, last in _out_of(state, level - 1, run.outcomes[end]):
            yield minutes + more, last


def _paths(state: State, document: Document, name: str) -> Iterator[Path]:
    """Every path through one document from a step to its ends, one by one."""
    step = document.steps.get(name)
    if step is None:
        yield Fraction(0), name
    elif isinstance(step, Verdict):
        yield step.minutes, name
    elif isinstance(step, Run):
        inner = state.library.procedures[step.procedure]
        for minutes, outcome in _paths(state, inner, inner.start):
            for more, end in _paths(state, document, step.outcomes[outcome]):
                yield step.minutes + minutes + more, end
    else:
        for target in _ways(state, step):
            for more, end in _paths(state, document, target):
                yield step.minutes + more, end


def _ways(state: State, step: Step) -> Iterator[str]:
    if isinstance(step, Sort):
        yield step.cases[state.sheet.facts[step.fact]]
        return
    for way in (*getattr(step, "answers", ()), *getattr(step, "bands", ()), step):
        yield from (target for target in (getattr(way, "then", ""), getattr(way, "unsure", "")) if target)


def _convicted(state: State, ends: set[str]) -> set[str]:
    """Titles of those whom a verdict among these ends convicts; the accepted verdict's own once concluded."""
    names = {state.frames[0].step} if state.concluded else ends
    verdicts = [step for name in names if isinstance(step := state.tree.steps[name], Verdict)]
    return {state.tree.suspects[name].title for verdict in verdicts for name in verdict.suspects}


def test_the_walker_knows_every_way_on() -> None:
    """The random walker gives each kind of command that leads on, so that the properties hold of all."""
    kinds: set[type] = set()

    @settings(
        max_examples=70,
        database=None,
        derandomize=True,
        suppress_health_check=[HealthCheck.too_slow],
    )
    @given(texts(), picks)
    def look(documents: tuple[str, ...], numbers: list[int]) -> None:
        for state in walked(walk(*documents), numbers):
            kinds.update(type(command) for command in forward(prompt(state)))

    look()
    assert kinds == {
        ask.Acknowledge,
        ask.Confirm,
        ask.Choose,
        ask.Read,
        ask.CannotTell,
        ask.Accept,
        ask.Follow,
    }
