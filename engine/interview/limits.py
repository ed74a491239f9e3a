"""The bands of a measuring step as they stand for one vehicle: exact limits, and their words."""

from collections.abc import Sequence
from fractions import Fraction

from engine.model.tree import Band, Limit, Measure
from engine.model.vehicle import Sheet
from engine.quantity import Quantity, convert, write


def limit_value(limit: Limit, unit: str, sheet: Sheet) -> Fraction:
    """The limit as an exact number in the step's unit."""
    if limit.sheet is None:
        assert limit.value is not None
        return limit.value
    amount = sheet.limits[limit.sheet]
    return convert(Quantity(amount.value, amount.unit), unit).value


def holds(band: Band, value: Fraction, unit: str, sheet: Sheet) -> bool:
    """Whether a value lies in the band, each limit on the side that it owns."""
    if band.low is not None:
        low = limit_value(band.low, unit, sheet)
        if value < low or (value == low and not band.low.owned):
            return False
    if band.high is not None:
        high = limit_value(band.high, unit, sheet)
        if value > high or (value == high and not band.high.owned):
            return False
    return True


def chosen(step: Measure, value: Fraction, sheet: Sheet) -> int | None:
    """The number of the band that the value lies in, counted from 0."""
    return next((k for k, band in enumerate(step.bands) if holds(band, value, step.unit, sheet)), None)


def words(band: Band, unit: str, sheet: Sheet) -> str:
    """The limits of a band as a person would say them.

    `up to 6 mm` and `from 6 mm` own their limit, `below 6 mm` and `over 6 mm` do not.
    """
    parts: list[str] = []
    if band.low is not None:
        parts.append(_end("from" if band.low.owned else "over", band.low, unit, sheet))
    if band.high is not None:
        parts.append(_end("up to" if band.high.owned else "below", band.high, unit, sheet))
    return ", ".join(parts)


def _end(word: str, limit: Limit, unit: str, sheet: Sheet) -> str:
    return f"{word} {write(Quantity(limit_value(limit, unit, sheet), unit))}"


def scale(step: Measure, sheet: Sheet) -> Sequence[tuple[str, str]]:
    """Each band's limits in words, with what the band means."""
    return [(words(band, step.unit, sheet), band.say) for band in step.bands]
