"""An axle's differential: how fast each wheel turns, and what each wheel gets, open or limited-slip.

Speeds in rpm, road speed in km/h, circumference in mm, torques in N·m. The two wheels together turn twice as
often as the carrier, with any lock and in any situation; only the torques differ.
"""

from typing import Final, NamedTuple

from engine.errors import Refusal
from engine.trade.answers import single
from engine.trade.calculator import Calculator, Input, Output


class Hoist(NamedTuple):
    """Carrier and free wheel in rpm, and what the free wheel's tyre runs in km/h."""

    carrier: float
    free: float
    tyre: float


class Torques(NamedTuple):
    """Torque at the slower and at the faster wheel, how many times the one is the other, and breakaway."""

    slow: float
    fast: float
    bias: float | None
    breakaway: float


def other_wheel(carrier: float, wheel: float) -> float:
    """How fast the other wheel turns; negative is backwards. Formula: nL + nR = 2 nc.

    Source: kinematics of bevel gears. Carrier held: opposite, as fast. One wheel held: twice the carrier.

    >>> other_wheel(0, 30), other_wheel(260, 0)
    (-30, 520)
    """
    return 2 * carrier - wheel


def shaft_turns(ratio: float, left: float, right: float) -> float:
    """Turns of the propeller shaft while the wheels turn so many times. Formula: i (L + R) / 2.

    One wheel on the ground, the other turned by hand once: half the ratio.

    >>> shaft_turns(4, 1, 0), shaft_turns(4, 1, -1)
    (2.0, 0.0)
    """
    return ratio * (left + right) / 2


def ratio_of(turns: float, left: float, right: float) -> float | Refusal:
    """The axle ratio, from turns of the propeller shaft counted while the wheels turned.

    Formula: i = 2 N / (L + R), the way back of `shaft_turns`. Refuses wheels whose turns cancel: then the
    shaft need not turn at all.

    Ten turns of one wheel, the other on the ground, and 17.5 of the shaft:

    >>> ratio_of(17.5, 10, 0)
    3.5
    """
    if not left + right:
        cure = "Turn one wheel with the other held, or both the same way, and count again."
        return Refusal("cancelled", "The turns of the two wheels cancel, and the shaft need not turn.", cure)
    return abs(2 * turns / (left + right))


def on_hoist(shown: float, circumference: float, held: float = 0.0) -> Hoist:
    """One wheel free, engine driving, at a speed shown on the dashboard; `held` is the other wheel's rpm.

    Formula: nc = v / C, free = 2 nc - held. Source: kinematics; the dashboard knows only the carrier.

    30 km/h shown on 1927.6 mm, one wheel held: 259.4 and 518.8 rpm, and the tyre runs 60 km/h.

    >>> [round(value, 1) for value in on_hoist(30, 1927.6)]
    [259.4, 518.8, 60.0]
    """
    carrier = shown / 0.06 / (circumference / 1000)
    free = other_wheel(carrier, held)
    return Hoist(carrier, free, free * circumference * 0.06 / 1000)


def torques(torque: float, lock: float, preload: float = 0.0) -> Torques:
    """What each wheel gets while they turn at unlike speeds; lock in per cent of the torque, preload in N·m.

    Formula: Tl = S T + T0, slow = (T + Tl) / 2, fast = (T - Tl) / 2, bias = slow / fast, breakaway = T0 / 2
    at one wheel in neutral. Source: balance of torque at the carrier; lock value S as usually defined, (slow
    - fast) / T. The faster wheel is braked, the slower one driven. A negative torque at the faster wheel is
    one that has to be held back: it is what the other can do on ice. An open differential has S = 0 and T0 =
    0.

    300 N·m, 40 % and 60 N·m of preload:

    >>> torques(300, 40, 60)
    Torques(slow=240.0, fast=60.0, bias=4.0, breakaway=30.0)
    """
    locking = lock / 100 * torque + preload
    slow, fast = (torque + locking) / 2, (torque - locking) / 2
    return Torques(slow, fast, slow / fast if fast > 0 else None, preload / 2)


_LEFT: Final = Input("left", "L", "Turns of one wheel", "", least=-1000, most=1000, default="1")
_RIGHT: Final = Input(
    "right", "R", "Of the other, backwards below 0", "", least=-1000, most=1000, default="0"
)
_KINEMATICS: Final = "kinematics of the bevel differential"

CALCULATORS: Final = (
    Calculator(
        name="other-wheel-speed",
        family="differential",
        title="How fast the other wheel of the axle turns",
        inputs=(
            Input(
                "carrier",
                "nc",
                "Carrier: propeller shaft over ratio",
                "rpm",
                least=-5000,
                most=5000,
            ),
            Input("wheel", "nw", "One wheel", "rpm", least=-10_000, most=10_000),
        ),
        outputs=(Output("other", "no", "Other wheel, backwards below zero", "rpm"),),
        function=lambda carrier, wheel: (other_wheel(carrier, wheel),),
        formula=("no = 2 nc - nw",),
        source=_KINEMATICS,
        mark="published",
        valid="Open or limited-slip, driven or not. Only a broken part or a locked differential breaks it.",
        example="carrier=0 wheel=30",
    ),
    Calculator(
        name="shaft-turns",
        family="differential",
        title="Turns of the propeller shaft for turns of the wheels",
        inputs=(Input("ratio", "i", "Axle ratio", "", least=0.5, most=10), _LEFT, _RIGHT),
        outputs=(Output("turns", "N", "Turns of the propeller shaft", ""),),
        function=lambda ratio, left, right: (shaft_turns(ratio, left, right),),
        formula=("N = i (L + R) / 2",),
        source=_KINEMATICS,
        mark="published",
        valid="In neutral. A wheel that stays on the ground has turned 0 times.",
        example="ratio=4",
    ),
    Calculator(
        name="axle-ratio",
        family="differential",
        title="Axle ratio from counted turns",
        inputs=(
            Input("turns", "N", "Turns of the propeller shaft", "", least=-10_000, most=10_000),
            _LEFT,
            _RIGHT,
        ),
        outputs=(Output("ratio", "i", "Axle ratio", ""),),
        function=lambda turns, left, right: single(ratio_of(turns, left, right)),
        formula=("i = 2 N / (L + R)",),
        source=_KINEMATICS,
        mark="published",
        valid="Count ten turns of the wheel or more; a miscount of a quarter turn is then under 1 %.",
        example="turns=17.5 left=10",
    ),
    Calculator(
        name="hoist-speed",
        family="differential",
        title="How fast a free wheel runs on the hoist",
        inputs=(
            Input("shown", "v", "Speed shown", "km/h", least=0, most=50),
            Input("circumference", "C", "Rolled in one turn of a wheel", "mm", least=500, most=4000),
            Input("held", "nh", "Other wheel of the axle", "rpm", least=-2000, most=2000, default="0"),
        ),
        outputs=(
            Output("carrier", "nc", "Carrier", "rpm"),
            Output("free", "nf", "Free wheel", "rpm"),
            Output("tyre", "vf", "Speed at its tyre", "km/h"),
        ),
        function=on_hoist,
        formula=("nc = v / C", "nf = 2 nc - nh", "vf = nf C"),
        source=_KINEMATICS,
        mark="published",
        valid=(
            "All four wheels clear of the floor, nobody in the plane of a wheel, never above 50 km/h shown."
        ),
        example="shown=30 circumference=1927.6",
    ),
    Calculator(
        name="limited-slip-torque",
        family="differential",
        title="What each wheel gets from a limited-slip differential",
        inputs=(
            Input("torque", "T", "Torque at the axle, both wheels together", "N·m", least=0, most=20_000),
            Input("lock", "S", "Lock value", "%", least=0, most=100),
            Input("preload", "T0", "Locking torque without load", "N·m", least=0, most=5000, default="0"),
        ),
        outputs=(
            Output("slow", "Ts", "Slower wheel", "N·m"),
            Output("fast", "Tf", "Faster wheel", "N·m"),
            Output("bias", "b", "Slower over faster", ""),
            Output("breakaway", "Tb", "Breakaway at one wheel, in neutral", "N·m"),
        ),
        function=torques,
        formula=(
            "Ts = (T + S T + T0) / 2",
            "Tf = (T - S T - T0) / 2",
            "b = Ts / Tf",
            "Tb = T0 / 2",
        ),
        source="balance of torque at the carrier; lock value as usually defined",
        mark="computed",
        valid=(
            "While the wheels turn at unlike speeds. Below zero the faster wheel must be held by what "
            "grips it."
        ),
        example="torque=300 lock=40 preload=60",
    ),
)
