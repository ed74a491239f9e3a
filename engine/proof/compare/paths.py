"""Paths gained and lost: counted exactly without walking them, and the shortest of each.

A path is what is answered from the start of a document to its end, each procedure counted as one step and
each value of a fact as an answer. A path is in both versions where it is the same steps (see `align`) by the
same ways (see `ways`) to the same end.
"""

from collections import deque
from collections.abc import Callable, Iterable, Iterator, Mapping
from typing import NamedTuple

from engine.graph.exits import Exit, exits, targets
from engine.graph.view import ends
from engine.model.tree import Document
from engine.proof.compare.align import Alignment
from engine.proof.compare.moves import Line
from engine.proof.compare.ways import ways


class Paths(NamedTuple):
    """How many paths each version has, how many are in both, and the shortest in one only."""

    old: int
    new: int
    shared: int
    gained: tuple[Line, ...]
    lost: tuple[Line, ...]


#: For each way out of an aligned step (by step and label) the other version's: where that leads.
_Matched = Mapping[tuple[str, str], str]


def paths(old: Document, new: Document, aligned: Alignment) -> Paths:
    """Compare the paths of two documents that have no loops.

    The lost ones are `old - shared`, the gained ones `new - shared`.
    """
    forth, back = aligned.targets, {b: a for a, b in aligned.targets.items()}
    ahead, behind = _matched(old, new, aligned)
    return Paths(
        _count(old, lambda name: ((way.then, True) for way in exits(old.steps[name]))),
        _count(new, lambda name: ((way.then, True) for way in exits(new.steps[name]))),
        _shared(old, new, forth, ahead),
        _only(new, old, back, behind, lost=False),
        _only(old, new, forth, ahead, lost=True),
    )


def _matched(old: Document, new: Document, aligned: Alignment) -> tuple[_Matched, _Matched]:
    ahead: dict[tuple[str, str], str] = {}
    behind: dict[tuple[str, str], str] = {}
    for was, now in aligned.steps.items():
        for both in ways(old.steps[was], new.steps[now], aligned.targets):
            if both.old and both.new:
                ahead[was, both.old.label] = both.new.then
                behind[now, both.new.label] = both.old.then
    return ahead, behind


def _shared(old: Document, new: Document, forth: Mapping[str, str], ahead: _Matched) -> int:
    def following(name: str) -> Iterator[tuple[str, bool]]:
        for way in exits(old.steps[name]):
            then = ahead.get((name, way.label))
            yield way.then, then is not None and forth.get(way.then) == then

    if forth.get(old.start) != new.start:
        return 0
    return _count(old, following)


def _count(document: Document, following: Callable[[str], Iterable[tuple[str, bool]]]) -> int:
    """Paths from the start by the ways that count, worked out from the ends backwards."""
    known = dict.fromkeys(ends(document), 1)
    waiting = [document.start]
    while waiting:
        name = waiting[-1]
        step = document.steps.get(name)
        first = [then for then in targets(step) if then not in known] if step else []
        if first and name not in known:
            waiting.extend(first)
            continue
        waiting.pop()
        if name not in known:
            known[name] = sum(known[then] for then, counts in following(name) if counts) if step else 0
    return known[document.start]


class _At(NamedTuple):
    """Where a path stands, and where the other version stands by the same path; empty where it has parted."""

    here: str
    there: str


def _only(
    document: Document, other: Document, names: Mapping[str, str], matched: _Matched, *, lost: bool
) -> tuple[Line, ...]:
    """The shortest path that the other version does not have; empty where it has all."""
    start = names.get(document.start, "")
    first = _At(document.start, start if start == other.start else "")
    trace: dict[_At, tuple[_At, Exit] | None] = {first: None}
    waiting = deque((first,))
    while waiting:
        at = waiting.popleft()
        if not at.there and at.here in ends(document):
            return _told(at, trace, document, lost=lost)
        step = document.steps.get(at.here)
        for way in exits(step) if step else ():
            then = matched.get((at.here, way.label), "") if at.there else ""
            after = _At(way.then, then if then and names.get(way.then) == then else "")
            if after not in trace:
                trace[after] = (at, way)
                waiting.append(after)
    return ()


def _told(
    at: _At, trace: Mapping[_At, tuple[_At, Exit] | None], document: Document, *, lost: bool
) -> tuple[Line, ...]:
    step = document.steps.get(at.here)
    place = step.place if step else document.place
    lines = [Line(at.here, "", place if lost else None, None if lost else place)]
    while (before := trace[at]) is not None:
        at, way = before
        place = document.steps[at.here].place
        lines.append(Line(at.here, way.label, place if lost else None, None if lost else place))
    return tuple(reversed(lines))
