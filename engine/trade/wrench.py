"""What to set a torque wrench to, in which order to go round, and whether the figure was in another unit."""

from collections.abc import Callable, Sequence
from math import cos, radians
from typing import Final

from engine.errors import Refusal
from engine.trade.answers import single
from engine.trade.calculator import Calculator, Input, Output
from engine.trade.inputs import Values
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


def _round(
    order: Callable[[int], tuple[int, ...] | Refusal], count: float, torque: float
) -> Values | Refusal:
    if count != int(count):
        return Refusal("bolts", f"There is no {count:g}th bolt.", "Give a whole number.")
    found = order(int(count))
    return found if isinstance(found, Refusal) else (", ".join(map(str, found)), passes(torque))


_LENGTH: Final = Input("length", "L", "Wrench, from the square to the middle of the hand", "mm", 20, 3_000)
_EXTENSION: Final = Input(
    "extension", "E", "Crowfoot, square to bolt; 0 for a straight socket extension", "mm", 0, 2_000
)
_ANGLE: Final = Input("angle", "a", "0° lengthens the wrench, 90° changes nothing", "°", 0, 180, default="0°")
_FULL: Final = Input("torque", "T", "Full torque", "N·m", least=0, most=10_000)
_ORDER: Final = (
    Output("order", "order", "Order", "text"),
    Output("passes", "passes", "Torque of each pass; then once round at the last", "N·m"),
)
_TEXTBOOK: Final = "torque wrench extension formula, textbooks"
_STIFF: Final = (
    "For a wrench that is pulled at the middle of its grip. A straight socket extension changes nothing."
)

CALCULATORS: Final = (
    Calculator(
        name="wrench-setting",
        family="bolts",
        title="What to set a torque wrench to",
        inputs=(
            Input("torque", "T", "Torque at the bolt", "N·m", least=0, most=10_000),
            _LENGTH,
            _EXTENSION,
            _ANGLE,
        ),
        outputs=(Output("setting", "S", "Set", "N·m"),),
        function=lambda torque, length, extension, angle: single(setting(torque, length, extension, angle)),
        formula=("S = T L / (L + E cos a)",),
        source=_TEXTBOOK,
        mark="published",
        valid=_STIFF,
        example="torque=30 length=300 extension=150",
    ),
    Calculator(
        name="wrench-at-bolt",
        family="bolts",
        title="What the bolt gets through a crowfoot",
        inputs=(
            Input("setting", "S", "Torque that the wrench is set to", "N·m", least=0, most=10_000),
            _LENGTH,
            _EXTENSION,
            _ANGLE,
        ),
        outputs=(Output("torque", "T", "Torque at the bolt", "N·m"),),
        function=lambda setting, length, extension, angle: single(
            at_the_bolt(setting, length, extension, angle)
        ),
        formula=("T = S (L + E cos a) / L",),
        source=_TEXTBOOK,
        mark="published",
        valid=_STIFF,
        example="setting=20 length=300 extension=150",
    ),
    Calculator(
        name="tightening-circle",
        family="bolts",
        title="Order and passes for bolts on a circle",
        inputs=(Input("bolts", "n", "Bolts, numbered round", "", least=1, most=128), _FULL),
        outputs=_ORDER,
        function=lambda bolts, torque: _round(circle, bolts, torque),
        formula=("passes: 0.3 T, 0.6 T, T",),
        source="common practice; multiples of four as in ASME PCC-1 (from memory)",
        mark="common-practice",
        valid="Where the sheet has no order of its own.",
        example="bolts=8 torque=50",
    ),
    Calculator(
        name="tightening-rows",
        family="bolts",
        title="Order and passes for two rows of bolts",
        inputs=(
            Input("columns", "n", "Bolts in a row, numbered on in the second", "", least=1, most=64),
            _FULL,
        ),
        outputs=_ORDER,
        function=lambda columns, torque: _round(rows, columns, torque),
        formula=("passes: 0.3 T, 0.6 T, T",),
        source="common practice, no source",
        mark="common-practice",
        valid="For covers with two even rows, where the sheet has no order of its own.",
        example="columns=3 torque=12",
    ),
    Calculator(
        name="torque-mix-up",
        family="bolts",
        title="Was this torque in another unit?",
        inputs=(
            Input("number", "n", "Number that was read", "", least=0, most=1_000_000),
            Input("unit", "unit", "Unit that it was taken for", "word", choices=TORQUE_UNITS),
            Input("expected", "T", "Torque expected", "N·m", least=0, most=10_000),
            Input("within", "p", "It may differ by", "%", least=0.1, most=15, default="10 %"),
        ),
        outputs=(Output("answer", "answer", "Answer", "text"),),
        function=lambda number, unit, expected, within: (mix_up(number, unit, expected, within / 100),),
        formula=("1 lbf·ft: 12 lbf·in, 1.356 N·m", "1 kgf·m: 9.807 N·m"),
        source="exact factors by definition; NIST SP 811",
        mark="computed",
        valid="It only tells; nothing is put right. 15 % is the most at which lbf·ft and N·m stay apart.",
        example="number=25 unit=N·m expected='34 N·m'",
    ),
)
