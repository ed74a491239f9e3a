"""The limits of a measuring step, each from below and from above, and which of these a reading tries."""

from collections.abc import Iterator, Mapping
from fractions import Fraction
from typing import Final, Literal

from engine.errors import Refusal
from engine.interview.limits import chosen, limit_value
from engine.interview.reading import compared
from engine.model.shop import Gauge
from engine.model.tree import Band, Limit, Measure, Wanted
from engine.model.vehicle import Sheet
from engine.number import beside_unit, write_number
from engine.quantity import Quantity, convert

#: One end of a band: its upper limit is tried from below, its lower limit from above.
End = Literal["low", "high"]
#: The number of a band, counted from 0, and one of its ends.
Side = tuple[int, End]
_ENDS: Final[tuple[End, ...]] = ("low", "high")


def sides(step: Measure) -> tuple[Side, ...]:
    """Every end at which a band borders on another one: those that readings have to try.

    Where no band begins at the end of another, the figure is not believed to go further.
    """
    return tuple(
        (number, end)
        for number, band in enumerate(step.bands)
        for end in _ENDS
        if any(_one(_end(band, end), _end(other, _opposite(end))) for other in step.bands)
    )


def tried(
    step: Measure, read: Mapping[str, Quantity], sheet: Sheet, gauges: Mapping[str, Gauge]
) -> frozenset[Side]:
    """The ends of its band that these readings try, each in the unit that the step asks for.

    An end is tried where one mark more or less of its gauge, in one of the readings, carries the figure
    across it. What lies on a limit is in the band that the limit belongs to.
    """
    figure = compared(step, read, sheet)
    band = None if isinstance(figure, Refusal) else chosen(step, figure.value, sheet)
    ends = [end for number, end in sides(step) if number == band]
    if band is None or not ends:
        return frozenset()
    near = tuple(_moved(step, read, sheet, gauges))
    return frozenset(
        (band, end)
        for end in ends
        if any(_across(step.bands[band], end, value, step.unit, sheet) for value in near)
    )


def mark(want: Wanted, gauge: Gauge) -> Fraction:
    """From one mark of the gauge to the next, in the unit of the reading, exactly."""
    one, none = (
        convert(Quantity(each, gauge.unit), want.unit).value for each in (gauge.resolution, Fraction(0))
    )
    return one - none


def words(step: Measure, side: Side) -> str:
    """A limit and the side of it, for people: `6 mm, from below`."""
    number, end = side
    limit = _end(step.bands[number], end)
    assert limit is not None, "a side has a limit"
    at = f"sheet.{limit.sheet}" if limit.value is None else beside_unit(write_number(limit.value), step.unit)
    return f"{at.rstrip()}, from {'below' if end == 'high' else 'above'}"


def _moved(
    step: Measure, read: Mapping[str, Quantity], sheet: Sheet, gauges: Mapping[str, Gauge]
) -> Iterator[Fraction]:
    """What the figure comes to with one of the readings a mark higher or lower."""
    for want in step.readings:
        by = mark(want, gauges[want.gauge])
        for value in (read[want.name].value - by, read[want.name].value + by):
            figure = compared(step, {**read, want.name: Quantity(value, want.unit)}, sheet)
            if not isinstance(figure, Refusal):
                yield figure.value


def _across(band: Band, end: End, value: Fraction, unit: str, sheet: Sheet) -> bool:
    """Whether a figure lies beyond this end of the band."""
    limit = _end(band, end)
    assert limit is not None, "a side has a limit"
    at = limit_value(limit, unit, sheet)
    return (value == at and not limit.owned) or (value < at if end == "low" else value > at)


def _end(band: Band, end: End) -> Limit | None:
    return band.low if end == "low" else band.high


def _opposite(end: End) -> End:
    return "high" if end == "low" else "low"


def _one(limit: Limit | None, other: Limit | None) -> bool:
    """Whether both are the same limit, which one band owns and the other does not."""
    if limit is None or other is None:
        return False
    return (limit.value, limit.sheet) == (other.value, other.sheet)
