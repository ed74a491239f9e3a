"""What a coupling takes when a vehicle is towed with one axle rolling and the other held.

The whole propeller-shaft speed is slip then. Speed in km/h, circumference in mm, torque in N·m, heat capacity
in J/K, temperatures in °C. Nothing cools in so short a time, so nothing is taken off for it.
"""

from typing import Final, NamedTuple

from engine.errors import Refusal
from engine.trade.calculator import Calculator, Input, Output
from engine.trade.coupling_slip import wheel_speed
from engine.trade.coupling_torque import rad_s
from engine.trade.plot import Plot


class Towed(NamedTuple):
    """Slip in rpm, heat in kW, warming in K/s, seconds and metres to the limit."""

    slip: float
    heat: float
    rate: float
    time: float
    distance: float


def towed(
    speed: float,
    circumference: float,
    ratio: float,
    torque: float,
    capacity: float,
    start: float,
    limit: float,
) -> Towed | Refusal:
    """How long and how far a coupling lasts with one axle rolling and the other held.

    Formula: n = v i / C; P = T w; t = c (tl - t0) / P; s = v t. Source: kinematics and heat without loss. The
    torque stays: thinning with heat lowers it, the hump raises it many times. Refuses a limit that is passed
    at the start, and a vehicle or a coupling that does nothing.

    50 km/h, axle ratio 3.5, 200 N·m, 3302.5 J/K, from 25 to 135 °C: 11.5 seconds and 159 metres.

    >>> found = towed(50, 1927.6, 3.5, 200, 3302.5, 25, 135)
    >>> [round(value, 1) for value in found]
    [1513.1, 31.7, 9.6, 11.5, 159.2]
    """
    if limit <= start:
        message = f"The coupling starts at {start:g} °C, and its limit is {limit:g} °C."
        return Refusal("limit", message, "It is not to be moved on its wheels; let it cool.")
    slip = wheel_speed(speed, circumference) * ratio
    power = torque * rad_s(slip)
    if not power > 0:
        return Refusal("no-heat", "Without speed or torque there is no heat.", "Give both above zero.")
    seconds = capacity * (limit - start) / power
    return Towed(slip, power / 1000, power / capacity, seconds, speed / 3.6 * seconds)


HEAT: Final = (
    Input(
        "circumference", "C", "Rolled in one turn of a wheel", "mm", least=500, most=4000, default="1927.6"
    ),
    Input("ratio", "i", "Coupling turns a turn of the wheel", "", least=0.2, most=10, default="3.5"),
    Input("torque", "T", "Torque of the coupling at that slip", "N·m", least=1, most=10_000, default="200"),
    Input("capacity", "c", "Heat that warms it by 1 K", "J/K", least=10, most=1e6, default="3302.5"),
    Input("start", "t0", "Its temperature", "°C", least=-60, most=120, default="25"),
    Input("limit", "tl", "Its limit", "°C", least=0, most=250, default="135"),
)

CALCULATORS: Final = (
    Calculator(
        name="towing-heat",
        family="moving",
        title="How long a coupling lasts, towed with one axle held",
        inputs=(Input("speed", "v", "Towing speed", "km/h", least=1, most=150), *HEAT),
        outputs=(
            Output("slip", "n", "Slip of the coupling", "rpm"),
            Output("heat", "P", "Heat", "kW"),
            Output("rate", "r", "It warms by", "K/s"),
            Output("time", "t", "At its limit after", "s"),
            Output("distance", "s", "And after", "m"),
        ),
        function=towed,
        formula=(
            "n = v i / C",
            "P = T 2 π n / 60  (n in rpm)",
            "r = P / c",
            "t = c (tl - t0) / P",
            "s = v t",
        ),
        source="kinematics, heat without loss; the unit's figures are invented until you put in your own",
        mark="computed",
        valid="To show why it is not done. It is never leave to tow on two wheels for so many metres.",
        example="speed=50",
        plots=(Plot("speed", 10, 100, "time"),),
    ),
)
