"""Cases as they ended: what was convicted, what it truly was, and whether the complaint came back."""

from collections.abc import Iterable, Iterator, Sequence
from datetime import datetime, timedelta
from typing import Final, NamedTuple

from engine.records.event import Answered, Concluded, Confirmed, Entry, Measured, Opened, TakenBack

#: Who comes back with the same complaint within so many days was not helped. Common practice, no source.
COMES_BACK: Final = timedelta(days=90)


class Ended(NamedTuple):
    """A case whose verdict stands."""

    case: str
    tree: str
    vehicle: str
    label: str
    opened: datetime | None
    verdict: str
    #: The step of the verdict, and whom it convicts.
    step: str
    convicted: tuple[str, ...]
    #: What was said after the repair; None where nothing was.
    fixed: bool | None
    #: The true cause as it was said; else the one suspect whose repair helped; empty where nobody knows.
    cause: str
    #: Each question of the tree itself with the number of its answer or band, from 0.
    signs: tuple[tuple[str, int], ...]


def ended(entries: Sequence[Entry]) -> Ended | None:
    """How a case ended; None where its verdict was not accepted, or stepped back over."""
    opened = entries[0].event if entries else None
    standing = _standing(entries)
    verdicts = [entry.event for entry in standing if isinstance(entry.event, Concluded)]
    if not isinstance(opened, Opened) or not verdicts:
        return None
    verdict = verdicts[-1]
    said = [entry.event for entry in entries if isinstance(entry.event, Confirmed)]
    fixed = said[-1].fixed if said else None
    alone = verdict.suspects[0] if fixed and len(verdict.suspects) == 1 else ""
    return Ended(
        entries[0].case,
        opened.tree,
        opened.vehicle,
        opened.label,
        _moment(entries[0].at),
        verdict.verdict,
        verdict.step,
        tuple(verdict.suspects),
        fixed,
        (said[-1].cause if said else "") or alone,
        tuple(_signs(standing)),
    )


def came_back(cases: Iterable[Ended]) -> frozenset[str]:
    """The cases that did not help: said so, or the same vehicle with the same complaint again soon after."""
    held = list(cases)
    return frozenset(
        one.case for one in held if one.fixed is False or any(_again(one, other) for other in held)
    )


def _again(one: Ended, other: Ended) -> bool:
    """Whether the other case is the same vehicle's, with the same complaint, not long after this one."""
    if not one.label or (one.label, one.tree, one.vehicle) != (other.label, other.tree, other.vehicle):
        return False
    if one.opened is None or other.opened is None or one.case == other.case:
        return False
    return timedelta(0) < other.opened - one.opened <= COMES_BACK


def _standing(entries: Sequence[Entry]) -> list[Entry]:
    """The entries that nobody stepped back over."""
    kept: list[Entry] = []
    for entry in entries:
        if isinstance(entry.event, TakenBack):
            to = entry.event.to
            kept = [one for one in kept if one.sequence < to]
        else:
            kept.append(entry)
    return kept


def _signs(entries: Iterable[Entry]) -> Iterator[tuple[str, int]]:
    """What was answered and read, each question once; the steps of procedures have a name with `/`."""
    for entry in entries:
        if isinstance(entry.event, Answered):
            yield entry.event.step, entry.event.answer
        elif isinstance(entry.event, Measured):
            yield entry.event.step, entry.event.band


def _moment(at: str) -> datetime | None:
    try:
        return datetime.fromisoformat(at)
    except ValueError:
        return None
