"""What a load at the wheels, a pump or the engine's own friction takes from an engine at idle.

An engine that stalls in gear meets a load beyond the reserve of idle: a coupling or a brake that drags.
Torque in N·m, power in W, displacement in litres, mean pressure in bar.
"""

from math import pi
from typing import Final

from engine.errors import Refusal
from engine.trade.calculator import Calculator, Input, Output
from engine.trade.coupling_torque import rad_s


def at_crank(torque: float, axle: float, gear: float, efficiency: float = 90) -> float:
    """The torque at the crankshaft for one at the wheels; efficiency in per cent.

    Formula: T / (i g η). Source: mechanics.

    A brake of 300 N·m against an axle of 3.5 in a gear of 3.6 takes 26 N·m of the engine.

    >>> round(at_crank(300, 3.5, 3.6), 1)
    26.5
    """
    return torque / (axle * gear * efficiency / 100)


def of_power(power: float, speed: float) -> float | Refusal:
    """The torque of a power at an engine speed in rpm. Formula: P / ω. Refuses an engine at rest.

    >>> round(of_power(1500, 800), 1)
    17.9
    """
    if not speed > 0:
        return Refusal("at-rest", "An engine at rest gives no power.", "Give its speed above zero.")
    return power / rad_s(speed)


def friction(pressure: float, displacement: float, speed: float = 0) -> tuple[float, float]:
    """Torque and power of a four-stroke engine's own friction, from its mean pressure.

    Formula: T = p V / (4 π); P = T ω. Source: engine textbooks.

    1 bar in two litres, at 800 rpm:

    >>> [round(value, 2) for value in friction(1, 2, 800)]
    [15.92, 1333.33]
    """
    torque = pressure * 1e5 * displacement / 1000 / (4 * pi)
    return torque, torque * rad_s(speed)


def _of_power(power: float, speed: float) -> tuple[float] | Refusal:
    found = of_power(power, speed)
    return found if isinstance(found, Refusal) else (found,)


_SPEED: Final = Input("speed", "n", "Engine speed", "rpm", least=0, most=12_000, default="800")

CALCULATORS: Final = (
    Calculator(
        name="load-at-crank",
        family="engine",
        title="What a drag at the wheels takes from the engine",
        inputs=(
            Input("torque", "T", "Drag of the driven wheels", "N·m", least=0, most=20_000),
            Input("axle", "i", "Axle ratio", "", least=0.5, most=10),
            Input("gear", "g", "Ratio of the gear", "", least=0.3, most=10),
            Input("efficiency", "η", "Efficiency of the driveline", "%", least=30, most=100, default="90"),
        ),
        outputs=(Output("crank", "Tc", "At the crankshaft", "N·m"),),
        function=lambda torque, axle, gear, efficiency: (at_crank(torque, axle, gear, efficiency),),
        formula=("Tc = T / (i g η)",),
        source="mechanics; the efficiency is common practice",
        mark="computed",
        valid="At steady speed, with no slip between engine and wheels.",
        example="torque=300 axle=3.5 gear=3.6",
    ),
    Calculator(
        name="torque-of-power",
        family="engine",
        title="The torque of a load whose power is known",
        inputs=(Input("power", "P", "Power of the load", "W", least=0, most=1e6), _SPEED),
        outputs=(Output("torque", "T", "At the crankshaft", "N·m"),),
        function=_of_power,
        formula=("T = P / (2 π n / 60)  (n in rpm)",),
        source="mechanics",
        mark="computed",
        valid="At steady speed, belt losses left out.",
        example="power='1.5 kW'",
    ),
    Calculator(
        name="engine-friction",
        family="engine",
        title="What an engine's own friction takes",
        inputs=(
            Input("pressure", "p", "Mean pressure of friction", "bar", least=0, most=5),
            Input("displacement", "V", "Displacement", "L", least=0.05, most=20),
            _SPEED,
        ),
        outputs=(
            Output("torque", "T", "At the crankshaft", "N·m"),
            Output("power", "P", "Power", "W"),
        ),
        function=friction,
        formula=("T = p V / (4 π)", "P = T 2 π n / 60  (n in rpm)"),
        source="engine textbooks",
        mark="published",
        valid="For four-stroke engines. Cold oil takes twice as much and more.",
        example="pressure=1 displacement=2",
    ),
)
