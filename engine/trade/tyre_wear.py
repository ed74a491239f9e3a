"""From tread depth and rolled distance to what the driveline sees: how unlike the axles and the sides are."""

from collections.abc import Sequence
from fractions import Fraction
from typing import Final, NamedTuple

from engine.errors import Refusal
from engine.trade.calculator import Calculator, Input, Output
from engine.trade.inputs import Values
from engine.trade.plot import Plot

CORNERS: Final = ("front left", "front right", "rear left", "rear right")
_AT_MOST: Final = (
    "An upper bound: a steel belt rolls like a track and wears less of its length than of its radius."
    " Tyres rolled five to ten turns over a marked floor tell it better."
)


class Unlike(NamedTuple):
    """How unlike four tyres are, in per cent; positive where the first named turns faster."""

    #: Front axle against rear axle: what the centre coupling sees.
    axles: Fraction
    #: Left against right, at the differential of each axle.
    front: Fraction
    rear: Fraction
    #: The largest against the smallest.
    spread: Fraction
    #: The corner that is the odd one, or what else is unlike.
    odd: str


def lost(depth: Fraction | float, diameter: Fraction | float) -> Fraction | float:
    """What losing a depth of tread takes off the circumference, in per cent; both in mm.

    Formula: dC/C = 2 dt / D, for the radius goes down by the tread and the diameter by twice as much.
    Source: geometry. At most that: see `valid` of the calculators.

    2 · 1.6 / 632 = 0.51 %

    >>> round(lost(1.6, 632), 2)
    0.51
    """
    return 200 * depth / diameter


def allowed(limit: float, diameter: float) -> float:
    """The difference in tread, in mm, that comes to a limit in per cent of circumference.

    >>> allowed(1, 632)
    3.16
    """
    return limit * diameter / 200


def unlike(rolled: Sequence[Fraction]) -> Unlike | Refusal:
    """How unlike four tyres are, from what each rolls in one turn: front left, front right, rear left, right.

    Formula: a wheel turns v / C, an axle the mean of its two wheels; in per cent of the slower axle and side.
    Source: kinematics of the open differential. Refuses other than four, and what rolls nothing.

    One tyre 0.5 % down: 0.25 % at its axle, the whole 0.5 % across it.

    >>> found = unlike([Fraction(2000), Fraction(2000), Fraction(1990), Fraction(2000)])
    >>> round(float(found.axles), 2), round(float(found.rear), 2), found.odd
    (-0.25, 0.5, 'rear left')
    """
    if len(rolled) != 4 or min(rolled) <= 0:
        order = ", ".join(CORNERS)
        return Refusal("four-tyres", "Four tyres are wanted, each more than nothing.", f"Give {order}.")
    turns = [1 / Fraction(one) for one in rolled]
    left, right, rear_left, rear_right = turns
    spread = 100 * (max(turns) / min(turns) - 1)
    return Unlike(
        _faster(left + right, rear_left + rear_right),
        _faster(left, right),
        _faster(rear_left, rear_right),
        spread,
        _odd(turns),
    )


def by_tread(depths: Sequence[Fraction], diameter: Fraction) -> Unlike | Refusal:
    """The same from four depths of tread in mm; `diameter` is that of the tyre with the deepest, in mm.

    A pair 1.6 mm deeper: 0.51 % between the axles; one tyre: half of that.

    >>> deep, worn = Fraction(8), Fraction("6.4")
    >>> round(float(by_tread([worn, worn, deep, deep], Fraction(632)).axles), 2)
    0.51
    >>> round(float(by_tread([worn, deep, deep, deep], Fraction(632)).axles), 2)
    0.25
    """
    if len(depths) != 4:
        return unlike(depths)
    most = max(depths)
    return unlike([diameter - 2 * (most - depth) for depth in depths])


def _faster(first: Fraction, second: Fraction) -> Fraction:
    """By how many per cent the first is faster; negative where it is slower."""
    slow = min(first, second)
    return 100 * (first - second) / slow


def _odd(turns: Sequence[Fraction]) -> str:
    """The corner without which the others are alike, or the pair that differs."""
    whole = max(turns) - min(turns)
    if not whole:
        return "none: all are alike"
    left = [_spread_of([t for k, t in enumerate(turns) if k != corner]) for corner in range(4)]
    best = min(range(4), key=lambda corner: left[corner])
    if 3 * left[best] <= whole:
        return CORNERS[best] if left.count(left[best]) == 1 else "none alone"
    for pair, other, words in (
        ((0, 1), (2, 3), "front pair against rear pair"),
        ((0, 2), (1, 3), "left against right"),
        ((0, 3), (1, 2), "one diagonal against the other"),
    ):
        within = max(_spread_of([turns[k] for k in group]) for group in (pair, other))
        if 3 * within <= whole:
            return words
    return "none alone"


def _spread_of(turns: Sequence[Fraction]) -> Fraction:
    return max(turns) - min(turns)


def _four(found: Unlike | Refusal) -> Values | Refusal:
    return found if isinstance(found, Refusal) else tuple(found)


_DIAMETER: Final = Input("diameter", "D", "Diameter over the tread", "mm", least=300, most=1200)
_UNLIKE: Final = (
    Output("axles", "a", "Front axle faster than rear axle by", "%"),
    Output("front", "f", "Front left faster than front right by", "%"),
    Output("rear", "r", "Rear left faster than rear right by", "%"),
    Output("spread", "R", "Fastest wheel faster than the slowest by", "%"),
    Output("odd-one", "odd", "The odd one", "text"),
)
CALCULATORS: Final = (
    Calculator(
        name="tyre-mismatch",
        family="tyres",
        title="How unlike four tyres are, from what each rolls in a turn",
        inputs=(
            Input(
                "rolled",
                "C",
                "Rolled: front left, front right, rear left, rear right",
                "mm",
                least=500,
                most=40_000,
                many=4,
            ),
        ),
        outputs=_UNLIKE,
        function=lambda rolled: _four(unlike(rolled)),
        formula=("a = (1/C1 + 1/C2) / (1/C3 + 1/C4) - 1  (of the slower axle)",),
        source="kinematics of the open differential",
        mark="computed",
        valid="Straight ahead, without spin, all four tyres rolled alike, the same number of turns, at even"
        " pressure and load.",
        exact=True,
        example="rolled='1984, 1990, 1976, 1984'",
    ),
    Calculator(
        name="tread-mismatch",
        family="tyres",
        title="How unlike four tyres are at most, from their tread",
        inputs=(
            Input(
                "treads",
                "t",
                "Tread: front left, front right, rear left, rear right",
                "mm",
                least=0,
                most=20,
                many=4,
            ),
            _DIAMETER,
        ),
        outputs=_UNLIKE,
        function=lambda treads, diameter: _four(by_tread(treads, diameter)),
        formula=("Dk = D - 2 (max(t) - tk)", "a = (1/D1 + 1/D2) / (1/D3 + 1/D4) - 1  (of the slower axle)"),
        source="geometry, and kinematics of the open differential",
        mark="computed",
        valid=f"{_AT_MOST} Only for four tyres of one make and size.",
        exact=True,
        example="treads='7, 7, 5.4, 7' diameter=632",
    ),
    Calculator(
        name="tread-wear",
        family="tyres",
        title="What losing tread takes off the circumference, at most",
        inputs=(
            Input("depth", "dt", "Tread lost, or difference in tread", "mm", least=0, most=20),
            _DIAMETER,
        ),
        outputs=(Output("change", "m", "Change of circumference", "%"),),
        function=lambda depth, diameter: (lost(depth, diameter),),
        formula=("m = 100 % · 2 dt / D",),
        source="geometry",
        mark="computed",
        valid=_AT_MOST,
        example="depth='2/32 in' diameter=632",
        plots=(Plot("depth", 0, 8, "change"),),
    ),
    Calculator(
        name="tread-allowed",
        family="tyres",
        title="Difference in tread that comes to a limit in per cent",
        inputs=(Input("limit", "m", "Limit on the circumference", "%", least=0, most=10), _DIAMETER),
        outputs=(Output("depth", "dt", "Difference in tread", "mm"),),
        function=lambda limit, diameter: (allowed(limit, diameter),),
        formula=("dt = m D / (2 · 100 %)",),
        source="geometry",
        mark="computed",
        valid=f"{_AT_MOST} The limit is the vehicle maker's.",
        example="limit=1 diameter=632",
    ),
)
