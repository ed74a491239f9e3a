"""What a number that cannot be right may have meant: another unit, a slipped point, swapped digits.

A guess is only ever told. Nothing is corrected in silence.
"""

from collections.abc import Iterator
from fractions import Fraction
from itertools import pairwise
from typing import Final

from engine.quantity import Quantity, convert, dimension, partner, units, write

_SLIPS: Final = (Fraction(1, 10), Fraction(10), Fraction(1, 100), Fraction(100))
_MOST: Final = 3


def guesses(
    typed: Quantity, low: Fraction | float, high: Fraction | float, unit: str, *, bare: bool = False
) -> tuple[Quantity, ...]:
    """What `typed`, which is not within `low` to `high` of `unit`, may have meant; the likeliest first.

    Every guess lies within the two limits and differs by one slip only: the unit, the decimal point, two
    neighbouring digits, or the sign. `bare` says that the number was typed without its unit. Never more
    than three. ValueError for a unit of another kind.

    >>> [str(guess) for guess in guesses(Quantity(Fraction(125), "mm"), 5, 50, "mm")]
    ['12.5 mm']
    >>> [str(guess) for guess in guesses(Quantity(Fraction("0.5"), "mm"), 10, 20, "mm", bare=True)]
    ['0.5 in']
    >>> [str(guess) for guess in guesses(Quantity(Fraction(91), "mm"), 15, 25, "mm")]
    ['19 mm']
    """
    ways = (_units, _slips, _swaps, _signs) if bare else (_slips, _swaps, _units, _signs)
    fitting: list[Quantity] = []
    for way in ways:
        for guess in way(typed):
            if guess not in fitting and low <= convert(guess, unit).value <= high:
                fitting.append(guess)
    return tuple(fitting[:_MOST])


def asked(found: tuple[Quantity, ...]) -> str:
    """The guesses as a question; empty where there is none.

    >>> asked((Quantity(Fraction(25, 2), "mm"), Quantity(Fraction(125), "in")))
    'Did you mean 12.5 mm or 125 in?'
    """
    return f"Did you mean {' or '.join(map(write, found))}?" if found else ""


def _units(typed: Quantity) -> Iterator[Quantity]:
    """The same number in other units of its kind, that of the other system first."""
    kind, usual = dimension(typed.unit), partner(typed.unit)
    for unit in (*((usual,) if usual else ()), *units()):
        if unit != typed.unit and dimension(unit) == kind:
            yield Quantity(typed.value, unit)


def _slips(typed: Quantity) -> Iterator[Quantity]:
    """The same digits with the point one or two places off."""
    for slip in _SLIPS:
        yield Quantity(typed.value * slip, typed.unit)


def _swaps(typed: Quantity) -> Iterator[Quantity]:
    """The same digits with two neighbours swapped, as they stand when the number is written."""
    text = write(typed).removesuffix(typed.unit).strip()
    if text.startswith("≈"):
        return  # what was typed is not known to its last digit
    places = [at for at, sign in enumerate(text) if sign.isdigit()]
    for here, there in pairwise(places):
        signs = list(text)
        signs[here], signs[there] = signs[there], signs[here]
        yield Quantity(Fraction("".join(signs)), typed.unit)


def _signs(typed: Quantity) -> Iterator[Quantity]:
    """The same number on the other side of zero."""
    yield Quantity(-typed.value, typed.unit)
