"""How fast a coupling slips on the road, from tyres that differ or a turn, and what an hour of it does.

Lengths in mm (wheelbase and radius in m), speed in km/h, slip in rpm at the coupling. The ratio is that
between the wheels and the coupling: the axle ratio for a coupling on the propeller shaft, 1 for one at the
wheels.
"""

from math import hypot, inf
from typing import Final, NamedTuple

from engine.errors import Refusal
from engine.trade.calculator import Calculator, Input, Output
from engine.trade.coupling_heat import HEATED, Body, settled, warmed
from engine.trade.coupling_torque import rad_s
from engine.trade.plot import Plot


class Slip(NamedTuple):
    """Speed of a wheel, difference of the two axles at the wheels, slip at the coupling; all in rpm."""

    wheel: float
    difference: float
    coupling: float


class Hour(NamedTuple):
    """Slip in rpm, torque in N·m and power in W at the start; then kJ so far, °C, °C at last, and W."""

    slip: float
    torque: float
    power: float
    heat: float
    temperature: float
    settled: float
    power_then: float


def wheel_speed(speed: float, circumference: float) -> float:
    """Turns a minute of a wheel. Formula: n = v / C. Source: kinematics.

    >>> round(wheel_speed(100, 1927.6), 1)
    864.6
    """
    return speed / 0.06 / (circumference / 1000)


def from_mismatch(mismatch: float, speed: float, circumference: float, ratio: float) -> Slip:
    """The slip at a road speed between axles whose tyres differ by so many per cent of circumference.

    Formula: dn = (v / C) (m / 100) i. Source: kinematics. Straight road; front and rear axle ratios alike.

    One per cent at 100 km/h, axle ratio 3.5: a thirtieth of a hundred turns a minute, and more.

    >>> [round(value, 2) for value in from_mismatch(1, 100, 1927.6, 3.5)]
    [864.63, 8.65, 30.26]
    """
    wheel = wheel_speed(speed, circumference)
    return Slip(wheel, wheel * mismatch / 100, wheel * mismatch / 100 * ratio)


def in_turn(wheelbase: float, radius: float, speed: float, circumference: float, ratio: float) -> Slip:
    """The slip in a turn, from the wheelbase and the radius of the rear axle's path, both in m.

    Formula: front / rear path = √(1 + (L / R)²); dn = (v / C) (path - 1) i, v that of the rear axle.
    Source: geometry of two axles, no tyre slip.

    2.6 m on a radius of 4.5 m: the front goes 15.5 % further, more than any tyres differ.

    >>> [round(value, 1) for value in in_turn(2.6, 4.5, 5, 1927.6, 3.5)]
    [43.2, 6.7, 23.4]
    """
    return from_mismatch(100 * (hypot(1, wheelbase / radius) - 1), speed, circumference, ratio)


def mismatch_like(slip: float, speed: float, circumference: float, ratio: float) -> float | Refusal:
    """The mismatch in per cent that would slip the coupling as fast at a road speed.

    Formula: m = 100 dn / (n i), the way back of `from_mismatch`. Refuses a vehicle at rest.

    The tight turn above loads the coupling like 0.8 % at 100 km/h: one test shows both faults.

    >>> round(mismatch_like(23.4, 100, 1927.6, 3.5), 2)
    0.77
    """
    if not speed:
        return Refusal("at-rest", "A vehicle at rest turns no wheel.", "Give a road speed above zero.")
    return 100 * slip / (wheel_speed(speed, circumference) * ratio)


def after(minutes: float, slip: float, damping: float, body: Body) -> Hour:
    """What a slip that lasts does to a coupling: the heat in it, its temperature and where it would settle.

    Formula: T = c ω, P = c ω² at the start; then as `coupling_heat`. `body` is the unit at the start; its
    power is worked out here. The damping is that of the fluid at the temperature of the start. Source: lumped
    body.

    1 % of mismatch at 100 km/h, for an hour, in a unit that loses 12 W/K and thins with heat:

    >>> slip = from_mismatch(1, 100, 1927.6, 3.5).coupling
    >>> hour = after(60, slip, 55.949, Body(0, 25, 25, 3302.5, 12, 1750))
    >>> round(hour.torque), round(hour.power), round(hour.temperature)
    (177, 562, 53)
    """
    omega = rad_s(slip)
    warm = body._replace(power=damping * omega**2)
    temperature = warmed(warm, minutes * 60)
    return Hour(
        slip,
        damping * omega,
        warm.power,
        _heat(warm, minutes * 60, temperature),
        temperature,
        settled(warm),
        warm.power_at(temperature),
    )


def _heat(body: Body, seconds: float, temperature: float) -> float:
    """What went in, kJ: what the unit holds, and what it lost to the air (Simpson's rule over the time)."""
    steps, part, above = 64, body, [body.start - body.ambient]
    for _ in range(steps):
        warmer = warmed(part, seconds / steps)
        part = part._replace(power=part.power_at(warmer), start=warmer)
        above.append(warmer - body.ambient)
    total = above[0] + above[-1] + 4 * sum(above[1:-1:2]) + 2 * sum(above[2:-1:2])
    return (body.capacity * (temperature - body.start) + body.loss * total * seconds / steps / 3) / 1000


_SPEED: Final = Input("speed", "v", "Road speed", "km/h", least=0, most=400)
_ROLLED: Final = Input("circumference", "Cr", "Rolled in one turn of a wheel", "mm", least=500, most=4000)
_RATIO: Final = Input(
    "ratio", "i", "Coupling turns a turn of the wheel", "", least=0.2, most=10, default="3.5"
)
_DAMPING: Final = Input(
    "damping", "c", "Torque for its slip", "N·m·s/rad", least=0, most=10_000, default="55.949"
)


def _hour(
    mismatch: float,
    speed: float,
    circumference: float,
    ratio: float,
    minutes: float,
    damping: float,
    capacity: float,
    loss: float,
    ambient: float,
    start: float,
    thinning: float,
) -> tuple[float | None, ...]:
    body = Body(0, start, ambient, capacity, loss, thinning)
    hour = after(minutes, from_mismatch(mismatch, speed, circumference, ratio).coupling, damping, body)
    return hour if hour.settled < inf else (*hour[:5], None, hour.power_then)


def _turn(
    wheelbase: float, radius: float, speed: float, circumference: float, ratio: float, like: float
) -> tuple[float, float, float, float] | Refusal:
    turn = in_turn(wheelbase, radius, speed, circumference, ratio)
    as_mismatch = mismatch_like(turn.coupling, like, circumference, ratio)
    if isinstance(as_mismatch, Refusal):
        return as_mismatch
    return 100 * (hypot(1, wheelbase / radius) - 1), turn.wheel, turn.coupling, as_mismatch


CALCULATORS: Final = (
    Calculator(
        name="mismatch-hour",
        family="coupling",
        title="What a mismatch of the axles does to a coupling in an hour",
        inputs=(
            Input("mismatch", "m", "Mismatch of the axles", "%", least=0, most=30, default="1"),
            _SPEED,
            _ROLLED,
            _RATIO,
            Input("minutes", "t", "Time on the road", "min", least=0, most=1440, default="60"),
            _DAMPING,
            *(each._replace(default="1750") if each.name == "thinning" else each for each in HEATED),
        ),
        outputs=(
            Output("slip", "n", "Slip at the coupling", "rpm"),
            Output("torque", "T", "Torque at the start", "N·m"),
            Output("power", "P", "Heat at the start", "W"),
            Output("heat", "E", "Heat put in", "kJ"),
            Output("temperature", "Tt", "Temperature then", "°C"),
            Output("settled", "Tend", "It would settle at", "°C"),
            Output("power-then", "Pt", "Heat then", "W"),
        ),
        function=_hour,
        formula=(
            "n = v / Cr · m i",
            "T = c 2 π n / 60  (n in rpm)",
            "P = c (2 π n / 60)²  (n in rpm)",
            "C dθ/dt = P exp(B (1/θ - 1/θ0)) - G (θ - θa)  (θ the temperature in kelvin)",
        ),
        source="kinematics; lumped body, heat-transfer textbooks",
        mark="computed",
        valid="Straight road, even speed, below the hump. The unit is a model one: put in your own.",
        example="speed=100 circumference=1927.6",
        plots=(
            Plot("mismatch", 0, 5, "power"),
            Plot("mismatch", 0, 5, "temperature"),
        ),
    ),
    Calculator(
        name="turn-slip",
        family="coupling",
        title="Slip of the coupling in a tight turn",
        inputs=(
            Input("wheelbase", "L", "Wheelbase", "m", least=1, most=6),
            Input("radius", "R", "Radius of the rear axle's path", "m", least=1, most=1000),
            _SPEED,
            _ROLLED,
            _RATIO,
            Input("like", "vs", "Road speed to compare with", "km/h", least=1, most=400, default="100"),
        ),
        outputs=(
            Output("path", "p", "Front path is longer by", "%"),
            Output("wheel", "nw", "Rear wheels", "rpm"),
            Output("slip", "n", "Slip at the coupling", "rpm"),
            Output("mismatch", "m", "As from tyres unlike by", "%"),
        ),
        function=_turn,
        formula=("p = √(1 + (L / R)²) - 1", "nw = v / Cr", "n = nw p i", "m = n Cr / (vs i)"),
        source="geometry of two axles without tyre slip",
        mark="computed",
        valid="Slow turns on grip. One tight turn slips a coupling as bad tyres do at speed.",
        example="wheelbase=2.6 radius=4.5 speed=5 circumference=1927.6",
    ),
)
