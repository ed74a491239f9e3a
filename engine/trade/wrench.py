"""What to set a torque wrench to, in which order to go round, and whether the figure was in another unit."""

from collections.abc import Sequence
from math import cos, radians
from typing import Final

from engine.errors import Refusal
from engine.units import look_up, units

TORQUE_UNITS: Final = tuple(unit for unit in units() if look_up(unit).dimension == "torque")
#: Shares of the full torque in which a flange is drawn up (common practice; ASME PCC-1 goes about it so).
PASSES: Final = (0.3, 0.6, 1.0)


def setting(torque: float, length: float, extension: float, angle: float = 0.0) -> float | Refusal:
    """What to set the wrench to, so that the bolt gets `torque`: S = T L / (L + E cos a).

    `length` L from the square to the middle of the hand, `extension` E from the square to the bolt, both in
    one unit; at 0° the extension lengthens the wrench, at 90° nothing changes, at 180° it shortens it.
    Source: torque wrench extension formula, textbooks. A straight socket extension is none of this: it
    changes nothing.

    >>> round(setting(30, 12, 6), 9), round(setting(30, 12, 6, 90), 9), round(setting(30, 12, 6, 180), 9)
    (20.0, 30.0, 60.0)
    """
    lever = _lever(length, extension, angle)
    return lever if isinstance(lever, Refusal) else torque * length / lever


def at_the_bolt(set_to: float, length: float, extension: float, angle: float = 0.0) -> float | Refusal:
    """What the bolt gets when the wrench clicks: T = S (L + E cos a) / L.

    >>> round(at_the_bolt(20, 12, 6), 9)
    30.0
    """
    lever = _lever(length, extension, angle)
    return lever if isinstance(lever, Refusal) else set_to * lever / length


def circle(bolts: int) -> tuple[int, ...] | Refusal:
    """The order for bolts on a circle, numbered round from 1: each as far as can be from those before.

    Opposite pairs, the pairs spread in turn; odd circles are drawn as a star. Source: common practice; for
    multiples of four it is the pattern of ASME PCC-1 (from memory).

    >>> circle(4), circle(5), circle(8)
    ((1, 3, 2, 4), (1, 3, 5, 2, 4), (1, 5, 3, 7, 2, 6, 4, 8))
    """
    if not 1 <= bolts <= 128:
        return Refusal("bolts", f"A circle of {bolts} bolts is not drawn here.", "Give 1 to 128 bolts.")
    if bolts % 2 == 0:
        half = circle(bolts // 2)
        assert not isinstance(half, Refusal)
        return tuple(bolt for one in half for bolt in (one, one + bolts // 2))
    step = max(bolts // 2, 1)
    return tuple(1 + turn * step % bolts for turn in range(bolts))


def rows(columns: int) -> tuple[int, ...] | Refusal:
    """The order for two rows of bolts, from the middle outwards, crossing over each time.

    Bolts are numbered along the first row and on along the second. Source: common practice: the cover is
    pressed flat from its middle, and no air or sealant is trapped.

    >>> rows(1), rows(3)
    ((1, 2), (2, 5, 1, 6, 3, 4))
    """
    if not 1 <= columns <= 64:
        return Refusal("bolts", f"Rows of {columns} bolts are not drawn here.", "Give 1 to 64 bolts a row.")
    middle = (columns + 1) / 2
    outward = sorted(range(1, columns + 1), key=lambda column: (abs(column - middle), column))
    if columns % 2:
        order = [(outward[0], outward[0])]
        rest = outward[1:]
    else:
        order, rest = [], outward
    for left, right in zip(rest[::2], rest[1::2], strict=True):
        order += [(left, right), (right, left)]
    return tuple(bolt for one, other in order for bolt in (one, columns + other))


def passes(torque: float, shares: Sequence[float] = PASSES) -> tuple[float, ...]:
    """The torques of the passes before the last round, which goes bolt by bolt at the full torque.

    >>> passes(100)
    (30.0, 60.0, 100.0)
    """
    return tuple(torque * share for share in shares)


def meant_units(number: float, expected: float, within: float = 0.1) -> tuple[str, ...]:
    """The units in which a number comes to the torque expected, in N·m, give or take a share; nearest first.

    lbf·in for lbf·ft is a factor of 12, N·m for lbf·ft 1.356, kgf·m for N·m 9.807. Source: exact factors,
    see the units of this house.

    >>> meant_units(25, 34), meant_units(300, 34), meant_units(34, 34)
    (('lbf·ft',), ('lbf·in',), ('N·m',))
    """
    if expected <= 0:
        return ()
    errors = {unit: abs(number * float(look_up(unit).factor) / expected - 1) for unit in TORQUE_UNITS}
    return tuple(sorted((unit for unit in errors if errors[unit] <= within), key=errors.__getitem__))


def mix_up(number: float, unit: str, expected: float, within: float = 0.1) -> str:
    """Whether a torque fits what is expected (in N·m), and if not, which unit it may have been in.

    Nothing is put right: the words are for the person who typed it.

    >>> mix_up(34, "N·m", 34), mix_up(25, "N·m", 34)
    ('It fits.', 'It does not fit: did you mean 25 lbf·ft?')
    >>> mix_up(25, "lbf·in", 34)
    'It does not fit: did you mean 25 lbf·ft?'
    """
    fitting = meant_units(number, expected, within)
    if unit in fitting:
        return "It fits."
    if not fitting:
        return "It does not fit, in this unit or in another: look it up again."
    return f"It does not fit: did you mean {' or '.join(f'{number:g} {one}' for one in fitting)}?"


def _lever(length: float, extension: float, angle: float) -> float | Refusal:
    """From the bolt to the hand along the wrench."""
    if length <= 0 or extension < 0:
        message = "The wrench has no length, or the extension less than none."
        return Refusal(
            "length", message, "Measure L to the middle of the hand, and E from the square to the bolt."
        )
    lever = length + extension * cos(radians(angle))
    if lever <= length * 0.05:
        message = "Turned back so far, the extension takes the whole lever away."
        return Refusal("lever", message, "Set the extension at 90° or less.")
    return lever
