"""The bands of every measuring step as they stand for each vehicle, and how they cover what may be read."""

from collections.abc import Iterator
from fractions import Fraction
from itertools import pairwise
from typing import TYPE_CHECKING, Final, NamedTuple

from engine.lint.stretch import End, Stretch, Uncovered, cover, said
from engine.model.tree import Band, Document, Limit, Measure, Procedure, Tree
from engine.model.vehicle import Sheet
from engine.quantity import Quantity, convert, dimension

if TYPE_CHECKING:
    from engine.lint.rule import Scope


#: Further than any reading: a figure of the trade's arithmetic may be anything.
FAR: Final = Fraction(10**15)
#: The least and the greatest number that may be compared.
Domain = tuple[Fraction, Fraction]


class Standing(NamedTuple):
    """One measuring step for one vehicle; `sheet` is empty where all limits are plain numbers."""

    document: Document
    step: Measure
    sheet: str
    domain: Stretch
    stretches: tuple[Stretch, ...]
    covered: Uncovered

    def said(self, stretch: Stretch) -> str:
        """A stretch of the step in words, with the sheet where one matters."""
        on = f" on the sheet `{self.sheet}`" if self.sheet else ""
        low, high = (None if abs(end.number) == FAR else end for end in stretch)
        return said(low, high, self.step.unit) + on


def standings(scope: "Scope") -> Iterator[Standing]:
    """Every measuring step under review, once, or once for each sheet that its limits come from.

    Steps of which it is evident that nothing is amiss, which is nearly all, are left out.
    """
    for document in scope.documents:
        for step in document.steps.values():
            if isinstance(step, Measure):
                yield from _step(scope, document, step)


def _step(scope: "Scope", document: Document, step: Measure) -> Iterator[Standing]:
    domain = _domain(step)
    if domain is None or dimension(step.unit) is None or _evident(step.bands, domain):
        return  # nothing to say, or told by other rules
    needed = {end.sheet for band in step.bands for end in (band.low, band.high) if end and end.sheet}
    if not needed:
        yield _standing(document, step, None, domain)
    for sheet in sheets(scope, document) if needed else ():
        if all(usable(sheet, name, step.unit) for name in needed):
            yield _standing(document, step, sheet, domain)


def usable(sheet: Sheet, name: str, unit: str) -> bool:
    """Whether the sheet gives this limit, in a unit of the right kind."""
    amount = sheet.limits.get(name)
    return amount is not None and dimension(amount.unit) == dimension(unit)


def sheets(scope: "Scope", document: Document) -> Iterator[Sheet]:
    """The sheets that a tree or procedure is for."""
    if isinstance(document, Tree):
        yield from scope.sheets(document)
    elif isinstance(document, Procedure):
        for sheet in scope.vehicles:
            if all(sheet.facts.get(fact) in values for fact, values in document.facts.items()):
                yield sheet


def _evident(bands: tuple[Band, ...], domain: Domain) -> bool:
    """Whether plain numbers, written in order, part the domain among the bands: no more than a look."""
    reached, most = domain
    if bands[0].low is not None or bands[-1].high is not None:
        return False
    for before, after in pairwise(bands):
        end, begin = before.high, after.low
        if end is None or begin is None or end.value is None or begin.value is None:
            return False
        if end.owned == begin.owned or end.value != begin.value or end.value <= reached:
            return False
        reached = end.value
    return reached < most


def _standing(document: Document, step: Measure, sheet: Sheet | None, domain: Domain) -> Standing:
    all_of_it = Stretch(End(domain[0], 0), End(domain[1], 0))
    stretches = tuple(_stretch(band, step.unit, sheet, all_of_it) for band in step.bands)
    covered = cover(stretches, all_of_it)
    return Standing(document, step, sheet.name if sheet else "", all_of_it, stretches, covered)


def _domain(step: Measure) -> Domain | None:
    """What may be compared: the plausible range, or what the figure can make of readings from it."""
    low, high = step.readings[0].low, step.readings[0].high
    if step.figure and (step.given or step.figure not in ("spread", "relative-spread")):
        return -FAR, FAR
    if step.figure == "spread":
        low, high = Fraction(0), high - low
    elif step.figure == "relative-spread":
        if low <= 0:
            return None
        low, high = Fraction(0), 100 * (high - low) / low
    return (low, high) if low <= high else None


def _stretch(band: Band, unit: str, sheet: Sheet | None, domain: Stretch) -> Stretch:
    low, high = domain
    if band.low is not None:
        low = End(number(band.low, unit, sheet), 0 if band.low.owned else 1)
    if band.high is not None:
        high = End(number(band.high, unit, sheet), 0 if band.high.owned else -1)
    return Stretch(low, high)


def number(limit: Limit, unit: str, sheet: Sheet | None) -> Fraction:
    """A limit as an exact number in the unit of its step."""
    if limit.value is not None:
        return limit.value
    assert sheet is not None
    assert limit.sheet is not None
    amount = sheet.limits[limit.sheet]
    return convert(Quantity(amount.value, amount.unit), unit).value
