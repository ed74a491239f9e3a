"""What was stepped back over: it stays in the record, and a reader must see that it no longer counts."""

from collections.abc import Iterator, Mapping, Sequence

from engine.interview.state import State
from engine.interview.told import measured
from engine.model.tree import Measure, Step
from engine.records.event import (
    Answered,
    Concluded,
    Done,
    Entry,
    Followed,
    Measured,
    TakenBack,
    Undecided,
    Unsure,
)

#: Events that settled something; a note or a caution that was read stays what it was.
_SETTLED = (Answered, Concluded, Done, Followed, Measured, Undecided, Unsure)


def gone(entries: Sequence[Entry]) -> Iterator[tuple[Entry, tuple[Entry, ...]]]:
    """Each step back, with what had been settled until then and no longer counts since."""
    standing: list[Entry] = []
    for entry in entries:
        if isinstance(entry.event, TakenBack):
            to = entry.event.to
            yield entry, tuple(settled for settled in standing if settled.sequence >= to)
            standing = [settled for settled in standing if settled.sequence < to]
        elif isinstance(entry.event, _SETTLED):
            standing.append(entry)


def taken(entries: Sequence[Entry]) -> Iterator[tuple[Entry, Measured | Undecided]]:
    """Each reading once: not one that was too close to call, where the next at its step goes on from it."""
    read = [(entry, event) for entry in entries if isinstance(event := entry.event, Measured | Undecided)]
    for number, (entry, event) in enumerate(read):
        after = next((later for _, later in read[number + 1 :] if later.step == event.step), None)
        if isinstance(event, Measured) or after is None or not _goes_on(event.typed, after.typed):
            yield entry, event


def _goes_on(typed: Mapping[str, str], after: Mapping[str, str]) -> bool:
    """Whether what was typed later is the same, or the same with further readings behind it."""
    return all(f"{after.get(name, '')};".startswith(f"{text.rstrip('; ')};") for name, text in typed.items())


def said(entry: Entry, state: State) -> str:
    """A settled event in words; `state` is any of its case, for the texts of the documents."""
    match entry.event:
        case Answered(say=say):
            return say
        case Measured() | Undecided() as event:
            return measured(event, measuring(event.step, state))
        case Unsure(reason=reason):
            return "Could not be done or told here" + (f": {reason}" if reason else "")
        case Concluded(verdict=verdict):
            return f"Verdict: {verdict}"
        case Followed(procedure=name):
            return f"Started: {state.library.procedures[name].title}"
        case _:
            return "Done"


def where(entry: Entry) -> str:
    """The step that an event settled, as `step` or `procedure/step`; empty where a procedure was started."""
    return getattr(entry.event, "step", "")


def measuring(at: str, state: State) -> Measure:
    """The measuring step that a record names as `step` or `procedure/step`."""
    step = _step(at, state)
    assert isinstance(step, Measure)
    return step


def pictured(at: str, state: State) -> str:
    """The path of the picture of a step, named the same way; empty where it has none."""
    step = _step(at, state)
    return step.picture if step else ""


def _step(at: str, state: State) -> Step | None:
    procedure, _, name = at.rpartition("/")
    document = state.library.procedures[procedure] if procedure else state.tree
    return document.steps.get(name)
