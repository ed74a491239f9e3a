"""The bands of every measuring step as they stand for each vehicle, and how they cover what may be read."""

from collections.abc import Iterator
from fractions import Fraction
from typing import TYPE_CHECKING, NamedTuple

from engine.lint.stretch import End, Stretch, Uncovered, cover
from engine.model.tree import Band, Document, Limit, Measure, Procedure, Tree
from engine.model.vehicle import Sheet
from engine.quantity import Quantity, convert, dimension

if TYPE_CHECKING:
    from engine.lint.rule import Scope


class Standing(NamedTuple):
    """One measuring step for one vehicle; `sheet` is empty where all limits are plain numbers."""

    document: Document
    step: Measure
    sheet: str
    domain: Stretch
    stretches: tuple[Stretch, ...]
    covered: Uncovered


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
        for sheet in scope.library.sheets.values():
            if all(sheet.facts.get(fact) in values for fact, values in document.facts.items()):
                yield sheet


def _standing(document: Document, step: Measure, sheet: Sheet | None, domain: Stretch) -> Standing:
    stretches = tuple(_stretch(band, step.unit, sheet, domain) for band in step.bands)
    return Standing(document, step, sheet.name if sheet else "", domain, stretches, cover(stretches, domain))


def _domain(step: Measure) -> Stretch | None:
    """What may be compared: the plausible range, or what the figure can make of readings from it."""
    low, high = step.readings[0].low, step.readings[0].high
    if step.figure == "spread":
        low, high = Fraction(0), high - low
    elif step.figure == "relative-spread":
        if low <= 0:
            return None
        low, high = Fraction(0), 100 * (high - low) / low
    return Stretch(End(low, 0), End(high, 0)) if low <= high else None


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


def on(standing: Standing) -> str:
    """` on the sheet x`, for a message; empty where no sheet matters."""
    return f" on the sheet `{standing.sheet}`" if standing.sheet else ""
