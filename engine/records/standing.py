"""How a case stands, told by its events alone: no document need be read, and a damaged tree hides nothing."""

from collections.abc import Sequence

from engine.records.event import Concluded, Entry, Measured, TakenBack, Undecided, Unsure


def verdict(entries: Sequence[Entry]) -> str | None:
    """The verdict accepted last and not stepped back over since; None where there is none."""
    accepted: tuple[int, str] | None = None
    for entry in entries:
        if isinstance(entry.event, Concluded):
            accepted = entry.sequence, entry.event.verdict
        elif isinstance(entry.event, TakenBack) and accepted and entry.event.to <= accepted[0]:
            accepted = None
    return accepted[1] if accepted else None


def waits(entries: Sequence[Entry]) -> bool:
    """Whether the case stands at a reading that is too close to call and has yet to be decided."""
    waiting, before = False, dict[int, bool]()
    for entry in entries:
        before[entry.sequence] = waiting
        match entry.event:
            case TakenBack(to=to):
                waiting = before.get(to, False)
            case Undecided():
                waiting = True
            case Measured() | Unsure():
                waiting = False
    return waiting
