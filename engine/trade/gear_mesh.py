"""Backlash and contact of a bevel or hypoid gear set: which shim to move, which way, and how far.

Lengths in mm, angles in degrees, torques in N·m.
"""

from fractions import Fraction
from math import cos, radians, sin, tan
from typing import Final

from engine.errors import Refusal
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
