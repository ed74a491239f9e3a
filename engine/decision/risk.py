"""What a limit costs: bad parts accepted, good parts rejected. For choosing a limit, not for a walk."""

from collections.abc import Callable
from dataclasses import dataclass
from math import ceil, exp, isinf, lgamma, log, sqrt
from typing import Final, NamedTuple

from engine.decision.conformity import conformity
from engine.decision.normal import density
from engine.quadrature import integral

Interval = tuple[float, float]

_HALVINGS: Final = 60


@dataclass(frozen=True, slots=True)
class Prior:
    """How true values are spread before anything is measured."""

    density: Callable[[float], float]
    #: Outside of these, nothing worth counting is left.
    low: float
    high: float
    #: A length over which the density changes little.
    step: float


class Risks(NamedTuple):
    """Parts of all that is measured, from 0 to 1."""

    #: Bad and accepted.
    consumer: float
    #: Good and rejected.
    producer: float
    #: Accepted, good or bad.
    accepted: float


def normal(mean: float, deviation: float) -> Prior:
    """A process that scatters normally.

    >>> round(normal(0, 1).density(0), 4)
    0.3989
    """
    return Prior(
        lambda x: density((x - mean) / deviation) / deviation,
        mean - 12 * deviation,
        mean + 12 * deviation,
        deviation / 2,
    )


def gamma(shape: float, scale: float) -> Prior:
    """A quantity that cannot be negative, as a run-out (JCGM 106:2012, 9.5.4).

    >>> round(gamma(1, 2).density(2), 4)  # the exponential distribution: exp(-1) / 2
    0.1839
    """

    def at(x: float) -> float:
        if x <= 0:
            return 0.0
        return exp((shape - 1) * log(x / scale) - x / scale - lgamma(shape)) / scale

    return Prior(at, 0.0, scale * (shape + 12 * sqrt(shape) + 40), scale / 2)


def specific(value: float, uncertainty: float, tolerance: Interval, accepted: Interval) -> Risks:
    """The risks with one reading: of accepting what is bad, or of rejecting what is good (9.3).

    Limits may be infinite. One of the two risks is always 0, as a reading is either accepted or not.

    >>> round(specific(9.0, 1.0, (-float("inf"), 10.0), (-float("inf"), 10.0)).consumer, 4)
    0.1587
    """
    good = conformity(value, uncertainty, *tolerance)
    taken = accepted[0] <= value <= accepted[1]
    return Risks(1 - good if taken else 0.0, 0.0 if taken else good, float(taken))


def overall(prior: Prior, uncertainty: float, tolerance: Interval, accepted: Interval) -> Risks:
    """The global risks of JCGM 106:2012, 9.5: over all parts of a process, and all readings of them.

    Integrals of the density times the probability of acceptance, by quadrature in panels no longer than half
    the standard uncertainty. Raises ValueError without any uncertainty.
    """
    if not uncertainty > 0:
        raise ValueError("Without uncertainty nothing is decided wrongly.")

    def taken(x: float) -> float:
        return prior.density(x) * conformity(x, uncertainty, *accepted)

    def left(x: float) -> float:
        return prior.density(x) * (1 - conformity(x, uncertainty, *accepted))

    panel = min(prior.step, uncertainty / 2)
    good = _within(prior, *tolerance)
    inside = _integral(taken, *good, panel)
    consumer = sum(_integral(taken, *part, panel) for part in _outside(prior, good))
    return Risks(consumer, _integral(left, *good, panel), inside + consumer)


def nonconforming(prior: Prior, tolerance: Interval) -> float:
    """The part of a process that lies outside its limits, measured or not.

    >>> round(nonconforming(normal(0, 1), (-1.96, 1.96)), 3)
    0.05
    """
    outside = _outside(prior, _within(prior, *tolerance))
    return sum(_integral(prior.density, *part, prior.step) for part in outside)


def guard_for(consumer: float, prior: Prior, uncertainty: float, tolerance: Interval) -> float:
    """The guard band that holds the consumer's risk at this, the same at both limits; found by halving.

    Negative where the limits may even be relaxed.
    """
    low, high = -10 * uncertainty, 10 * uncertainty
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        accepted = (tolerance[0] + middle, tolerance[1] - middle)
        if overall(prior, uncertainty, tolerance, accepted).consumer > consumer:
            low = middle
        else:
            high = middle
    return (low + high) / 2


def _integral(function: Callable[[float], float], low: float, high: float, panel: float) -> float:
    """The integral in panels no longer than `panel`."""
    return integral(function, low, high, panels=max(1, ceil((high - low) / panel)))


def _within(prior: Prior, low: float, high: float) -> Interval:
    """The limits, cut to where the process has anything."""
    floor = prior.low if isinf(low) else max(low, prior.low)
    ceiling = prior.high if isinf(high) else min(high, prior.high)
    return floor, max(floor, ceiling)


def _outside(prior: Prior, good: Interval) -> tuple[Interval, Interval]:
    return (prior.low, good[0]), (good[1], prior.high)
