"""Two or three Cardan joints in a row: what they leave uneven together, and what may be left.

Angles in degrees. Two joints with in-phase yokes on the shaft between them undo each other when their angles
are alike; crossed yokes add up. Angles seen from the side and from above are one angle in space, with its
direction. Good to a few per cent up to 15°.
"""

from collections.abc import Sequence
from math import acos, degrees, pi, radians, sqrt, tan
from typing import Final, NamedTuple

from engine.errors import Refusal
from engine.trade.calculator import Calculator, Input, Output

IN_PHASE: Final = "in-phase"
CROSSED: Final = "crossed"
#: The angular acceleration that is commonly allowed to be left, rad/s².
ALLOWED: Final = 400.0


class Left(NamedTuple):
    """The one joint that would be as uneven, °; its acceleration, rad/s²; the most allowed, °; and a word."""

    residual: float
    acceleration: float
    allowed: float
    answer: str


def joint_angle(slope: float, other: float, top: float = 0.0, other_top: float = 0.0) -> float:
    """The angle between two shafts, from slopes seen from the side and directions seen from above.

    Formula: cos b = (1 + tan a1 tan a2 + tan c1 tan c2) / (|1, tan a1, tan c1| |1, tan a2, tan c2|).
    Source: angle between two directions in space. Slopes the same way have the same sign.

    >>> joint_angle(6, 2), round(joint_angle(3, 0, 4, 0), 1)
    (4, 5.0)
    """
    if top == other_top == 0:
        return abs(slope - other)
    one = (1.0, tan(radians(slope)), tan(radians(top)))
    two = (1.0, tan(radians(other)), tan(radians(other_top)))
    along = sum(a * b for a, b in zip(one, two, strict=True))
    size = sqrt(sum(a * a for a in one) * sum(b * b for b in two))
    return degrees(acos(min(1.0, along / size)))


def residual(side: Sequence[float], top: Sequence[float], yokes: Sequence[str]) -> float | Refusal:
    """The angle of the one joint that would be as uneven as the whole row.

    Formula: √|s1 (v1 + j h1)² + s2 (v2 + j h2)² + ...|, v seen from the side, h from above; s changes sign
    over a shaft with in-phase yokes and keeps it over one with crossed yokes. Source: first harmonic of
    joints in a row; for one plane SAE AE-7, Universal Joint and Driveshaft Design Manual. Refuses lists that
    do not fit together.

    Alike and in phase, nothing is left; crossed, they add up; 5 and 4 in phase leave 3.

    >>> cases = [(5, 5, "in-phase"), (3, 4, "crossed"), (5, 4, "in-phase")]
    >>> [round(residual([a, b], [0, 0], [yokes]), 2) for a, b, yokes in cases]
    [0.0, 5.0, 3.0]
    """
    if not len(side) == len(top) == len(yokes) + 1:
        message = f"There are {len(side)} and {len(top)} joint angles and {len(yokes)} shafts between joints."
        return Refusal(
            "length", message, "Give both angles for each joint, and the yokes of each shaft between."
        )
    sign, total = 1, complex(0)
    for vertical, level, yoke in zip(side, top, (*yokes, IN_PHASE), strict=True):
        total += sign * complex(vertical, level) ** 2
        sign = -sign if yoke == IN_PHASE else sign
    return sqrt(abs(total))


def acceleration(angle: float, speed: float) -> float:
    """The peak angular acceleration that a residual angle makes at a shaft speed, rad/s². Formula: w² b².

    Source: SAE AE-7. The 7.3° that are allowed at 1500 rpm come near the 400 rad/s² that are allowed at all.

    >>> round(acceleration(7.3, 1500), 1)
    400.5
    """
    return (speed * pi / 30 * radians(angle)) ** 2


def allowed(speed: float, limit: float = ALLOWED) -> float:
    """The largest residual angle at a shaft speed. Formula: b = √A / w. Source: SAE AE-7 (400 rad/s²).

    >>> [round(allowed(speed), 2) for speed in (2000, 3000, 4000)]
    [5.47, 3.65, 2.74]
    """
    return degrees(sqrt(limit) / (speed * pi / 30))


def second_angle(first: float, speed: float, limit: float = ALLOWED) -> tuple[float, float]:
    """Between which angles the second joint may be, with the first at `first`, yokes in phase.

    Formula: √(b1² - r²) to √(b1² + r²), r = √A / w. Source: SAE AE-7.

    >>> [round(angle, 1) for angle in second_angle(9, 1500)]
    [5.3, 11.6]
    """
    left = allowed(speed, limit)
    return sqrt(max(0.0, first**2 - left**2)), sqrt(first**2 + left**2)


def judged(side: Sequence[float], top: Sequence[float], yokes: Sequence[str], speed: float) -> Left | Refusal:
    """The residual of a row at a speed, beside what is allowed."""
    found = residual(side, top, yokes)
    if isinstance(found, Refusal):
        return found
    most = allowed(speed)
    answer = "within what is allowed" if found <= most else "too much: felt at twice shaft speed"
    return Left(found, acceleration(found, speed), most, answer)


def _two(
    first: float, second: float, speed: float, yokes: str, first_top: float, second_top: float
) -> Left | Refusal:
    return judged((first, second), (first_top, second_top), (yokes,), speed)


def _three(
    first: float, second: float, third: float, speed: float, yokes: str, second_yokes: str
) -> Left | Refusal:
    return judged((first, second, third), (0, 0, 0), (yokes, second_yokes), speed)


def _angle(name: str, symbol: str, title: str, default: str = "") -> Input:
    return Input(name, symbol, title, "°", least=-45, most=45, default=default)


_FIRST: Final = _angle("first", "b1", "First joint, from the side")
_SECOND: Final = _angle("second", "b2", "Second joint, from the side")
_SPEED: Final = Input("speed", "n", "Shaft speed", "rpm", least=1, most=20_000)
_YOKES: Final = Input(
    "yokes", "yokes", "Yokes of the shaft between", "word", default=IN_PHASE, choices=(IN_PHASE, CROSSED)
)
_LEFT: Final = (
    Output("residual", "b", "As uneven as one joint at", "°"),
    Output("acceleration", "A", "Peak acceleration", "rad/s²"),
    Output("allowed", "bmax", "Allowed at this speed", "°"),
    Output("answer", "answer", "Answer", "text"),
)
_BOOK: Final = "SAE AE-7, Universal Joint and Driveshaft Design Manual"
_PRACTICE: Final = (
    "Up to 15°. Common practice besides: each joint 0.5 to 6°, the two within 1 to 1.5° of each other."
)

CALCULATORS: Final = (
    Calculator(
        name="joint-angle",
        family="joints",
        title="Joint angle from the slopes of two shafts",
        inputs=(
            _angle("slope", "a1", "Slope of the first shaft, from the side"),
            _angle("other", "a2", "Slope of the second"),
            _angle("top", "c1", "First shaft seen from above", "0°"),
            _angle("other-top", "c2", "Second seen from above", "0°"),
        ),
        outputs=(Output("angle", "b", "Joint angle", "°"),),
        function=lambda slope, other, top, other_top: (joint_angle(slope, other, top, other_top),),
        formula=("Joint angle  (b = |a1 - a2| from the side alone; with c1 and c2 the angle in space)",),
        source="angle between two directions in space",
        mark="computed",
        valid=(
            "Both slopes against the same level, downwards to the rear with the same sign, vehicle at "
            "its own height."
        ),
        example="slope=6 other=2",
    ),
    Calculator(
        name="joints-two",
        family="joints",
        title="What two joints leave uneven",
        inputs=(
            _FIRST,
            _SECOND,
            _SPEED,
            _YOKES,
            _angle("first-top", "h1", "First joint, from above", "0°"),
            _angle("second-top", "h2", "Second joint, from above", "0°"),
        ),
        outputs=_LEFT,
        function=_two,
        formula=(
            (
                "Residual  (in-phase: √|b1² - b2²|; crossed: √(b1² + b2²); (b + j h)² for b² if seen from "
                "above too)"
            ),
            "A = (2 π n / 60)² b²  (b in radians)",
            "bmax = 20 / (2 π n / 60)  (in radians, for 400 rad/s²)",
        ),
        source=_BOOK,
        mark="published",
        valid=_PRACTICE,
        example="first=5 second=4 speed=3000",
    ),
    Calculator(
        name="joints-three",
        family="joints",
        title="What three joints of a two-piece shaft leave uneven",
        inputs=(
            _FIRST,
            _SECOND,
            _angle("third", "b3", "Third joint, from the side"),
            _SPEED,
            _YOKES._replace(title="Yokes of the first shaft between"),
            _YOKES._replace(name="second-yokes", symbol="yokes2", title="Yokes of the second shaft between"),
        ),
        outputs=_LEFT,
        function=_three,
        formula=(
            "Residual  (√|b1² - b2² + b3²|: the sign changes over each shaft with in-phase yokes)",
            "A = (2 π n / 60)² b²  (b in radians)",
            "bmax = 20 / (2 π n / 60)  (in radians, for 400 rad/s²)",
        ),
        source=_BOOK,
        mark="published",
        valid=_PRACTICE + " All joints in one plane.",
        example="first=1 second=4 third=4 speed=3000 second-yokes=in-phase",
    ),
    Calculator(
        name="joint-second",
        family="joints",
        title="Between which angles the second joint may be",
        inputs=(
            _FIRST,
            _SPEED,
            Input("limit", "A", "Acceleration allowed", "rad/s²", least=1, most=5000, default="400"),
        ),
        outputs=(Output("least", "bl", "From", "°"), Output("most", "bm", "To", "°")),
        function=second_angle,
        formula=(
            "r = √A / (2 π n / 60)  (in radians)",
            "bl = √(b1² - r²)",
            "bm = √(b1² + r²)",
        ),
        source=_BOOK,
        mark="published",
        valid="Yokes in phase, both joints in one plane. " + _PRACTICE,
        example="first=9 speed=1500",
    ),
)
