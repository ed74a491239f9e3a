"""How a case stands, told by its events alone: no document need be read, and a damaged tree hides nothing."""

from collections.abc import Sequence

from engine.records.event import Concluded, Confirmed, Entry, Measured, TakenBack, Undecided, Unsure


def verdict(entries: Sequence[Entry]) -> str | None:
    """The verdict accepted last and not stepped back over since; None where there is none."""
    found = concluded(entries)
    return found[1].verdict if found else None


def concluded(entries: Sequence[Entry]) -> tuple[Entry, Concluded] | None:
    """The entry that accepted that verdict, and its event; None where there is none."""
    accepted: tuple[Entry, Concluded] | None = None
    for entry in entries:
        if isinstance(entry.event, Concluded):
            accepted = entry, entry.event
        elif isinstance(entry.event, TakenBack) and accepted and entry.event.to <= accepted[0].sequence:
            accepted = None
    return accepted


def confirmed(entries: Sequence[Entry]) -> Confirmed | None:
    """What was told last after the repair of that verdict; None where nothing was."""
    accepted = concluded(entries)
    after = [entry.event for entry in entries if accepted and entry.sequence > accepted[0].sequence]
    return next((event for event in reversed(after) if isinstance(event, Confirmed)), None)


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
