"""One Cardan joint: how unevenly it turns its second shaft.

Angles in degrees. The turn of the first shaft counts from where its yoke stands across the plane of the two
shafts (`across`) or in that plane (`in-plane`); mixing the two is the usual mistake. Across, the second shaft
turns slowest; in the plane, fastest. Twice a turn, so a fault of joint angles is felt at twice shaft speed.
"""

from math import atan, atan2, cos, degrees, pi, radians, sin, sqrt, tan
from typing import Final, NamedTuple

from engine.trade.calculator import Calculator, Input, Output
from engine.trade.plot import Plot

ACROSS: Final = "across"
IN_PLANE: Final = "in-plane"


class Uneven(NamedTuple):
    """Least and most speed ratio, their spread in %, largest phase error in °, peak rad/s²."""

    least: float
    most: float
    spread: float
    phase: float
    acceleration: float


def turned(turn: float, joint: float, zero: str = ACROSS) -> float:
    """How far the second shaft has turned when the first has turned so far.

    Formula: tan t2 = tan t1 cos b from across, tan t2 = tan t1 / cos b from in the plane. Source: geometry of
    the cross (sin t1 cos b cos t2 = cos t1 sin t2), kinematics textbooks.

    >>> round(turned(45, 30), 2), round(turned(90, 30), 2), round(turned(45, 30, "in-plane"), 2)
    (40.89, 90.0, 49.11)
    """
    bend = cos(radians(joint)) if zero == ACROSS else 1 / cos(radians(joint))
    angle = radians(turn)
    return turn + degrees(atan2((bend - 1) * sin(2 * angle) / 2, cos(angle) ** 2 + bend * sin(angle) ** 2))


def ratio(turn: float, joint: float, zero: str = ACROSS) -> float:
    """Speed of the second shaft over that of the first, at a turn.

    Formula: cos b / (1 - sin²b sin²t1) from across, with cos²t1 from in the plane. Source: as `turned`.

    >>> [round(ratio(turn, 30), 5) for turn in (0, 90)]
    [0.86603, 1.1547]
    """
    bend, angle = radians(joint), radians(turn)
    part = sin(angle) if zero == ACROSS else cos(angle)
    return cos(bend) / (1 - (sin(bend) * part) ** 2)


def uneven(joint: float, speed: float) -> Uneven:
    """The bounds of the second shaft's motion, the first one turning evenly (rpm).

    Formula: cos b to 1 / cos b; U = tan b sin b; phase atan((1 - cos b) / (2 √cos b)); acceleration the
    largest of w² cos b sin²b sin 2t / (1 - sin²b sin²t)², near w² b². Source: kinematics textbooks.

    >>> [round(value, 4) for value in uneven(30, 1000)[:4]], round(uneven(30, 1000).acceleration)
    ([0.866, 1.1547, 28.8675, 4.1172], 3230)
    """
    bend, omega = radians(joint), speed * pi / 30
    phase = degrees(atan((1 - cos(bend)) / (2 * sqrt(cos(bend)))))
    return Uneven(cos(bend), 1 / cos(bend), 100 * tan(bend) * sin(bend), phase, omega**2 * _peak(bend))


def _peak(bend: float) -> float:
    """The largest acceleration for one radian a second, where its own slope is nothing."""
    half = sin(bend) ** 2 / 2
    middle = 1 - half
    at = -4 * half / (middle + sqrt(middle**2 + 8 * half**2))
    return cos(bend) * 2 * half * sqrt(1 - at**2) / (middle + half * at) ** 2


_JOINT: Final = Input("joint", "b", "Joint angle", "°", least=0, most=60)
_ZERO: Final = Input(
    "zero",
    "zero",
    "First yoke at 0°: across the plane of the shafts, or in it",
    "word",
    default=ACROSS,
    choices=(ACROSS, IN_PLANE),
)
_SOURCE: Final = "geometry of the cross, kinematics textbooks"

CALCULATORS: Final = (
    Calculator(
        name="cardan",
        family="joints",
        title="How unevenly a Cardan joint turns",
        inputs=(_JOINT, Input("speed", "n", "First shaft", "rpm", least=0, most=20_000, default="1000")),
        outputs=(
            Output("least", "r1", "Least speed ratio", ""),
            Output("most", "r2", "Most speed ratio", ""),
            Output("spread", "U", "Unevenness", "%"),
            Output("phase", "p", "Largest phase error", "°"),
            Output("acceleration", "A", "Peak acceleration", "rad/s²"),
        ),
        function=uneven,
        formula=(
            "r1 = cos b",
            "r2 = 1 / cos b",
            "U = tan b sin b",
            "p = atan((1 - cos b) / (2 √(cos b)))",
            "Peak acceleration  (the largest of w² cos b sin²b sin 2t / (1 - sin²b sin²t)² over a turn)",
        ),
        source=_SOURCE,
        mark="computed",
        valid=(
            "One joint alone, first shaft turning evenly. Felt at twice shaft speed; imbalance is felt "
            "at once."
        ),
        example="joint=30 speed=1000",
        plots=(Plot("joint", 0, 30, "spread"),),
    ),
    Calculator(
        name="cardan-turn",
        family="joints",
        title="Where a Cardan joint's second shaft is at a turn",
        inputs=(
            Input("turn", "t1", "Turn of the first shaft", "°", least=-36_000, most=36_000),
            _JOINT,
            _ZERO,
        ),
        outputs=(
            Output("turned", "t2", "Turn of the second shaft", "°"),
            Output("ahead", "dt", "It is ahead by", "°"),
            Output("ratio", "r", "Speed ratio there", ""),
        ),
        function=lambda turn, joint, zero: (
            turned(turn, joint, zero),
            turned(turn, joint, zero) - turn,
            ratio(turn, joint, zero),
        ),
        formula=(
            "Second shaft  (across: tan t2 = tan t1 cos b; in-plane: tan t2 = tan t1 / cos b)",
            "dt = t2 - t1",
            "Speed ratio  (across: cos b / (1 - sin²b sin²t1); in-plane: cos²t1 for sin²t1)",
        ),
        source=_SOURCE,
        mark="computed",
        valid=(
            "Below 60°. See where the first yoke stands before choosing the zero: mixing the two is the "
            "usual mistake."
        ),
        example="turn=45 joint=30",
    ),
)
