"""The short way to a number as it is mostly typed: `30`, `30 N·m`, `12.5 in`.

A plot works a sum out a thousand times, and a screen at every key. What is typed plainly needs no fractions:
the short way gives the very number that the long one rounds to, or None, and then the long one is taken.
"""

from fractions import Fraction
from functools import lru_cache
from typing import Final

from engine.errors import Refusal
from engine.number import plainly
from engine.quantity import Quantity, convert, dimension, parse, spelling
from engine.trade.inputs import ANY, Input

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


def exactly(text: str, wanted: Input) -> Fraction | None:
    """The same as a fraction, for formulas that stay exact.

    >>> str(exactly("12.5 mm", Input("length", "L", "Length", "mm", least=0)))
    '25/2'
    """
    found = plainly(text)
    rate = _rate(found[2], wanted.unit) if found else None
    if found is None or rate is None:
        return None
    value = _fraction(found, rate)
    return value if wanted.least < value < wanted.most else None


def several(text: str, wanted: Input) -> tuple[float, ...] | None:
    """A list typed plainly: the unit stands behind the last number, or behind each.

    >>> several("12, 12.5 mm", Input("length", "L", "Length", "mm", least=0, many=2))
    (12.0, 12.5)
    """
    found = _listed(text, wanted)
    return None if found is None else tuple(map(float, found))


def several_exactly(text: str, wanted: Input) -> tuple[Fraction, ...] | None:
    """The same as fractions."""
    return _listed(text, wanted)


def _listed(text: str, wanted: Input) -> tuple[Fraction, ...] | None:
    parts = [plainly(part.strip()) for part in text.split(";" if ";" in text else ",")]
    found = [part for part in parts if part is not None]
    if len(found) < len(parts) or len(parts) < wanted.many:
        return None
    unit = found[-1][2]
    units = {part[2] for part in found[:-1]}
    rate = _any_rate(unit) if wanted.unit == ANY else _rate(unit, wanted.unit)
    if rate is None or len(units) > 1 or not units <= {"", unit}:
        return None
    values = tuple(_fraction(part, rate) for part in found)
    return values if wanted.least < min(values) and max(values) < wanted.most else None


def _fraction(found: tuple[int, int, str], rate: _Rate) -> Fraction:
    (digits, places, _), (top, shift, bottom) = found, rate
    ten: int = 10**places
    return Fraction(digits * top + shift * ten, bottom * ten)


@lru_cache(maxsize=1024)
def _any_rate(unit: str) -> _Rate | None:
    """Readings of any kind stay in the unit typed; temperatures and other spellings take a second look."""
    sound = not unit or (dimension(unit) not in (None, "temperature") and spelling(unit) == unit)
    return (1, 0, 1) if sound else None


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
