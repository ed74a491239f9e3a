"""The bands of every measuring step as they stand for each vehicle, and how they cover what may be read."""

from collections.abc import Iterator, Mapping
from fractions import Fraction
from math import lcm
from typing import TYPE_CHECKING, NamedTuple

from engine.lint.stretch import End, Stretch, Uncovered, cover, said
from engine.model.tree import Band, Document, Limit, Measure, Procedure, Tree
from engine.model.vehicle import Sheet
from engine.quantity import Quantity, convert, dimension

if TYPE_CHECKING:
    from engine.lint.rule import Scope


#: The least and the greatest number that may be compared.
Domain = tuple[Fraction, Fraction]


class Standing(NamedTuple):
    """One measuring step for one vehicle; `sheet` is empty where all limits are plain numbers."""

    document: Document
    step: Measure
    sheet: str
    #: How many times the true numbers those of the stretches are, so that all of them are whole.
    scale: int
    domain: Stretch
    stretches: tuple[Stretch, ...]
    covered: Uncovered

    def said(self, stretch: Stretch) -> str:
        """A stretch of the step in words, with the sheet where one matters."""
        on = f" on the sheet `{self.sheet}`" if self.sheet else ""
        return said(stretch, self.step.unit, self.scale) + on


def standings(scope: "Scope") -> Iterator[Standing]:
    """Every measuring step under review, once, or once for each sheet that its limits come from."""
    for document in scope.documents:
        for step in document.steps.values():
            if isinstance(step, Measure):
                yield from _step(scope, document, step)


def _step(scope: "Scope", document: Document, step: Measure) -> Iterator[Standing]:
    domain = _domain(step)
    needed = {end.sheet for band in step.bands for end in (band.low, band.high) if end and end.sheet}
    if domain is None or dimension(step.unit) is None:
        return  # told by other rules
    if not needed:
        yield _standing(document, step, None, domain)
    for sheet in _sheets(scope, document) if needed else ():
        if all(_usable(sheet, name, step.unit) for name in needed):
            yield _standing(document, step, sheet, domain)


def _usable(sheet: Sheet, name: str, unit: str) -> bool:
    amount = sheet.limits.get(name)
    return amount is not None and dimension(amount.unit) == dimension(unit)


def _sheets(scope: "Scope", document: Document) -> Iterator[Sheet]:
    if isinstance(document, Tree):
        yield from scope.sheets(document)
    elif isinstance(document, Procedure):
        for sheet in scope.vehicles:
            if all(sheet.facts.get(fact) in values for fact, values in document.facts.items()):
                yield sheet


def _standing(document: Document, step: Measure, sheet: Sheet | None, domain: Domain) -> Standing:
    ends = [
        (limit, number(limit, step.unit, sheet))
        for band in step.bands
        for limit in (band.low, band.high)
        if limit is not None
    ]
    scale = lcm(*(value.denominator for value in (*domain, *(value for _, value in ends))))
    whole = {id(limit): value.numerator * (scale // value.denominator) for limit, value in ends}
    low, high = (value.numerator * (scale // value.denominator) for value in domain)
    all_of_it = Stretch(End(low, 0), End(high, 0))
    stretches = tuple(_stretch(band, whole, all_of_it) for band in step.bands)
    covered = cover(stretches, all_of_it)
    return Standing(document, step, sheet.name if sheet else "", scale, all_of_it, stretches, covered)


def _domain(step: Measure) -> Domain | None:
    """What may be compared: the plausible range, or what the figure can make of readings from it."""
    low, high = step.readings[0].low, step.readings[0].high
    if step.figure == "spread":
        low, high = Fraction(0), high - low
    elif step.figure == "relative-spread":
        if low <= 0:
            return None
        low, high = Fraction(0), 100 * (high - low) / low
    return (low, high) if low <= high else None


def _stretch(band: Band, whole: Mapping[int, int], domain: Stretch) -> Stretch:
    low, high = domain
    if band.low is not None:
        low = End(whole[id(band.low)], 0 if band.low.owned else 1)
    if band.high is not None:
        high = End(whole[id(band.high)], 0 if band.high.owned else -1)
    return Stretch(low, high)


def number(limit: Limit, unit: str, sheet: Sheet | None) -> Fraction:
    """A limit as an exact number in the unit of its step."""
    if limit.value is not None:
        return limit.value
    assert sheet is not None
    assert limit.sheet is not None
    amount = sheet.limits[limit.sheet]
    return convert(Quantity(amount.value, amount.unit), unit).value
