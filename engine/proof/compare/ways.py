"""Which way out of a step is which way out of its other version."""

from collections.abc import Iterator, Mapping, Sequence
from typing import NamedTuple

from engine.graph.exits import Exit, exits
from engine.model.tree import Ask, Band, Measure, Run, Step
from engine.proof.compare.align import once


class Both(NamedTuple):
    """One way out in both versions; None where a version does not have it."""

    old: Exit | None
    new: Exit | None


def ways(old: Step | None, new: Step | None, targets: Mapping[str, str]) -> tuple[Both, ...]:
    """The ways out of a step of which one or both versions are there, the old order first.

    Answers pair by their words; of the others, those pair that alone lead to the same step (reworded).
    Bands pair by their number where there are as many, else by their limits. Outcomes pair by name
    where the same procedure is run.
    """
    before = list(exits(old)) if old else []
    after = list(exits(new)) if new else []
    pairs = dict(_pairs(old, new, before, after, targets)) if old and new else {}
    taken = set(pairs.values())
    return (
        *(Both(way, after[pairs[k]] if k in pairs else None) for k, way in enumerate(before)),
        *(Both(None, way) for k, way in enumerate(after) if k not in taken),
    )


def _pairs(
    old: Step, new: Step, before: Sequence[Exit], after: Sequence[Exit], targets: Mapping[str, str]
) -> Iterator[tuple[int, int]]:
    """Numbers of the ways that are the same."""
    if isinstance(old, Measure) and isinstance(new, Measure):
        yield from _bands(old.bands, new.bands)
        if old.unsure and new.unsure:
            yield len(before) - 1, len(after) - 1
        return
    if isinstance(old, Run) and isinstance(new, Run) and old.procedure != new.procedure:
        return
    labels = {way.label: k for k, way in enumerate(after)}
    named = {k: labels[way.label] for k, way in enumerate(before) if way.label in labels}
    yield from named.items()
    if isinstance(old, Ask):
        taken = set(named.values())
        was = once((targets.get(w.then), str(k)) for k, w in enumerate(before) if _open(k, w, named))
        now = once((w.then, str(k)) for k, w in enumerate(after) if _open(k, w, taken))
        yield from ((int(k), int(now[then])) for then, k in was.items() if then in now)


def _open(number: int, way: Exit, taken: Mapping[int, int] | set[int]) -> bool:
    return number not in taken and not way.aside


def _bands(old: Sequence[Band], new: Sequence[Band]) -> Iterator[tuple[int, int]]:
    if len(old) == len(new):
        yield from ((k, k) for k in range(len(old)))
        return
    was = once((limits(band), str(k)) for k, band in enumerate(old))
    now = once((limits(band), str(k)) for k, band in enumerate(new))
    yield from ((int(k), int(now[key])) for key, k in was.items() if key in now)


def limits(band: Band) -> tuple[object, ...]:
    """The limits of a band without their places."""
    return tuple((end.value, end.sheet, end.owned) if end else None for end in (band.low, band.high))
