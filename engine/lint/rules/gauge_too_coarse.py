"""A limit that is finer than its gauge can decide.

Two things are looked at, both after conversion into the unit of the gauge, on every sheet:

- A gauge shows multiples of its resolution. A limit that lies further than a tenth of a step from the
  nearest of them falls between two marks, and no eye divides a step more finely: readings on both sides
  of the limit are written down as the same number. Of a spread of readings the same is true; of a
  relative spread it is not, and that is left in peace.
- A reading is only near the true value, within the standard uncertainty u of the gauge. Between two
  limits that lie w apart, the best reading there is, in the middle, is right with the probability
  erf(w / (2 sqrt(2) u)) (normal distribution, JCGM 106:2012, 7.2). Where that is below the `confidence` of
  the tree (0.95 in a procedure: w less than 3.92 u), no reading at all decides for that band.

Bad: a steel rule (resolution 0.5 mm, uncertainty 0.3 mm).

    reading: {gauge: steel-rule, unit: mm, plausible: [0, 80]}
    bands:
      - {below: 12.2, then: good}               # 12.2 is between 12 and 12.5
      - {from: 12.2, upto: 13, then: doubtful}  # 0.8 mm is less than 3.92 times 0.3 mm
      - {over: 13, then: worn}

Good:

    reading: {gauge: steel-rule, unit: mm, plausible: [0, 80]}
    bands:
      - {below: 12, then: good}
      - {from: 12, upto: 14, then: doubtful}
      - {over: 14, then: worn}
"""

from collections.abc import Iterator
from fractions import Fraction
from math import erf, sqrt
from typing import Final

from engine.lint.bands import number, sheets, usable
from engine.lint.finding import Found
from engine.lint.rule import Scope
from engine.loading.build import CONFIDENCE
from engine.model.shop import Gauge
from engine.model.tree import Band, Document, Limit, Measure, Tree
from engine.model.vehicle import Sheet
from engine.quantity import Quantity, convert, dimension, write

#: The part of a step that an eye still tells between two marks.
_EYE: Final = Fraction(1, 10)


def check(scope: Scope) -> Iterator[Found]:
    """Every limit between two marks, and every band that no reading decides for."""
    gauges = scope.library.shop.gauges
    sound: set[object] = set()
    for document in scope.documents:
        for step in document.steps.values():
            if isinstance(step, Measure) and step.figure in ("", "spread"):
                gauge = gauges.get(step.readings[0].gauge)
                if gauge is not None and dimension(gauge.unit) == dimension(step.unit):
                    yield from _step(scope, document, step, gauge, sound)


def _step(
    scope: Scope, document: Document, step: Measure, gauge: Gauge, sound: set[object]
) -> Iterator[Found]:
    """The limits as numbers once, or once for each sheet that they come from.

    Many steps have the limits of others: what was found sound once is not judged again.
    """
    limits = [(band.low, band.high) for band in step.bands]
    needed = {end.sheet for ends in limits for end in ends if end and end.sheet}
    if not needed:
        # pairs of whole numbers: to hash a fraction takes a division
        values = tuple(end and end.value and end.value.as_integer_ratio() for ends in limits for end in ends)
        key = (gauge.name, step.unit, step.figure, _wanted(document).as_integer_ratio(), values)
        if key not in sound:
            found = tuple(_judged(document, step, gauge, None))
            yield from found
            sound.update(() if found else (key,))
    for sheet in sheets(scope, document) if needed else ():
        if all(usable(sheet, name, step.unit) for name in needed):
            yield from _judged(document, step, gauge, sheet)


def _wanted(document: Document) -> Fraction:
    """How probable a decision must be."""
    return document.confidence if isinstance(document, Tree) else CONFIDENCE


def _judged(document: Document, step: Measure, gauge: Gauge, sheet: Sheet | None) -> Iterator[Found]:
    told: set[Fraction] = set()
    for band in step.bands:
        ends = [
            (end, _shown(end, step.unit, gauge, sheet)) for end in (band.low, band.high) if end is not None
        ]
        for end, at in ends:
            if at not in told:
                told.add(at)
                yield from _mark(end, at, gauge, sheet)
        if len(ends) > 1 and not step.figure:
            yield from _between(band, ends[0][1], ends[1][1], gauge, document)


def _shown(limit: Limit, unit: str, gauge: Gauge, sheet: Sheet | None) -> Fraction:
    """A limit in the unit of the gauge."""
    value = number(limit, unit, sheet)
    return value if unit == gauge.unit else convert(Quantity(value, unit), gauge.unit).value


def _mark(limit: Limit, at: Fraction, gauge: Gauge, sheet: Sheet | None) -> Iterator[Found]:
    step = gauge.resolution
    if at % step == 0:
        return
    marks = at / step
    if abs(marks - round(marks)) > _EYE:
        below, above = (_written(k * step, gauge) for k in (marks // 1, marks // 1 + 1))
        on = f" on the sheet `{sheet.name}`" if sheet and limit.sheet else ""
        told = f"The limit {_written(at, gauge)}{on}"
        message = f"{told} lies between two marks of `{gauge.name}`, {below} and {above}."
        yield Found(limit.place, message, "Give a limit that the gauge shows, or name a finer gauge.")


def _between(band: Band, low: Fraction, high: Fraction, gauge: Gauge, document: Document) -> Iterator[Found]:
    confidence = _wanted(document)
    if low >= high or not gauge.uncertainty:
        return
    right = erf((high - low) / gauge.uncertainty / (2 * sqrt(2)))
    if right < confidence:
        stretch, off = (
            f"{_written(low, gauge)} and {_written(high, gauge)}",
            _written(gauge.uncertainty, gauge),
        )
        message = (
            f"Between {stretch} even the best reading of `{gauge.name}` (uncertainty {off}) "
            f"is right with a probability of {right:.2f}; {float(confidence):g} is wanted."
        )
        yield Found(band.place, message, "Part the limits further, or name a finer gauge.")


def _written(value: Fraction, gauge: Gauge) -> str:
    return write(Quantity(value, gauge.unit))
