"""Cases as they ended: what was convicted, what it truly was, and which signs were seen on the way."""

from collections.abc import Iterable, Iterator, Sequence
from datetime import datetime
from typing import NamedTuple

from engine.model.tree import Ask, Measure, Step, Tree
from engine.records.event import Answered, Concluded, Entry, Measured, Opened, TakenBack
from engine.records.standing import concluded, confirmed

#: A question of the tree itself, and the number of its answer or band, from 0.
Met = tuple[str, int]


class Ended(NamedTuple):
    """A case whose verdict stands."""

    case: str
    tree: str
    vehicle: str
    label: str
    opened: datetime | None
    concluded: datetime | None
    verdict: str
    #: The step of the verdict, whom it convicts, and its grade.
    step: str
    convicted: tuple[str, ...]
    grade: str
    #: What was said after the repair; None where nothing was.
    fixed: bool | None
    #: The true cause as it was said; else the one suspect whose repair helped; empty where nobody knows.
    cause: str
    signs: tuple[Met, ...]


def ended(entries: Sequence[Entry]) -> Ended | None:
    """How a case ended; None where its verdict was not accepted, or stepped back over.

    What was said after the repair is of that verdict, not of one that was stepped back over.
    """
    opened, accepted = entries[0].event if entries else None, concluded(entries)
    if not isinstance(opened, Opened) or accepted is None:
        return None
    entry, verdict = accepted
    said = confirmed(entries)
    return Ended(
        entries[0].case,
        opened.tree,
        opened.vehicle,
        opened.label,
        _moment(entries[0].at),
        _moment(entry.at),
        verdict.verdict,
        verdict.step,
        verdict.suspects,
        verdict.grade,
        said.fixed if said else None,
        (said.cause if said else "") or (_alone(verdict) if said and said.fixed else ""),
        tuple(_signs(_standing(entries))),
    )


def _alone(verdict: Concluded) -> str:
    """The suspect whose repair helped, where it was one."""
    return verdict.suspects[0] if len(verdict.suspects) == 1 else ""


def carried(signs: Iterable[Met], then: Tree, now: Tree) -> Iterator[Met]:
    """The signs of a case by the numbers that they have in the tree as it stands now.

    An answer is known by its words, wherever it stands; a band by its number, where all bands of the step
    and what it reads are the same as then. What cannot be known again is left out.
    """
    for name, number in signs:
        before, after = then.steps.get(name), now.steps.get(name)
        found = None if before is None or after is None else _again(before, after, number)
        if found is not None:
            yield name, found


def _again(before: Step, after: Step, number: int) -> int | None:
    """The number that an answer or band has now; None where it is not there any more."""
    if isinstance(before, Ask) and isinstance(after, Ask):
        said = before.answers[number].say if number < len(before.answers) else None
        return next((k for k, answer in enumerate(after.answers) if answer.say == said), None)
    if isinstance(before, Measure) and isinstance(after, Measure):
        return number if _shape(before) == _shape(after) else None
    return None


def _shape(step: Measure) -> object:
    """What a band's number means by: what is read, what is made of it, and every limit."""
    limits = [
        [limit and (limit.value, limit.sheet, limit.owned) for limit in (band.low, band.high)]
        for band in step.bands
    ]
    fed = [(each.name, each.readings, each.sheet, each.typed) for each in step.given]
    return limits, step.unit, step.figure, step.gives, fed, [want.name for want in step.readings]


def _standing(entries: Iterable[Entry]) -> list[Entry]:
    """The entries that nobody stepped back over."""
    kept: list[Entry] = []
    for entry in entries:
        if isinstance(entry.event, TakenBack):
            to = entry.event.to
            kept = [one for one in kept if one.sequence < to]
        else:
            kept.append(entry)
    return kept


def _signs(entries: Iterable[Entry]) -> Iterator[Met]:
    """What was answered and read, each question once; the steps of procedures have a name with `/`."""
    for entry in entries:
        if isinstance(entry.event, Answered):
            yield entry.event.step, entry.event.answer
        elif isinstance(entry.event, Measured):
            yield entry.event.step, entry.event.band


def _moment(at: str) -> datetime | None:
    """The time of an entry; one without an offset is by this machine's clock."""
    try:
        return datetime.fromisoformat(at).astimezone()
    except (ValueError, OverflowError, OSError):
        return None
