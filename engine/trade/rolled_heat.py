"""From tyres as they were rolled to the coupling: how fast it slips at a road speed, and how hot it runs.

Front and rear are what one turn of a wheel of the axle rolls, in mm, the mean of its two wheels. Speed in
km/h, slip in rpm, power in W, temperatures in °C.
"""

from math import inf
from typing import Final, NamedTuple

from engine.trade.calculator import Calculator, Input, Output
from engine.trade.coupling_heat import HEATED, Body, settled
from engine.trade.coupling_slip import from_mismatch
from engine.trade.coupling_torque import rad_s
from engine.trade.inputs import Values
from engine.trade.plot import Plot


class Run(NamedTuple):
    """What unlike axles do to a coupling: where it settles, its slip, the heat of that, and the mismatch."""

    settled: float
    slip: float
    power: float
    mismatch: float


def axles(front: float, rear: float) -> float:
    """How unlike the axles are in per cent of the slower one.

    >>> round(axles(2020, 2000), 9)
    1.0
    """
    return 100 * (max(front, rear) / min(front, rear) - 1)


def run(front: float, rear: float, speed: float, ratio: float, damping: float, body: Body) -> Run:
    """Where the coupling settles after a long drive; infinite where nothing cools it.

    Formula: m = C large / C small - 1; dn = (v / C) m i, C the larger, for that axle turns slower; P = c ω²
    cold; then P exp(B (1/θ - 1/θ0)) = G (θ - θa). Source: kinematics; lumped body.

    1 % at 100 km/h, 3.5 shaft turns a wheel turn, 12 W/K lost, the fluid not thinning:
    865 turns a minute times 0.01 and 3.5 are 30.3 rpm, 3.17 rad/s; 55.949 times its square 563 W; over 12
    is 47 K above the air.

    >>> cold = Body(0, 25, 25, 3302.5, 12)
    >>> [round(value, 1) for value in run(1927.6, 1908.5, 100, 3.5, 55.949, cold)]
    [71.9, 30.3, 562.8, 1.0]
    """
    unlike = axles(front, rear)
    slip = from_mismatch(unlike, speed, max(front, rear), ratio).coupling
    power = damping * rad_s(slip) ** 2
    return Run(settled(body._replace(power=power)), slip, power, unlike)


def _run(
    front: float,
    rear: float,
    speed: float,
    ratio: float,
    damping: float,
    loss: float,
    ambient: float,
    thinning: float,
) -> Values:
    found = run(front, rear, speed, ratio, damping, Body(0, ambient, ambient, 1, loss, thinning))
    return found if found.settled < inf else (None, *found[1:])


_HEATED: Final = {each.name: each for each in HEATED}
_AXLE: Final = "one turn, mean of both wheels"
CALCULATORS: Final = (
    Calculator(
        name="rolled-heat",
        family="tyres",
        title="How hot the coupling runs on tyres as they roll",
        inputs=(
            Input("front", "Cf", f"Front axle rolls in {_AXLE}", "mm", least=500, most=4000),
            Input("rear", "Cr", f"Rear axle rolls in {_AXLE}", "mm", least=500, most=4000),
            Input("speed", "v", "Road speed", "km/h", least=0, most=300),
            Input(
                "ratio",
                "i",
                "Coupling turns a turn of the wheel",
                "per turn",
                least=0.2,
                most=10,
                default="3.5",
            ),
            Input(
                "damping",
                "c",
                "Torque of the coupling for its slip, cold",
                "N·m·s/rad",
                least=0,
                most=10_000,
                default="55.949",
            ),
            _HEATED["loss"]._replace(least=0.1),
            _HEATED["ambient"],
            _HEATED["thinning"]._replace(default="1750"),
        ),
        outputs=(
            Output("settled", "Tend", "It would settle at", "°C"),
            Output("slip", "n", "Slip at the coupling", "rpm"),
            Output("power", "P", "Heat of it, cold", "W"),
            Output("mismatch", "m", "The axles differ by", "%"),
        ),
        function=_run,
        formula=(
            "m = max(Cf, Cr) / min(Cf, Cr) - 1",
            "n = v / max(Cf, Cr) · m i",
            "P = c (2 π n / 60)²  (n in rpm)",
            "P exp(B (1/θ - 1/θa)) = G (θ - θa)  (θ the temperature in kelvin, at Tend)",
        ),
        source="kinematics; lumped body, heat-transfer textbooks",
        mark="computed",
        valid="A long straight drive at one speed, below the hump. Bends and stops let it cool.",
        example="front=1908 rear=1927 speed=100",
        plots=(Plot("speed", 0, 160, "settled"),),
    ),
)
