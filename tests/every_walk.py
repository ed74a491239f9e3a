"""Every walk that the shipped trees allow on a vehicle, taken with the engine's own walking."""

from collections.abc import Iterator

from engine.errors import Refusal
from engine.interview import command as ask
from engine.interview.decide import decide
from engine.interview.evolve import evolve, opened
from engine.interview.pack import pack
from engine.interview.state import Frame, State
from engine.loading.library import Library
from engine.model.tree import Ask, Do, Measure, Verdict
from engine.records.event import Entry

#: Where a walk stands and what then holds of the vehicle; walks that share both go on alike, whatever was
#: followed before, since what follows a verdict may be started in any order.
Spot = tuple[tuple[Frame, ...], frozenset[str], bool]


def standings(library: Library, tree: str, vehicle: str) -> Iterator[State]:
    """Every different standing of every walk, cautions read; each open step with the way to it in `past`."""
    waiting = [_read(opened(pack(library, tree, vehicle)))]
    seen: set[Spot] = set()
    while waiting:
        state = waiting.pop()
        spot = (state.frames, state.holds, state.concluded)
        if spot in seen:
            continue
        seen.add(spot)
        yield state
        waiting.extend(_read(after) for command in _commands(state) if (after := _after(state, command)))


def _commands(state: State) -> Iterator[ask.Command]:
    step = state.step
    match step:
        case Do():
            yield ask.Confirm()
        case Ask():
            yield from (ask.Choose(number) for number in range(len(step.answers)))
        case Measure():
            yield from (ask.Read(typed, settle=True) for typed in _readings(step))
        case Verdict():
            yield ask.Accept()
            yield from (ask.Follow(name) for name in step.follow)
    yield ask.CannotTell("asked by the test")


def _readings(step: Measure) -> Iterator[dict[str, str]]:
    """All readings alike, and one of them as far off as is believed."""
    low, high = step.readings[0].low, step.readings[0].high
    alike = {want.name: str(int(low)) for want in step.readings}
    yield alike
    yield alike | {step.readings[0].name: str(int(high))}


def _after(state: State, command: ask.Command) -> State | None:
    decision = decide(state, command)
    if isinstance(decision, Refusal):
        return None
    for event in decision:
        state = evolve(state, Entry("test", state.sequence + 1, "", event, ""))
    return state


def _read(state: State) -> State:
    """The walk once every caution before its step has been read."""
    while state.pending:
        after = _after(state, ask.Acknowledge(state.pending[0]))
        assert after is not None
        state = after
    return state
