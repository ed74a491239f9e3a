"""Tyres of one vehicle against each other: how far their readings lie apart.

An all-wheel driveline turns its centre coupling whenever front and rear tyres differ in rolled distance, so
the difference between the largest and the smallest tyre is what a limit is set on.
"""

from collections.abc import Sequence
from fractions import Fraction
from typing import Final

from engine.errors import Refusal
from engine.quantity import write_number
from engine.trade.calculator import Calculator, Input, Output


def spread(readings: Sequence[Fraction]) -> Fraction:
    """The largest reading minus the smallest, in the unit of both.

    Formula: max(x) - min(x). Source: definition of the range of a sample, ISO 3534-1.

    Four tyres rolled one turn: 1990 - 1976 = 14 mm.

    >>> print(spread([Fraction(mm) for mm in (1984, 1990, 1976, 1984)]))
    14
    """
    return max(readings) - min(readings)


def relative_spread(readings: Sequence[Fraction]) -> Fraction | Refusal:
    """The largest reading minus the smallest, in per cent of the smallest.

    Formula: 100 (max(x) - min(x)) / min(x). Source: arithmetic; per cent of the smallest is the cautious
    choice, for it is the larger of the two percentages.
    Refuses a smallest reading of zero or less, of which nothing can be a percentage.

    Four tyres rolled one turn, 19 mm apart on 1900 mm: 1 %.

    >>> print(relative_spread([Fraction(mm) for mm in (1910, 1900, 1919, 1912)]))
    1
    """
    smallest = min(readings)
    if smallest <= 0:
        message = f"The smallest reading is {write_number(smallest)}; nothing is a percentage of that."
        return Refusal("figure", message, "Measure again; every reading has to be more than zero.")
    return 100 * (max(readings) - smallest) / smallest


def _relative(readings: Sequence[Fraction]) -> tuple[Fraction] | Refusal:
    figure = relative_spread(readings)
    return figure if isinstance(figure, Refusal) else (figure,)


_READINGS: Final = (Input("readings", "x", "Readings of one kind", "any", many=2),)
_VALID: Final = "For two readings or more of one kind, taken in one way. Not for temperatures."
CALCULATORS: Final = (
    Calculator(
        name="spread",
        family="tyres",
        title="Largest reading minus smallest",
        inputs=_READINGS,
        outputs=(Output("spread", "R", "Largest minus smallest", "same"),),
        function=lambda readings: (spread(readings),),
        formula=("R = max(x) - min(x)",),
        source="ISO 3534-1, sample range",
        mark="published",
        valid=_VALID,
        exact=True,
        example="readings='1984, 1990, 1976, 1984 mm'",
    ),
    Calculator(
        name="relative-spread",
        family="tyres",
        title="Largest reading minus smallest, in per cent of the smallest",
        inputs=_READINGS,
        outputs=(Output("relative-spread", "r", "Largest minus smallest, of the smallest", "%"),),
        function=_relative,
        formula=("r = 100 (max(x) - min(x)) / min(x)",),
        source="arithmetic",
        mark="computed",
        valid=_VALID,
        exact=True,
        example="readings='1910, 1900, 1919, 1912 mm'",
    ),
)
