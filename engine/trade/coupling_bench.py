"""Tests of a coupling that need a lever, a stop-watch and no more; and what they come to at a wheel.

Damping in N·m·s/rad: the torque over the slip in radians a second. A lever with a weight falls slowly against
it. Joints, bearings and seals drag too, so a time measured at a wheel is longer than that of the coupling
alone.
"""

from math import exp, log, radians, tan
from typing import NamedTuple

from engine.errors import Refusal

FALL = 9.80665


class RunDown(NamedTuple):
    """Slip left, the common speed, and the speeds of both bodies; all in the unit of the speeds given."""

    slip: float
    common: float
    first: float
    second: float


def lever_time(damping: float, mass: float, length: float, start: float, end: float) -> float | Refusal:
    """Seconds that a weighted lever takes from one angle to another; degrees from upright, kg, m.

    Formula: t = c / (m g L) ln(tan(θ2/2) / tan(θ1/2)). Source: motion of an overdamped pendulum, mechanics
    textbook; holds while the damping is far above the lever's own swing. L is from the shaft to the weight's
    centre; a heavy lever's own moment is to be added. Refuses angles that do not grow, and 0 and 180°, where
    nothing falls.

    5 kg at 1 m, from 45° to level, against 500 N·m·s/rad:

    >>> round(lever_time(500, 5, 1, 45, 90), 3)
    8.988
    """
    span = _span(start, end)
    return span if isinstance(span, Refusal) else damping / (mass * FALL * length) * span


def lever_damping(seconds: float, mass: float, length: float, start: float, end: float) -> float | Refusal:
    """The damping in N·m·s/rad from the time that the lever took; the way back of `lever_time`.

    >>> round(lever_damping(8.98751, 5, 1, 45, 90), 2)
    500.0
    """
    span = _span(start, end)
    return span if isinstance(span, Refusal) else seconds * mass * FALL * length / span


def at_wheel(damping: float, ratio: float) -> float:
    """The damping felt at one raised wheel, its mate on the ground and the far side of the coupling held.

    Formula: c (i/2)²: the propeller shaft turns i/2 times a wheel turn, and half its torque times i comes
    back. Source: open differential (kinematics and balance of power).

    >>> at_wheel(56, 4)
    224.0
    """
    return damping * (ratio / 2) ** 2


def at_coupling(wheel_damping: float, ratio: float) -> float:
    """The damping of the coupling from that felt at the wheel; the way back of `at_wheel`.

    >>> at_coupling(224, 4)
    56.0
    """
    return wheel_damping / (ratio / 2) ** 2


def run_down(
    seconds: float, damping: float, one: float, other: float, first: float, second: float
) -> RunDown | Refusal:
    """Two free turning parts joined by a coupling: their speeds after a time; inertias in kg·m².

    Formula: dω = dω0 e^(-c t / J), J = J1 J2 / (J1 + J2); common speed (J1 ω1 + J2 ω2) / (J1 + J2).
    Source: conservation of angular momentum. Refuses an inertia of zero.

    0.8 kg·m² at speed 100 against 1.2 at rest, 10 N·m·s/rad, after a tenth of a second:

    >>> [round(value, 2) for value in run_down(0.1, 10, 0.8, 1.2, 100, 0)]
    [12.45, 40.0, 47.47, 35.02]
    """
    if one <= 0 or other <= 0:
        message = f"Inertias of {one:g} and {other:g} kg·m² are none."
        return Refusal("inertia", message, "Give both above zero; a wheel with its tyre has about 1 kg·m².")
    together = one + other
    common = (one * first + other * second) / together
    slip = (first - second) * exp(-damping * seconds * together / (one * other))
    return RunDown(slip, common, common + slip * other / together, common - slip * one / together)


def _span(start: float, end: float) -> float | Refusal:
    """The logarithm of the half angles' tangents."""
    if not 0 < start < end < 180:
        message = f"A lever does not fall from {start:g}° to {end:g}°."
        return Refusal("angles", message, "Count both from upright: 0° < first < second < 180°.")
    return log(tan(radians(end) / 2) / tan(radians(start) / 2))
