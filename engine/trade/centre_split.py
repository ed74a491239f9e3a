"""A centre differential of planet gears: how it shares torque between the axles, and its speeds.

Teeth are counted; only their ratio matters. Single planets: carrier driven, sun and ring drive the axles.
Double planets: ring driven, sun and carrier drive the axles. Torques in per cent of the input or in N·m,
speeds in rpm.
"""

from typing import Final, NamedTuple

from engine.errors import Refusal
from engine.trade.answers import single
from engine.trade.calculator import Calculator, Input, Output
from engine.trade.inputs import Values

SINGLE: Final = "single-planets"
DOUBLE: Final = "double-planets"


class Split(NamedTuple):
    """Share of the sun, and of the other output (ring, or carrier with double planets), in per cent."""

    sun: float
    other: float


def split(planets: str, sun: float, ring: float) -> Split | Refusal:
    """How the input torque is shared.

    Formula: single planets Tsun : Tring = Zs : Zr; double planets Tsun : Tcarrier = Zs : Zr - Zs.
    Source: balance of torque on the pitch circles. Refuses a sun that is not smaller than its ring.

    A sun of 36 teeth in a ring of 64: 36 % to the sun's axle, whatever the speeds.

    >>> split("single-planets", 36, 64)
    Split(sun=36.0, other=64.0)
    """
    if not 0 < sun < ring:
        message = f"A sun of {sun:g} teeth does not fit in a ring of {ring:g}."
        return Refusal("teeth", message, "Count again; the ring is the larger wheel, with its teeth inside.")
    whole = sun + ring if planets == SINGLE else ring
    return Split(100 * sun / whole, 100 * (whole - sun) / whole)


def third_speed(planets: str, sun: float, ring: float, driven: float, sun_speed: float) -> float | Refusal:
    """Speed of the other output, from the driven member's and the sun's.

    Formula: single planets ns Zs + nr Zr = nc (Zs + Zr); double planets nr Zr = ns Zs + nc (Zr - Zs).
    Source: kinematics of planet gears (Willis). Refuses as `split` does.

    Sun's axle held, carrier at 100 rpm: the ring turns 100 · 100 / 64.

    >>> third_speed("single-planets", 36, 64, 100, 0)
    156.25
    """
    shares = split(planets, sun, ring)
    if isinstance(shares, Refusal):
        return shares
    return (100 * driven - shares.sun * sun_speed) / shares.other


def with_viscous(
    torque: float, sun_share: float, locking: float, *, sun_is_faster: bool
) -> tuple[float, float]:
    """Torques of the sun's axle and of the other with a viscous unit between the outputs, N·m.

    Formula: the faster axle gets its share less Tv, the slower one its share and Tv. Source: balance of
    torque.

    >>> with_viscous(200, 36, 30, sun_is_faster=True)
    (42.0, 158.0)
    """
    moved = -locking if sun_is_faster else locking
    sun = torque * sun_share / 100 + moved
    return sun, torque - sun


def _shared(
    planets: str, sun: float, ring: float, torque: float, locking: float, faster: str
) -> tuple[float, ...] | Refusal:
    shares = split(planets, sun, ring)
    if isinstance(shares, Refusal):
        return shares
    return *shares, *with_viscous(torque, shares.sun, locking, sun_is_faster=faster == "sun")


def _speeds(planets: str, sun: float, ring: float, driven: float, sun_speed: float) -> Values | Refusal:
    return single(third_speed(planets, sun, ring, driven, sun_speed))


_GEARS: Final = (
    Input("planets", "planets", "Planets", "word", choices=(SINGLE, DOUBLE), default=SINGLE),
    Input("sun", "Zs", "Teeth of the sun", "", least=5, most=300),
    Input("ring", "Zr", "Teeth of the ring", "", least=5, most=500),
)

CALCULATORS: Final = (
    Calculator(
        name="centre-split",
        family="differential",
        title="How a centre differential shares the torque",
        inputs=(
            *_GEARS,
            Input("torque", "T", "Torque that comes in", "N·m", least=0, most=20_000, default="100"),
            Input(
                "locking",
                "Tv",
                "Of a viscous unit between them",
                "N·m",
                least=0,
                most=5000,
                default="0",
            ),
            Input(
                "faster",
                "faster",
                "Output that turns faster",
                "word",
                choices=("sun", "other"),
                default="sun",
            ),
        ),
        outputs=(
            Output("sun-share", "ps", "Sun's share by the gears", "%"),
            Output("other-share", "po", "Other output's share by the gears", "%"),
            Output("sun-torque", "Ts", "At the sun", "N·m"),
            Output("other-torque", "To", "At the other output", "N·m"),
        ),
        function=_shared,
        formula=(
            "Share of the sun  (single planets: Zs / (Zs + Zr); double: Zs / Zr)",
            "Torque at the sun  (its share of T, less Tv where it is faster, and Tv where it is slower)",
            "To = T - Ts",
        ),
        source="balance of torque on the pitch circles; derived for double planets",
        mark="computed",
        valid=(
            "No friction. Single planets: carrier driven, ring is the other output. Double: ring driven, "
            "carrier."
        ),
        example="sun=36 ring=64",
    ),
    Calculator(
        name="centre-speed",
        family="differential",
        title="Speed of a centre differential's other output",
        inputs=(
            *_GEARS,
            Input("driven", "nd", "Driven member", "rpm", least=-20_000, most=20_000),
            Input("sun-speed", "ns", "Sun", "rpm", least=-20_000, most=20_000),
        ),
        outputs=(Output("other-speed", "no", "Other output", "rpm"),),
        function=_speeds,
        formula=(
            (
                "Other output  (single planets: (nd (Zs + Zr) - ns Zs) / Zr; double: (nd Zr - ns Zs) / (Zr - "
                "Zs))"
            ),
        ),
        source="kinematics of planet gears (Willis)",
        mark="published",
        valid="With or without a lock; a locked one has all three speeds alike.",
        example="sun=36 ring=64 driven=100 sun-speed=0",
    ),
)
