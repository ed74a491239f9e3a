"""Tyres of one vehicle against each other: how far their readings lie apart.

An all-wheel driveline turns its centre coupling whenever front and rear tyres differ in rolled distance, so
the difference between the largest and the smallest tyre is what a limit is set on.
"""

from collections.abc import Sequence
from fractions import Fraction

from engine.errors import Refusal
from engine.quantity import Quantity, convert, dimension


def spread(readings: Sequence[Quantity]) -> Quantity:
    """The largest reading minus the smallest, in the unit of the first.

    Formula: max(x) - min(x). Source: definition of the range of a sample, ISO 3534-1.
    Raises ValueError for fewer than two readings, for readings of different kinds, and for
    temperatures: a difference of two is no point on their scale (2 °C apart is not 35.6 °F apart).

    Four tyres rolled one turn: 1990 - 1976 = 14 mm.

    >>> rolled = [Quantity(Fraction(mm), "mm") for mm in (1984, 1990, 1976, 1984)]
    >>> print(spread(rolled))
    14 mm
    """
    values, unit = _together(readings)
    return Quantity(max(values) - min(values), unit)


def relative_spread(readings: Sequence[Quantity]) -> Quantity | Refusal:
    """The largest reading minus the smallest, in per cent of the smallest.

    Formula: 100 (max(x) - min(x)) / min(x). Source: arithmetic; per cent of the smallest is the cautious
    choice, for it is the larger of the two percentages.
    Refuses a smallest reading of zero or less, of which nothing can be a percentage. Raises
    ValueError as `spread` does.

    Four tyres rolled one turn, 19 mm apart on 1900 mm: 1 %.

    >>> rolled = [Quantity(Fraction(mm), "mm") for mm in (1910, 1900, 1919, 1912)]
    >>> print(relative_spread(rolled))
    1 %
    """
    values, unit = _together(readings)
    smallest = min(values)
    if smallest <= 0:
        message = f"The smallest reading is {Quantity(smallest, unit)}; nothing is a percentage of that."
        return Refusal("figure", message, "Measure again; every reading has to be more than zero.")
    return Quantity(100 * (max(values) - smallest) / smallest, "%")


def _together(readings: Sequence[Quantity]) -> tuple[list[Fraction], str]:
    """The numbers of all readings in the unit of the first."""
    if len(readings) < 2:
        raise ValueError(f"A spread needs two readings or more, not {len(readings)}.")
    unit = readings[0].unit
    if dimension(unit) == "temperature":
        raise ValueError("The spread of temperatures is a difference, not a temperature.")
    return [convert(reading, unit).value for reading in readings], unit
