"""What an event makes of a walk. The only place where a state changes."""

from dataclasses import replace

from engine.interview import advance, believed
from engine.interview.question import TrailLine
from engine.interview.state import Past, State
from engine.interview.told import answered, measured
from engine.loading.leaf import File
from engine.loading.library import Library, gather
from engine.model.tree import Ask, Do, Measure, Step, Verdict
from engine.records.event import (
    Answered,
    Cautioned,
    Concluded,
    Confirmed,
    Done,
    Entry,
    Event,
    Followed,
    Measured,
    Noted,
    Opened,
    TakenBack,
    Undecided,
    Unsure,
)


def evolve(state: State | None, entry: Entry) -> State:
    """The walk after one more entry of its case; the first must have opened it.

    Raises ValueError for an entry that this walk can never have written.
    """
    event = entry.event
    if isinstance(event, Opened):
        return opened(event, entry.sequence)
    if state is None:
        raise ValueError("A case begins with being opened.")
    try:
        after = _after(state, event, entry.sequence)
    except LookupError as error:
        raise ValueError(f"The event `{event.kind}` does not fit the walk at `{state.where}`.") from error
    return after._replace(sequence=entry.sequence)


def replay(entries: tuple[Entry, ...]) -> State:
    """The walk that a case's entries make, from the first to the last."""
    state: State | None = None
    for entry in entries:
        state = evolve(state, entry)
    if state is None:
        raise ValueError("A case without entries has no walk.")
    return state


def opened(event: Opened, sequence: int = 1) -> State:
    """The walk at its first step, on the documents that the event itself carries.

    Raises ValueError where they do not hold the tree and the sheet that the event names.
    """
    files = (File(path, path, text.encode(), trusted=True) for path, text in sorted(event.documents.items()))
    library = gather(files)
    if event.tree not in library.trees or event.vehicle not in library.sheets:
        raise ValueError(f"The case does not carry the tree `{event.tree}` and the sheet `{event.vehicle}`.")
    return begun(library, event.tree, event.vehicle, sequence)


def begun(library: Library, tree: str, vehicle: str, sequence: int = 1) -> State:
    """The walk at its first step, on the documents of a library."""
    held = library.trees[tree]
    return advance.begin(State(library, held, library.sheets[vehicle], sequence, (), believed.begun(held)))


def _after(state: State, event: Event, sequence: int) -> State:
    match event:
        case Cautioned():
            return _cautioned(state, event)
        case Noted():
            return state._replace(notes=(*state.notes, (event.step, event.text)))
        case Confirmed():
            return state._replace(confirmed=event)  # told of the repair later; the walk stands where it stood
        case TakenBack():
            return _taken_back(state, event.to)
        case Undecided():
            return _undecided(state, event, sequence)
        case Followed():
            line = _line(state, sequence, "Started: " + state.library.procedures[event.procedure].title, "")
            return advance.enter(_keep(state, line), event.procedure)
        case Concluded():
            kept = _keep(state, _line(state, sequence, "Verdict", event.verdict))
            return kept._replace(concluded=True, acknowledged=())
        case _:
            return _settled(state, event, sequence)


def _cautioned(state: State, event: Cautioned) -> State:
    state = state._replace(acknowledged=(*state.acknowledged, event.caution))
    # a procedure is entered as soon as the last caution before it has been read
    return advance.proceed(state)


def _settled(state: State, event: Event, sequence: int) -> State:
    step = state.step
    match event, step:
        case Done(), Do():
            answer, target = "Done", step.then
        case Answered(), Ask():
            answer, target = answered(event), step.answers[event.answer].then
        case Measured(), Measure():
            answer, target = measured(event, step), step.bands[event.band].then
        case Unsure(), Do() | Ask() | Measure():
            reason = f": {event.reason}" if event.reason else ""
            answer, target = f"Could not be done or told here{reason}", step.unsure
        case _:
            raise ValueError(f"The event `{event.kind}` does not fit the step `{state.where}`.")
    line = _line(state, sequence, asked(step), answer)
    belief = state.belief
    if isinstance(event, Answered | Measured):
        line = replace(line, also=event.also) if event.also else line
        belief = believed.answered(state, event)
    state = _keep(state, line)
    if belief is not state.belief:
        state = state._replace(belief=belief)
    if isinstance(event, Unsure):
        return advance.aside(state, target)
    return advance.onward(state, target)


def _undecided(state: State, event: Undecided, sequence: int) -> State:
    """A reading that is too close to call: it can be stepped back over, and the step stands open."""
    step = state.step
    if isinstance(step, Measure):
        kept = _keep(state, _line(state, sequence, asked(step), measured(event, step)))
        return kept._replace(undecided=event, reminders=state.reminders)
    raise ValueError(f"The event `{event.kind}` does not fit the step `{state.where}`.")


def _keep(state: State, line: TrailLine) -> State:
    # what was undecided is told by the line that decides it; stepping back to there finds it again
    before = state._replace(reminders=()) if state.reminders else state
    return state._replace(past=(*state.settled, Past(line, before)), reminders=(), undecided=None)


def _line(state: State, sequence: int, question: str, answer: str) -> TrailLine:
    titles = (state.library.shop.cautions[name].title for name in state.acknowledged)
    remarks = (*(f"Caution acknowledged: {title}" for title in titles), *_notes(state))
    return TrailLine(sequence, state.where, question, answer, remarks)


def _notes(state: State) -> tuple[str, ...]:
    """Remarks written at the open step; not those of an earlier time that its procedure was run."""
    here = [f"Note: {text}" for step, text in state.notes if step == state.where]
    if not here:
        return ()
    told = {(past.line.step, remark) for past in state.settled for remark in past.line.remarks}
    return tuple(note for note in here if (state.where, note) not in told)


def _taken_back(state: State, to: int) -> State:
    before = {past.line.sequence: past.before for past in state.past}[to]
    # what an earlier step back told of may still be so: nothing has been settled since
    changed = sorted((state.holds ^ before.holds).union(state.reminders))
    # cautions are read again: the place in the walk is the old one, the vehicle is not
    # what was told of the repair is told of the verdict, not of a procedure that follows it
    told = state.confirmed if before.concluded else None
    return before._replace(acknowledged=(), notes=state.notes, reminders=tuple(changed), confirmed=told)


def asked(step: Step) -> str:
    """What a step puts to a person."""
    match step:
        case Do() | Ask() | Measure() | Verdict():
            return step.text
        case _:
            return step.name
