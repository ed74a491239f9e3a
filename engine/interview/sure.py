"""How sure readings make of the band that they lie in."""

from collections.abc import Callable, Mapping, Sequence
from fractions import Fraction
from math import floor, hypot
from typing import NamedTuple

from engine.decision.conformity import shares
from engine.decision.estimate import Estimate, estimate, single
from engine.decision.finer import uncertainty_needed
from engine.errors import Refusal
from engine.interview import limits
from engine.interview.state import State
from engine.model.shop import Gauge
from engine.model.tree import Measure, Wanted
from engine.quantity import Quantity, convert

Figured = Callable[[Mapping[str, Quantity]], Quantity | Refusal]


class Sure(NamedTuple):
    """What is known of a figure beside its value."""

    #: That the true value lies in the band.
    probability: float
    #: Standard, in the unit of the figure.
    uncertainty: float
    #: The largest standard uncertainty that would decide; 0 where the figure lies on a limit.
    needed: float
    #: What each reading came to, in its unit, by its name.
    found: Mapping[str, Estimate]
    #: What each adds to the uncertainty of the figure, in the unit of that; together as squares.
    parts: Mapping[str, float]
    #: The probability of each band, in their order; one in sum.
    bands: tuple[float, ...]


def settled(state: State, want: Wanted, readings: Sequence[Quantity]) -> Estimate:
    """What the readings of one thing come to, in the unit of the step."""
    gauge = state.library.shop.gauges[want.gauge]
    step = length(want, gauge)
    values = [quantity.value for quantity in readings]
    return estimate(values, float(gauge.uncertainty) * step, float(gauge.resolution) * step)


def judged(  # noqa: PLR0913  reason: the figure, its band and all that it comes from
    state: State,
    step: Measure,
    found: Mapping[str, Estimate],
    figure: Quantity,
    *,
    band: int,
    figured: Figured,
) -> Sure:
    """How sure the figure is of its band."""
    ends = [
        tuple(end and float(limits.limit_value(end, step.unit, state.sheet)) for end in (one.low, one.high))
        for one in step.bands
    ]
    pairs = [(low, high) for low, high in ends]
    parts, value = _parts(step, found, figure, figured), float(figure.value)
    off = hypot(*parts.values())
    needed = uncertainty_needed(value, pairs, band, float(state.tree.confidence))
    each = shares(value, off, pairs, band)
    return Sure(each[band], off, needed, found, parts, each)


def percent(probability: float) -> str:
    """Never more than is so: rounded down, and short of all.

    >>> percent(0.9499), percent(0.999999)
    ('94 %', 'over 99 %')
    """
    return "over 99 %" if probability > 99 / 100 else f"{floor(probability * 100)} %"


def alone(want: Wanted, gauge: Gauge, count: int = 1) -> float:
    """The standard uncertainty of so many readings of one thing with a gauge, in the unit of the reading."""
    step = length(want, gauge)
    return single(float(gauge.uncertainty) * step, float(gauge.resolution) * step, count)


def length(want: Wanted, gauge: Gauge) -> float:
    """One unit of the gauge in the unit of the reading; a difference, so that °C to °F is 1.8."""
    one, none = (convert(Quantity(Fraction(n), gauge.unit), want.unit).value for n in (1, 0))
    return float(one - none)


def _parts(
    step: Measure, found: Mapping[str, Estimate], figure: Quantity, figured: Figured
) -> dict[str, float]:
    """What each reading adds to the uncertainty of the figure.

    Each reading is moved by its own uncertainty (JCGM 100:2008, 5.1.3, note 2), and the changes add as
    squares. Of a spread that are the largest and the smallest reading, and those that lie so near to one of
    them that they may be it.
    """
    if not step.figure:
        return {name: one.uncertainty for name, one in found.items()}
    values = {want.name: Quantity(found[want.name].value, want.unit) for want in step.readings}
    return {name: _change(values, name, one.uncertainty, figure, figured) for name, one in found.items()}


def _change(
    values: Mapping[str, Quantity], name: str, by: float, figure: Quantity, figured: Figured
) -> float:
    """The larger of what moving one reading up and down changes."""
    moved = (
        figured({**values, name: Quantity(values[name].value + sign * Fraction(by), values[name].unit)})
        for sign in (1, -1)
    )
    return max((abs(float(m.value - figure.value)) for m in moved if isinstance(m, Quantity)), default=0.0)
