"""Backlash and contact of a bevel or hypoid gear set: which shim to move, which way, and how far.

Lengths in mm, angles in degrees, torques in N·m.
"""

from fractions import Fraction
from math import cos, radians, sin, tan
from typing import Final

from engine.errors import Refusal
from engine.trade.answers import single
from engine.trade.calculator import Calculator, Input, Output
from engine.trade.inputs import Values
from engine.trade.shims import Number, exact

#: Backlash per mm of ring-gear move, usual hypoid axle (common practice: 2 of backlash for 3 of move).
USUAL: Final = 0.7
#: What the contact on the ring-gear tooth tells to do. Source: gear adjustment as in US Army TM 10-3930.
CONTACTS: Final = {
    "toe": "Move the ring gear away from the pinion: more backlash.",
    "heel": "Move the ring gear towards the pinion: less backlash.",
    "high": "Move the pinion in, towards the ring gear.",
    "low": "Move the pinion out, away from the ring gear.",
    "centred": "Leave both where they are.",
}


def backlash_ratio(pressure: float, pitch: float, spiral: float = 0.0) -> float | Refusal:
    """Change of backlash for 1 mm of move along the axis: 2 tan(pressure) sin(pitch) / cos(spiral).

    `pitch` is the pitch-cone angle of the gear that moves; of the ring gear it is large, of the pinion small.
    Source: geometry of bevel gears, derived; a hypoid offset is left out.

    >>> round(backlash_ratio(20, 75, 35), 2), round(backlash_ratio(20, 15, 35), 2)
    (0.86, 0.23)
    """
    if not (0 < pressure < 45 and 0 < pitch <= 90 and 0 <= spiral < 60):
        message = "No bevel gear has such angles."
        return Refusal("angle", message, "Pressure about 20°, pitch up to 90°, spiral about 35°.")
    return 2 * tan(radians(pressure)) * sin(radians(pitch)) / cos(radians(spiral))


def ring_gear_move(backlash: Number, target: Number, ratio: Number = USUAL) -> Fraction | Refusal:
    """How far to move the ring gear towards the pinion (less than nothing: away), in mm.

    Formula: (backlash - target) / ratio. Source: arithmetic; the ratio 0.7 is common practice. The backlash
    is measured at several places of the ring gear; the least counts.

    >>> float(ring_gear_move(0.30, 0.16))
    0.2
    """
    if exact(ratio) <= 0 or exact(backlash) < 0 or exact(target) <= 0:
        message = "A backlash, its target and their ratio to the move are all more than nothing."
        return Refusal(
            "backlash", message, "No backlash at all means that the gears bind: back off and measure."
        )
    return (exact(backlash) - exact(target)) / exact(ratio)


def swapped_shims(ring_side: Number, far_side: Number, move: Number) -> tuple[Fraction, Fraction] | Refusal:
    """The shims of both side bearings after a move of the ring gear towards the pinion.

    What is added behind the ring gear is taken from the far side: their sum, and with it the side preload,
    stays. Source: arithmetic.

    >>> [float(shim) for shim in swapped_shims(1.50, 2.00, 0.2)]
    [1.7, 1.8]
    """
    ring, far = exact(ring_side) + exact(move), exact(far_side) - exact(move)
    if ring < 0 or far < 0:
        message = f"A move of {float(move):g} mm takes more than the shim on one side."
        return Refusal("impossible", message, "See whether the pinion depth is right before moving so far.")
    return ring, far


def contact(pattern: str) -> str:
    """What to do for a contact pattern: one of toe, heel, high, low and centred; KeyError for others.

    >>> contact("toe")
    'Move the ring gear away from the pinion: more backlash.'
    """
    return CONTACTS[pattern]


def bearing_torque(reading: Number, seal: Number = 0, others: Number = 0) -> Fraction | Refusal:
    """The turning torque of the bearings alone: the reading less the drag of seals and of other bearings.

    The reading is taken while it turns: the torque that breaks it away is higher and says nothing.
    Source: common practice.

    >>> float(bearing_torque(2.4, 0.3, 0.5))
    1.6
    """
    found = exact(reading) - exact(seal) - exact(others)
    if found < 0 or exact(seal) < 0 or exact(others) < 0:
        message = "The drag taken off is more than the reading."
        return Refusal("sign", message, "Measure the drag and the whole in the same way, both while turning.")
    return found


def _move(
    backlash: Number, target: Number, ratio: Number, ring_side: Number | None, far_side: Number | None
) -> Values | Refusal:
    move = ring_gear_move(backlash, target, ratio)
    if isinstance(move, Refusal):
        return move
    way = "towards the pinion" if move > 0 else "away from the pinion" if move else "not at all"
    if ring_side is None or far_side is None:
        return move, way, None, None
    found = swapped_shims(ring_side, far_side, move)
    return found if isinstance(found, Refusal) else (move, way, *found)


CALCULATORS: Final = (
    Calculator(
        name="backlash-move",
        family="shims",
        title="How far to move the ring gear for a backlash",
        inputs=(
            Input("backlash", "j", "Backlash measured, the least round the gear", "mm", 0, 5),
            Input("target", "jt", "Backlash wanted", "mm", 0.01, 2),
            Input("ratio", "k", "Backlash for 1 mm of move", "", 0.1, 3, default="0.7"),
            Input("ring-side", "sr", "Shim behind the ring gear", "mm", 0, 50, optional=True),
            Input("far-side", "sf", "Shim on the far side", "mm", 0, 50, optional=True),
        ),
        outputs=(
            Output("move", "x", "Move towards the pinion", "mm"),
            Output("way", "way", "Which way", "text"),
            Output("new-ring-side", "sr′", "New shim behind the ring gear", "mm"),
            Output("new-far-side", "sf′", "New shim on the far side", "mm"),
        ),
        function=_move,
        formula=("x = (j - jt) / k", "sr′ = sr + x", "sf′ = sf - x"),
        source="arithmetic; the ratio 0.7 is common practice",
        mark="common-practice",
        valid="Shims behind both side bearings: their sum, and so the preload, stays. Measure again.",
        example="backlash=0.30 target=0.16 ring-side=1.50 far-side=2.00",
        exact=True,
    ),
    Calculator(
        name="backlash-ratio",
        family="shims",
        title="Backlash for 1 mm of move, from the gear's angles",
        inputs=(
            Input("pressure", "a", "Pressure angle", "°", 5, 44, default="20°"),
            Input("pitch", "g", "Pitch-cone angle of the gear that moves", "°", 1, 90),
            Input("spiral", "b", "Spiral angle", "°", 0, 59, default="35°"),
        ),
        outputs=(Output("ratio", "k", "Backlash for 1 mm of move", ""),),
        function=lambda pressure, pitch, spiral: single(backlash_ratio(pressure, pitch, spiral)),
        formula=("k = 2 tan a sin g / cos b",),
        source="geometry of bevel gears, derived",
        mark="computed",
        valid="For bevel gears; with a hypoid offset only about.",
        example="pitch=75",
    ),
    Calculator(
        name="tooth-contact",
        family="shims",
        title="What to move for a contact pattern",
        inputs=(
            Input("pattern", "pattern", "Where it lies on the ring gear", "word", choices=tuple(CONTACTS)),
        ),
        outputs=(Output("move", "move", "Move", "text"),),
        function=lambda pattern: (contact(pattern),),
        formula=(),
        source="bearing and gear adjustment as in US Army TM 10-3930 series",
        mark="published",
        valid="For the drive side under light load. Check the backlash after each move.",
        example="pattern=toe",
    ),
    Calculator(
        name="bearing-torque",
        family="shims",
        title="Turning torque of the bearings alone",
        inputs=(
            Input("reading", "T", "Torque while turning", "N·m", 0, 200),
            Input("seal", "Ts", "Drag of the seals", "N·m", 0, 200, default="0 N·m"),
            Input("others", "To", "Drag of other bearings", "N·m", 0, 200, default="0 N·m"),
        ),
        outputs=(Output("torque", "Tb", "Torque of the bearings", "N·m"),),
        function=lambda reading, seal, others: single(bearing_torque(reading, seal, others)),
        formula=("Tb = T - Ts - To",),
        source="common practice, no source",
        mark="common-practice",
        valid="All read while turning; the torque that breaks it away is higher and says nothing.",
        example="reading=2.4 seal=0.3 others=0.5",
        exact=True,
    ),
)
