"""The points of a curve: a calculation for each, one input varied and the others as they were given."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Final

from engine.errors import Refusal
from engine.quantity import Quantity
from engine.trade.calculator import Calculator, Given, Sum, compute
from engine.trade.inputs import Input
from engine.trade.plot import Plot
from engine.trade.sums import written
from engine.trade.taking import Kept

__all__ = ["Curve", "Line", "Plot", "curve"]

#: Digits of a place on the axis: enough to be where it is drawn.
_GRAIN: Final = 10**9


@dataclass(frozen=True, slots=True)
class Line:
    """One curve: a height for each place, None where the calculator does not hold."""

    name: str
    heights: tuple[float | None, ...]
    #: Its height at the input as it stands; None where it cannot be told.
    now: float | None


@dataclass(frozen=True, slots=True)
class Curve:
    """What to draw: places along, heights up, each in its unit, and where the input stands now."""

    along: str
    along_unit: str
    up: str
    up_unit: str
    places: tuple[float, ...]
    lines: tuple[Line, ...]
    #: Where the input that varies stands; None where it is not given, or cannot be taken.
    now: float | None


def curve(calculator: Calculator, plot: Plot, given: Mapping[str, Given], count: int) -> Curve | None:
    """The curve through `count` places; None where the other inputs do not make a sum.

    It reaches as far as the input as it stands, where that lies beyond the range of the plot.

    >>> from engine.trade.registry import find
    >>> wear = find("tread-wear")
    >>> made = curve(wear, Plot("depth", 0, 8, "change"), {"depth": "4 mm", "diameter": "800 mm"}, 3)
    >>> made.places, made.now, [line.heights for line in made.lines]
    ((0.0, 4.0, 8.0), 4.0, [(0.0, 1.0, 2.0)])
    """
    wanted = next(one for one in calculator.inputs if one.name == plot.over)
    present = compute(calculator, given)
    now = _place(present, plot.over)
    places = _places(plot, now, count)
    sums = [compute(calculator, {**given, plot.over: _given(wanted, place)}) for place in places]
    made = next((one for one in sums if isinstance(one, Sum)), None)
    if made is None:
        return None
    shown = next(one for one in calculator.outputs if one.name == plot.shows)
    heights = [_heights(one, plot.shows) for one in sums]
    there = _heights(present, plot.shows)
    lines = tuple(
        Line(name, tuple(_at(column, number) for column in heights), _at(there, number))
        for number, name in enumerate(_names(made, plot))
    )
    return Curve(wanted.title, wanted.unit, shown.title, shown.unit, tuple(map(float, places)), lines, now)


def _places(plot: Plot, now: float | None, count: int) -> Sequence[Fraction]:
    low, high = (Fraction(round(bound * _GRAIN), _GRAIN) for bound in (plot.low, plot.high))
    if now is not None:
        here = Fraction(round(now * _GRAIN), _GRAIN)
        low, high = min(low, here), max(high, here)
    return [low + (high - low) * k / (count - 1) for k in range(count)]


def _given(wanted: Input, place: Fraction) -> Quantity | Fraction:
    return Quantity(place, wanted.unit) if wanted.unit else place


def _place(present: Sum | Refusal, over: str) -> float | None:
    if isinstance(present, Refusal):
        return None
    (value,) = present.taken[over].values
    return None if isinstance(value, str) else float(value)


def _heights(made: Sum | Refusal, shows: str) -> Sequence[float | None]:
    if isinstance(made, Refusal) or shows not in made.outputs:
        return ()
    return [_number(one) for one in _listed(made.outputs[shows])]


def _number(value: Kept) -> float | None:
    match value:
        case Quantity():
            return float(value.value)
        case Fraction():
            return float(value)
    return None


def _at(heights: Sequence[float | None], number: int) -> float | None:
    return heights[number] if number < len(heights) else None


def _names(made: Sum, plot: Plot) -> Sequence[str]:
    """A name for each curve; one that stands alone needs none."""
    count = len(_listed(made.outputs[plot.shows])) if plot.shows in made.outputs else 0
    if plot.by:
        told = made.outputs.get(plot.by) or made.inputs[plot.by]
        return [written(one) for one in _listed(told)][:count]
    return [""] * count


def _listed(value: Kept) -> Sequence[Kept]:
    return value if isinstance(value, tuple) else (value,)
