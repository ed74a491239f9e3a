"""How hot unlike tyres make a coupling on the road, where the same speed that heats it also cools it.

The heat of the slip grows with the square of the road speed, what the air carries off with less than its
first power: a coupling that lives at 50 km/h may not at 100.
"""

from typing import Final, NamedTuple

from engine.errors import Refusal
from engine.trade.air_cooling import AMBIENT, CASE, SPEED, cooled
from engine.trade.calculator import Calculator, Input, Output
from engine.trade.coupling_heat import Body, seconds_to, settled, warmed
from engine.trade.coupling_slip import from_mismatch
from engine.trade.coupling_torque import rad_s
from engine.trade.plot import Plot


class Warming(NamedTuple):
    """Slip rpm, heat W, loss W/K, temperature then and at last °C, seconds to the limit or None for never."""

    slip: float
    heat: float
    loss: float
    temperature: float
    settled: float
    time: float | None


def on_the_road(
    mismatch: float,
    speed: float,
    seconds: float,
    limit: float,
    rolled: tuple[float, float, float],
    body: Body,
) -> Warming:
    """How a coupling warms while unlike tyres slip it at a steady speed; `rolled` is C in mm, i and c.

    Formula: dn = (v / C) m i; P = c ω² at the start; then as `coupling_heat`, with its loss. Source:
    kinematics and lumped body.

    1 % at 100 km/h, ten minutes, in a unit that loses 2.57 W/K: it would come to 244 °C if it did not thin.

    >>> unit = Body(0, 25, 25, 3302.5, 2.57)
    >>> found = on_the_road(1, 100, 600, 120, (1927.6, 3.5, 55.949), unit)
    >>> round(found.heat), round(found.temperature), round(found.settled), round(found.time)
    (562, 107, 244, 733)
    """
    circumference, ratio, damping = rolled
    slip = from_mismatch(mismatch, speed, circumference, ratio).coupling
    warm = body._replace(power=damping * rad_s(slip) ** 2)
    time = seconds_to(warm, limit)
    reached = None if isinstance(time, Refusal) else time
    return Warming(slip, warm.power, warm.loss, warmed(warm, seconds), settled(warm), reached)


def _road(
    mismatch: float,
    speed: float,
    limit: float,
    time: float,
    circumference: float,
    ratio: float,
    damping: float,
    diameter: float,
    length: float,
    share: float,
    capacity: float,
    ambient: float,
    start: float,
    thinning: float,
) -> Warming | Refusal:
    if limit <= start:
        message = f"The unit starts at {start:g} °C, and the limit is {limit:g} °C."
        return Refusal("limit", message, "Give a limit above the temperature at the start.")
    loss = cooled(speed, diameter, length, share, limit, ambient)[2]
    body = Body(0, start, ambient, capacity, loss, thinning)
    return on_the_road(mismatch, speed, time, limit, (circumference, ratio, damping), body)


CALCULATORS: Final = (
    Calculator(
        name="coupling-road",
        family="coupling",
        title="How hot unlike tyres make a coupling in the air of the road",
        inputs=(
            Input("mismatch", "m", "Mismatch of the axles", "%", least=0, most=20),
            SPEED,
            Input("limit", "tl", "Temperature limit", "°C", least=0, most=300, default="120"),
            Input("time", "t", "Time on the road", "s", least=0, most=604_800, default="3600"),
            Input(
                "circumference",
                "Cr",
                "Rolled in one turn of a wheel",
                "mm",
                least=500,
                most=4000,
                default="1927.6",
            ),
            Input("ratio", "i", "Coupling turns a turn of the wheel", "", least=0.2, most=10, default="3.5"),
            Input("damping", "c", "Torque for its slip", "N·m·s/rad", least=0, most=10_000, default="55.949"),
            *CASE,
            Input(
                "capacity",
                "C",
                "Heat that warms the unit by 1 K",
                "J/K",
                least=10,
                most=1e6,
                default="3302.5",
            ),
            AMBIENT,
            Input("start", "t0", "Temperature at the start", "°C", least=-60, most=250, default="25"),
            Input(
                "thinning",
                "B",
                "Thinning constant of the fluid in kelvin",
                "",
                least=0,
                most=6000,
                default="0",
            ),
        ),
        outputs=(
            Output("slip", "n", "Slip of the coupling", "rpm"),
            Output("heat", "P", "Heat at the start", "W"),
            Output("loss", "G", "Heat lost for each kelvin above the air", "W/K"),
            Output("temperature", "T", "Temperature then", "°C"),
            Output("settled", "Tend", "It would settle at", "°C"),
            Output("reached", "tr", "At its limit after", "s"),
        ),
        function=_road,
        formula=(
            "n = v / Cr m i",
            "P = c (2 π n / 60)²  (n in rpm)",
            "C dθ/dt = P exp(B (1/θ - 1/θ0)) - G (θ - θa)  (θ the temperature in kelvin)",
        ),
        source="kinematics, lumped body, heat transfer of a cylinder across the stream with the case at its"
        " limit; the unit's figures are invented until you put in your own",
        mark="computed",
        valid="One temperature for the whole unit, below its hump. B = 0 keeps the heat and is the worst"
        " case. Nothing stands at the last line where the limit is never reached.",
        example="mismatch=1 speed=100",
        plots=(Plot("speed", 10, 130, "settled"), Plot("time", 0, 3600, "temperature")),
    ),
)
