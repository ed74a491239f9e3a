"""How sure readings make of the band that they lie in, and what to do where they do not."""

from collections.abc import Callable, Mapping, Sequence
from fractions import Fraction
from math import floor, sqrt
from typing import NamedTuple

from engine.decision.conformity import shares
from engine.decision.estimate import Estimate, estimate, single
from engine.decision.finer import gauge_needed, readings_needed, uncertainty_needed
from engine.errors import Refusal
from engine.interview import limits
from engine.interview.state import State
from engine.model.shop import Gauge
from engine.model.tree import Measure, Wanted
from engine.quantity import Quantity, convert, dimension, write

Figured = Callable[[Mapping[str, Quantity]], Quantity | Refusal]


class Sure(NamedTuple):
    """What is known of a figure beside its value."""

    #: That the true value lies in the band.
    probability: float
    #: Standard, in the unit of the figure.
    uncertainty: float
    #: The largest standard uncertainty that would decide; 0 where the figure lies on a limit.
    needed: float
    #: The estimate of the least certain reading.
    worst: Estimate


def settled(state: State, want: Wanted, readings: Sequence[Quantity]) -> Estimate:
    """What the readings of one thing come to, in the unit of the step."""
    gauge = state.library.shop.gauges[want.gauge]
    step = _length(want, gauge)
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
    off, value = _uncertainty(step, found, figure, figured), float(figure.value)
    needed = uncertainty_needed(value, pairs, band, float(state.tree.confidence))
    worst = max(found.values(), key=lambda one: one.uncertainty)
    return Sure(shares(value, off, pairs, band)[band], off, needed, worst)


def close(state: State, step: Measure, figure: Quantity, band: int, sure: Sure) -> Refusal:
    """Too close to call: how close, and what would decide."""
    words = limits.words(step.bands[band], step.unit, state.sheet)
    wanted = float(state.tree.confidence) * 100
    told = f"{percent(sure.probability)} sure, {wanted:g} % is wanted"
    message = f"Too close to call: {write(figure)}, {words}: {told}."
    ways = [*_again(state, step, sure), *_finer(state, step, sure)]
    lead = "" if ways else "It lies so near the limit that no gauge here decides it. "
    ways += ["say that it cannot be told"] if step.unsure else []
    told = ", or ".join((*ways, "take it as it stands"))
    return Refusal("too-close", message, f"{lead}{told[0].upper()}{told[1:]}.", insist=True)


def percent(probability: float) -> str:
    """Never more than is so: rounded down, and short of all.

    >>> percent(0.9499), percent(0.999999)
    ('94 %', 'over 99 %')
    """
    return "over 99 %" if probability > 99 / 100 else f"{floor(probability * 100)} %"


def _again(state: State, step: Measure, sure: Sure) -> list[str]:
    want, worst = step.readings[0], sure.worst
    if worst.apart:
        return ["read it once more, as the readings lie too far apart and one was misread"]
    gauge = state.library.shop.gauges[want.gauge]
    length, part = _length(want, gauge), sure.uncertainty / worst.uncertainty
    scatter, mark = float(gauge.uncertainty) * length, float(gauge.resolution) * length
    more = readings_needed(worst.readings, lambda count: single(scatter, mark, count) * part, sure.needed)
    if more is None:
        return []
    times = "once more" if more == 1 else f"{more} more times"
    return [f"read it {times}"]


def _finer(state: State, step: Measure, sure: Sure) -> list[str]:
    want = step.readings[0]
    allowed = sure.needed * sure.worst.uncertainty / sure.uncertainty
    if allowed <= 0:
        return []
    fine = sorted(
        gauge.title
        for gauge in state.library.shop.gauges.values()
        if dimension(gauge.unit) == dimension(want.unit) and _alone(want, gauge) <= allowed
    )
    named = f" ({', '.join(fine)})" if fine else ""
    mark = Fraction(f"{gauge_needed(allowed):.1g}")
    finest = _length(want, state.library.shop.gauges[want.gauge]) / 1000
    if not fine and mark < finest:
        return []
    return [f"use a gauge good to {write(Quantity(mark, want.unit))}{named}"]


def _alone(want: Wanted, gauge: Gauge) -> float:
    step = _length(want, gauge)
    return single(float(gauge.uncertainty) * step, float(gauge.resolution) * step)


def _length(want: Wanted, gauge: Gauge) -> float:
    """One unit of the gauge in the unit of the reading; a difference, so that °C to °F is 1.8."""
    one, none = (convert(Quantity(Fraction(n), gauge.unit), want.unit).value for n in (1, 0))
    return float(one - none)


def _uncertainty(step: Measure, found: Mapping[str, Estimate], figure: Quantity, figured: Figured) -> float:
    """What the uncertainty of the readings makes of the figure's.

    A spread is largest less smallest: two readings, each off by itself, so sqrt(2) times that of one; which
    two is left open, and the largest uncertainty is taken for both. For other figures each reading is moved
    by its own uncertainty (JCGM 100:2008, 5.1.3, note 2), and the changes add as squares.
    """
    worst = max(one.uncertainty for one in found.values())
    if not step.figure:
        return worst
    if step.figure == "spread":
        return sqrt(2) * worst
    values = {want.name: Quantity(found[want.name].value, want.unit) for want in step.readings}
    changes = (_change(values, name, one.uncertainty, figure, figured) for name, one in found.items())
    return sqrt(sum(change * change for change in changes))


def _change(
    values: Mapping[str, Quantity], name: str, by: float, figure: Quantity, figured: Figured
) -> float:
    """The larger of what moving one reading up and down changes."""
    moved = (
        figured({**values, name: Quantity(values[name].value + sign * Fraction(by), values[name].unit)})
        for sign in (1, -1)
    )
    return max((abs(float(m.value - figure.value)) for m in moved if isinstance(m, Quantity)), default=0.0)
