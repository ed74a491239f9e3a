"""Tests of a coupling that need a lever, a stop-watch and no more; and what they come to at a wheel.

Damping in N·m·s/rad: the torque over the slip in radians a second. A lever with a weight falls slowly against
it. Joints, bearings and seals drag too, so a time measured at a wheel is longer than that of the coupling
alone.
"""

from math import exp, log, radians, tan
from typing import Final, NamedTuple

from engine.errors import Refusal
from engine.trade.answers import single
from engine.trade.calculator import Calculator, Input, Output

#: Standard fall, m/s².
FALL: Final = 9.80665


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
    time: float, damping: float, one: float, other: float, first: float, second: float
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
    slip = (first - second) * exp(-damping * time * together / (one * other))
    return RunDown(slip, common, common + slip * other / together, common - slip * one / together)


def _span(start: float, end: float) -> float | Refusal:
    """The logarithm of the half angles' tangents."""
    if not 0 < start < end < 180:
        message = f"A lever does not fall from {start:g}° to {end:g}°."
        return Refusal("angles", message, "Count both from upright: 0° < first < second < 180°.")
    return log(tan(radians(end) / 2) / tan(radians(start) / 2))


_LEVER: Final = (
    Input("mass", "m", "Weight on the lever", "kg", least=0.1, most=200),
    Input("length", "L", "Shaft to the weight's centre", "m", least=0.05, most=5),
    Input("start", "a1", "First angle from upright", "°", least=0, most=180, default="45"),
    Input("end", "a2", "Second angle from upright", "°", least=0, most=180, default="90"),
)
_DAMPING: Final = Input("damping", "c", "Torque for its slip", "N·m·s/rad", least=0.001, most=1e6)
_RATIO: Final = Input("ratio", "i", "Propeller shaft turns a turn of the wheels", "", least=0.5, most=10)
_OVERDAMPED: Final = (
    "For a lever that falls slowly and steadily; its own weight is to be added. Drag of joints counts too."
    " Engine off, vehicle on the hoist's locks, nobody below the lever or within its reach."
)


CALCULATORS: Final = (
    Calculator(
        name="lever-time",
        family="coupling",
        title="How long a weighted lever takes to fall",
        inputs=(_DAMPING, *_LEVER),
        outputs=(Output("time", "t", "Time", "s"),),
        function=lambda damping, mass, length, start, end: single(
            lever_time(damping, mass, length, start, end)
        ),
        formula=("t = c / (m 9.80665 L) ln(tan(a2 / 2) / tan(a1 / 2))",),
        source="overdamped pendulum, mechanics textbook",
        mark="computed",
        valid=_OVERDAMPED,
        example="damping=500 mass=5 length=1",
    ),
    Calculator(
        name="lever-damping",
        family="coupling",
        title="Damping of a coupling from the lever's time",
        inputs=(Input("time", "t", "Time that the lever took", "s", least=0.1, most=3600), *_LEVER),
        outputs=(Output("damping", "c", "Torque for its slip", "N·m·s/rad"),),
        function=lambda time, mass, length, start, end: single(lever_damping(time, mass, length, start, end)),
        formula=("c = t m 9.80665 L / ln(tan(a2 / 2) / tan(a1 / 2))",),
        source="overdamped pendulum, mechanics textbook",
        mark="computed",
        valid=_OVERDAMPED,
        example="time=9 mass=5 length=1",
    ),
    Calculator(
        name="damping-at-wheel",
        family="coupling",
        title="Damping of the coupling as felt at one raised wheel",
        inputs=(_DAMPING, _RATIO),
        outputs=(Output("at-wheel", "cw", "Torque for its speed, at the wheel", "N·m·s/rad"),),
        function=lambda damping, ratio: (at_wheel(damping, ratio),),
        formula=("cw = c (i / 2)²",),
        source="open differential: kinematics and balance of power",
        mark="computed",
        valid="Turned by hand, engine off. Other wheel on the ground, far side of the coupling held, open"
        " differential. Joints add drag.",
        example="damping=56 ratio=4",
    ),
    Calculator(
        name="damping-from-wheel",
        family="coupling",
        title="Damping of the coupling from that at one raised wheel",
        inputs=(
            Input("at-wheel", "cw", "Torque for its speed, at the wheel", "N·m·s/rad", least=0, most=1e6),
            _RATIO,
        ),
        outputs=(Output("damping", "c", "Torque for its slip", "N·m·s/rad"),),
        function=lambda at_wheel, ratio: (at_coupling(at_wheel, ratio),),
        formula=("c = cw / (i / 2)²",),
        source="open differential: kinematics and balance of power",
        mark="computed",
        valid="As `damping-at-wheel`. The drag of joints and seals is in it: the coupling has less.",
        example="at-wheel=224 ratio=4",
    ),
    Calculator(
        name="coupling-run-down",
        family="coupling",
        title="Two free turning parts that a coupling brings together",
        inputs=(
            Input("time", "t", "Time", "s", least=0, most=3600),
            _DAMPING,
            Input("one", "J1", "First part's inertia", "kg·m²", least=0.0001, most=1000),
            Input("other", "J2", "Second part's inertia", "kg·m²", least=0.0001, most=1000),
            Input("first", "n1", "First part's speed", "rpm", least=-20_000, most=20_000),
            Input("second", "n2", "Second part's speed", "rpm", least=-20_000, most=20_000, default="0"),
        ),
        outputs=(
            Output("slip", "dn", "Slip left", "rpm"),
            Output("common", "n", "Common speed at last", "rpm"),
            Output("first-then", "n1t", "First part then", "rpm"),
            Output("second-then", "n2t", "Second part then", "rpm"),
        ),
        function=run_down,
        formula=(
            "J = J1 J2 / (J1 + J2)",
            "dn = (n1 - n2) exp(-c t / J)",
            "n = (J1 n1 + J2 n2) / (J1 + J2)",
            "n1t = n + dn J2 / (J1 + J2)",
            "n2t = n - dn J1 / (J1 + J2)",
        ),
        source="conservation of angular momentum",
        mark="computed",
        valid="Both parts free, nothing else braking them.",
        example="time=0.1 damping=10 one=0.8 other=1.2 first=955",
    ),
)
