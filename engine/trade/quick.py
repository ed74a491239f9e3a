"""The short way to a number as it is mostly typed: `30`, `30 N·m`, `12.5 in`.

A plot works a sum out a thousand times, and a screen at every key. What is typed plainly needs no fractions:
the short way gives the very number that the long one rounds to, or None, and then the long one is taken.
"""

import re
from collections.abc import Callable
from functools import cache, lru_cache
from typing import NamedTuple

from engine.errors import Refusal
from engine.quantity import Quantity, convert, parse
from engine.trade.inputs import Input


class _Rate(NamedTuple):
    """How a unit converts: `(number * top + shift) / bottom`, whole numbers all."""

    top: int
    shift: int
    bottom: int


def quick(text: str, wanted: Input) -> float | None:
    """The number in the unit of the input, where it is typed plainly and lies well within the bounds.

    >>> length = Input("length", "L", "Length", "mm", least=0)
    >>> quick("12 in", length), quick("1/2 in", length)
    (304.8, None)
    """
    found = _plain()(text)
    if found is None:
        return None
    whole, part, unit = found.groups("")
    rate = _rate(unit, wanted.unit)
    if rate is None:
        return None
    top, shift, bottom = rate
    ten: int = 10 ** len(part)
    # whole numbers divide to the float that is nearest to the exact value, as a fraction does
    value: float = (int(whole + part) * top + shift * ten) / (bottom * ten)
    return value if wanted.least < value < wanted.most else None


@cache
def _plain() -> Callable[[str], re.Match[str] | None]:
    shape = r"(-?[0-9]{1,9})(?:\.([0-9]{1,6}))?(?: ?([A-Za-z%°µΩ][^\s,;]{0,14}))?"
    return re.compile(shape, re.ASCII).fullmatch


@lru_cache(maxsize=1024)
def _rate(typed: str, unit: str) -> _Rate | None:
    """How the unit typed becomes the one that is wanted; None where that takes a second look."""
    if unit == "K" or not (unit or not typed):
        return None  # a difference of temperatures has no zero point, a plain number no unit
    if not typed:
        return _Rate(1, 0, 1)
    one = parse(f"1 {typed}", unit)
    if isinstance(one, Refusal) or one.value != 1:
        return None
    zero = convert(Quantity(one.value - 1, one.unit), unit).value
    slope = convert(one, unit).value - zero
    bottom = zero.denominator * slope.denominator
    return _Rate(slope.numerator * zero.denominator, zero.numerator * slope.denominator, bottom)
