"""What a tree asks for more than once on one vehicle: the same question, or a reading of the same name."""

from collections import Counter, defaultdict
from collections.abc import Mapping, Sequence
from fractions import Fraction
from typing import NamedTuple

from engine.graph.known import NOTHING_TWICE, Asking, Known, changes
from engine.graph.nesting import innermost_first
from engine.graph.onward import Onward
from engine.lint.bands import number
from engine.model.tree import Ask, Band, Document, Limit, Measure, Procedure, Run, Step
from engine.model.vehicle import Sheet
from engine.quantity import Quantity, convert, dimension

#: What a step asks for: equal for two steps that ask for the same thing.
Thing = tuple[object, ...]


class Where(NamedTuple):
    """A step, and the procedure that it stands in; empty for the tree."""

    procedure: str
    step: Step


#: The steps that ask for a thing, for each that a walk may be asked for more than once.
Twice = Mapping[Thing, list[Where]]


def twice(documents: Sequence[Document]) -> Twice:
    """The steps that ask for what a walk may be asked for twice: the tree first, then all it may enter."""
    found: dict[Thing, list[Where]] = defaultdict(list)
    for document in documents:
        for step in document.steps.values():
            if isinstance(step, Ask | Measure):
                found[_thing(step)].append(Where(_name(document), step))
    if len(documents) == 1 and len(found) == sum(map(len, found.values())):
        return {}
    runs = _runs(documents)
    return {thing: places for thing, places in found.items() if sum(runs[at.procedure] for at in places) > 1}


def limits_used(places: Twice) -> set[str]:
    """The limits of a sheet that these steps are answered by: what else it says tells nothing of them."""
    bands = (
        b for steps in places.values() for at in steps if isinstance(at.step, Measure) for b in at.step.bands
    )
    return {
        end.sheet
        for band in bands
        for end in (band.low, band.high)
        if end is not None and end.sheet is not None
    }


def asked(documents: Sequence[Document], places: Twice, sheet: Sheet, onward: Onward) -> Known:
    """What these steps can tell of this vehicle."""
    askings: dict[tuple[str, str], Asking] = {}
    for thing, steps in enumerate(places.values()):
        made = _ways(steps, sheet)
        if made is not None:
            whole, ways, points = made
            unit = steps[0].step.unit if isinstance(steps[0].step, Measure) else ""
            for at, way in zip(steps, ways, strict=True):
                askings[at.procedure, at.step.name] = Asking(thing, whole, way, points, unit)
    if not askings:
        return NOTHING_TWICE
    return Known(askings, _ahead(documents, onward, askings))


def _thing(step: Ask | Measure) -> Thing:
    if isinstance(step, Ask):
        return (step.text, *(answer.say for answer in step.answers))
    names = tuple(sorted(reading.name for reading in step.readings))
    given = tuple((fed.name, fed.readings, fed.sheet, fed.typed) for fed in step.given)
    return (step.figure, given, step.gives, names, dimension(step.unit))


def _name(document: Document) -> str:
    return document.name if isinstance(document, Procedure) else ""


def _runs(documents: Sequence[Document]) -> Mapping[str, int]:
    """How often a walk may enter each procedure, 2 standing for more than once; the tree once."""
    inside = Counter(
        (_name(document), step.procedure)
        for document in documents
        for step in document.steps.values()
        if isinstance(step, Run)
    )
    runs: dict[str, int] = defaultdict(int, {"": 1})
    for _ in documents:  # no chain of procedures is longer
        new = defaultdict(int, {"": 1})
        for (outer, inner), times in inside.items():
            new[inner] = min(2, new[inner] + times * runs[outer])
        if new == runs:
            break
        runs = new
    # what follows a verdict is entered with nothing known
    return defaultdict(int, {_name(document): runs[_name(document)] or 1 for document in documents})


#: All values of a thing as bits; for each step the values of each way out; of a reading the limits.
_Told = tuple[int, list[tuple[int, ...]], tuple[Fraction, ...]]


def _ways(places: Sequence[Where], sheet: Sheet) -> _Told | None:
    """What the steps that ask for a thing can tell of it; None where a limit is unknown."""
    steps = [at.step for at in places]
    first = steps[0]
    if isinstance(first, Ask):
        bits = tuple(1 << k for k in range(len(first.answers)))
        return sum(bits), [bits for _ in steps], ()
    measures = [step for step in steps if isinstance(step, Measure)]
    limits = [[_ends(step, band, sheet, measures[0].unit) for band in step.bands] for step in measures]
    flat = [end for bands in limits for band in bands for end in band]
    if any(end is not None and end.at is None for end in flat):
        return None
    points = sorted({end.at for end in flat if end is not None and end.at is not None})
    cells = {point: 2 * k + 1 for k, point in enumerate(points)}
    last = 2 * len(points)
    ways = [tuple(_bits(low, high, cells, last) for low, high in bands) for bands in limits]
    return (1 << (last + 1)) - 1, ways, tuple(points)


class _End(NamedTuple):
    """One end of a band in the unit of the first step; `at` is None where the sheet does not give it."""

    at: Fraction | None
    owned: bool


def _ends(step: Measure, band: Band, sheet: Sheet, unit: str) -> tuple[_End | None, _End | None]:
    return _end(step, band.low, sheet, unit), _end(step, band.high, sheet, unit)


def _end(step: Measure, limit: Limit | None, sheet: Sheet, unit: str) -> _End | None:
    if limit is None:
        return None
    if limit.sheet is not None:
        amount = sheet.limits.get(limit.sheet)
        if amount is None or dimension(amount.unit) != dimension(unit):
            return _End(None, limit.owned)
    if dimension(step.unit) is None:
        return _End(None, limit.owned)
    return _End(convert(Quantity(number(limit, step.unit, sheet), step.unit), unit).value, limit.owned)


def _bits(low: _End | None, high: _End | None, cells: Mapping[Fraction, int], last: int) -> int:
    """The cells of a band: even ones lie between two limits, odd ones are a limit itself."""
    first = 0 if low is None or low.at is None else cells[low.at] + (0 if low.owned else 1)
    final = last if high is None or high.at is None else cells[high.at] - (0 if high.owned else 1)
    return (1 << (final + 1)) - (1 << first) if first <= final else 0


def _ahead(
    documents: Sequence[Document], onward: Onward, askings: Mapping[tuple[str, str], Asking]
) -> Mapping[tuple[str, str], int]:
    """For each step, the things (as bits) that are asked there or later in its document.

    What is asked only after the vehicle was changed is left out: nothing is taken for known there.
    """
    starts = {document.name: document.start for document in documents if isinstance(document, Procedure)}
    out: dict[tuple[str, str], int] = {}
    for document in _inner_first(documents):
        own = _name(document)
        for name in reversed(onward.order(document)):
            step = document.steps[name]
            bits = _own(askings.get((own, name)), step)
            if isinstance(step, Run):
                bits |= out.get((step.procedure, starts[step.procedure]), 0)
            for way in onward.exits(step):
                if not changes(step, aside=way.aside):
                    bits |= out.get((own, way.then), 0)
            out[own, name] = bits
    return out


def _own(asking: Asking | None, step: Step) -> int:
    """The bit of what a step asks for, if it is answered before the vehicle is changed."""
    return 0 if asking is None or changes(step) else 1 << asking.thing


def _inner_first(documents: Sequence[Document]) -> list[Document]:
    """The same documents, each behind those that it runs."""
    procedures = {d.name: d for d in documents if isinstance(d, Procedure)}
    run = innermost_first(documents, procedures)
    names = {procedure.name for procedure in run}
    return [*run, *(d for d in documents if not (isinstance(d, Procedure) and d.name in names))]
