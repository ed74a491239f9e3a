"""What a parking brake must hold, and what a test that drives the propeller shaft against it may expect.

Mass in kg, radius in mm, force in N, torque in N·m.
"""

from math import atan, sin
from typing import Final, NamedTuple

from engine.trade.calculator import Calculator, Input, Output

_FALL: Final = 9.80665


class Hold(NamedTuple):
    """Force along the road, torque at all braked wheels, at each of them and at the propeller shaft."""

    force: float
    torque: float
    each: float
    shaft: float | None


def hold(
    mass: float, radius: float, gradient: float = 20, wheels: float = 2, ratio: float | None = None
) -> Hold:
    """What keeps a vehicle on a gradient in per cent.

    Formula: F = m g sin(atan(s)); T = F r; shaft T / i. Source: mechanics; that 20 % must be held (UN R13-H,
    FMVSS 135) from memory. Rolling resistance helps and is left out.

    1600 kg on 20 %, tyres of 306 mm loaded radius:

    >>> [round(value) for value in hold(1600, 306, ratio=3.5)]
    [3077, 942, 471, 269]
    """
    force = mass * _FALL * sin(atan(gradient / 100))
    torque = force * radius / 1000
    return Hold(force, torque, torque / wheels, None if ratio is None else torque / ratio)


CALCULATORS: Final = (
    Calculator(
        name="parking-brake-hold",
        family="brakes",
        title="What a parking brake must hold on a gradient",
        inputs=(
            Input("mass", "m", "Mass of the loaded vehicle", "kg", least=100, most=50_000),
            Input("radius", "r", "From the wheel's middle to the ground", "mm", least=100, most=1000),
            Input("gradient", "s", "Gradient", "%", least=0.1, most=100, default="20"),
            Input("wheels", "N", "Braked wheels", "", least=1, most=4, default="2"),
            Input("ratio", "i", "Axle ratio", "", least=0.5, most=10, optional=True),
        ),
        outputs=(
            Output("force", "F", "Force along the road", "N"),
            Output("torque", "T", "Torque of all braked wheels", "N·m"),
            Output("each", "T1", "Torque of each", "N·m"),
            Output("shaft", "Tp", "Torque at the propeller shaft of the braked axle", "N·m"),
        ),
        function=hold,
        formula=("F = m 9.80665 sin(atan(s))", "T = F r", "T1 = T / N", "Tp = T / i"),
        source="mechanics; the 20 % of UN R13-H and FMVSS 135 from memory",
        mark="computed",
        valid="Without rolling resistance. The law of the place says which gradient must be held.",
        example="mass=1600 radius=306 ratio=3.5",
    ),
)
