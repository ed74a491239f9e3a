"""The short way to a number as it is mostly typed: `30`, `30 N·m`, `12.5 in`.

A plot works a sum out a thousand times, and a screen at every key. What is typed plainly needs no fractions:
the short way gives the very number that the long one rounds to, or None, and then the long one is taken.
"""

from functools import lru_cache
from typing import Final

from engine.errors import Refusal
from engine.number import plainly
from engine.quantity import Quantity, convert, parse
from engine.trade.inputs import Input

#: How a unit converts: `(number * top + shift) / bottom`, whole numbers all.
_Rate = tuple[int, int, int]
#: Longer units are read the long way, which says how long a text may be.
_LONGEST: Final = 20


def quick(text: str, wanted: Input) -> float | None:
    """The number in the unit of the input, where it is typed plainly and lies well within the bounds.

    >>> length = Input("length", "L", "Length", "mm", least=0)
    >>> quick("12 in", length), quick("1/2 in", length)
    (304.8, None)
    """
    found = plainly(text)
    if found is None:
        return None
    digits, places, unit = found
    rate = _rate(unit, wanted.unit)
    if rate is None:
        return None
    top, shift, bottom = rate
    ten: int = 10**places
    # whole numbers divide to the float that is nearest to the exact value, as a fraction does
    value: float = (digits * top + shift * ten) / (bottom * ten)
    return value if wanted.least < value < wanted.most else None


@lru_cache(maxsize=1024)
def _rate(typed: str, unit: str) -> _Rate | None:
    """How the unit typed becomes the one that is wanted; None where that takes a second look."""
    if typed in ("", unit):
        return 1, 0, 1
    if unit in ("", "K") or len(typed) > _LONGEST:
        return None  # a plain number has no unit, a difference of temperatures no zero point
    one = parse(f"1 {typed}", unit)
    if isinstance(one, Refusal) or one.value != 1:
        return None
    zero = convert(Quantity(one.value - 1, one.unit), unit).value
    slope = convert(one, unit).value - zero
    bottom = zero.denominator * slope.denominator
    return slope.numerator * zero.denominator, zero.numerator * slope.denominator, bottom
