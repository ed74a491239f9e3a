"""What a viscous coupling's pack of plates drags with at a slip: for an even fluid, and for thinning ones.

Lengths in mm, slip in rpm, viscosity in Pa·s, torque in N·m, power in W. Gaps are counted as faces of
fluid: p inner plates between p + 1 outer ones have 2 p of them. Slots and holes take area away; `share` is
what they leave (0.6 to 0.9 as a rule, common practice: measure the unit and set it). The air in the fill, the
hump of a hot unit and the lag of a cold one are not in these formulas.
"""

from math import log, pi
from typing import Final, NamedTuple

from engine.errors import Refusal
from engine.quadrature import integral
from engine.trade.calculator import Calculator, Input, Output
from engine.trade.plot import Plot

#: The rings of a pack are smooth: so many are more than enough.
_PANELS: Final = 40


class Drag(NamedTuple):
    """What the pack does at one slip: N·m, W, N·m·s/rad (torque over slip), and 1/s at the outer rim."""

    torque: float
    power: float
    damping: float
    rate: float


def rad_s(rpm: float) -> float:
    """Turns a minute as radians a second.

    >>> round(rad_s(60), 4)
    6.2832
    """
    return rpm * pi / 30


def newtonian(
    slip: float, inner: float, outer: float, gap: float, gaps: float, viscosity: float, share: float = 1
) -> Drag | Refusal:
    """The drag of a fluid whose viscosity does not change with slip: the most that a real one can have.

    Formula: T = s N π η ω (ro⁴ - ri⁴) / (2 h); P = T ω; c = T / ω; rate = ω ro / h.
    Source: shear between turning discs, fluid-mechanics textbooks. Refuses an inner radius that is not less
    than the outer one, and a pack without a gap.

    Forty gaps of 0.25 mm between 35 and 55 mm, 29.1 Pa·s (30 000 mm²/s at 970 kg/m³), at 10 rpm:

    >>> [round(value, 2) for value in newtonian(10, 35, 55, 0.25, 40, 29.1)]
    [58.59, 61.36, 55.95, 230.38]
    """
    wrong = _no_pack(inner, outer, gap)
    if wrong:
        return wrong
    damping = share * gaps * pi * viscosity * _power_difference(inner, outer, 4) / (2 * gap / 1000)
    omega = rad_s(slip)
    return Drag(damping * omega, damping * omega**2, damping, omega * outer / gap)


def power_law(
    slip: float,
    inner: float,
    outer: float,
    gap: float,
    gaps: float,
    consistency: float,
    index: float,
    share: float = 1,
) -> Drag | Refusal:
    """The drag of a fluid with η = K g^(n-1) at the shear rate g (1/s); K in Pa·sⁿ, n = 1 does not thin.

    Formula: T = s 2 π N K (ω/h)ⁿ (ro^(n+3) - ri^(n+3)) / (n + 3). Source: power-law fluid between turning
    discs (Ostwald-de Waele), rheology textbooks. Holds in the middle range of shear rates; at a very small
    one it makes the fluid thicker than any is. Refuses as `newtonian` does.

    >>> round(power_law(50, 35, 55, 0.25, 40, 200, 0.7).torque, 3)
    255.159
    """
    wrong = _no_pack(inner, outer, gap)
    if wrong:
        return wrong
    omega, height = rad_s(abs(slip)), gap / 1000
    shape = _power_difference(inner, outer, index + 3) / (index + 3)
    size = share * 2 * pi * gaps * consistency * (omega / height) ** index * shape
    return _drag(size, slip, outer, gap)


def cross(
    slip: float,
    inner: float,
    outer: float,
    gap: float,
    gaps: float,
    viscosity: float,
    stress: float,
    index: float,
    share: float = 1,
) -> Drag | Refusal:
    """The drag of a fluid that thins from `viscosity` on, once η0 g comes near the stress (Pa).

    Formula: T = s 2 π N ∫ η g r² dr from ri to ro, g = ω r / h, η = η0 / (1 + (η0 g / τ)^m).
    Source: Cross, Journal of Colloid Science 20 (1965) 417; the constants belong to one fluid and are
    measured. Refuses as `newtonian` does. The slip of a whole drive fits: the torque bends down, and never
    turns back for m up to 1.

    >>> [round(cross(slip, 35, 55, 0.25, 40, 29.1, 3e4, 0.8).torque, 2) for slip in (1, 10)]
    [5.62, 46.29]
    """
    wrong = _no_pack(inner, outer, gap)
    if wrong:
        return wrong
    per_metre = rad_s(abs(slip)) / (gap / 1000)

    def ring(radius: float) -> float:
        rate = per_metre * radius
        thinning = 1 + float((viscosity * rate / stress) ** index)
        return viscosity * rate * radius**2 / thinning

    size = share * 2 * pi * gaps * integral(ring, inner / 1000, outer / 1000, _PANELS)
    return _drag(size, slip, outer, gap)


def curve(slip: float, slow: float, low: float, fast: float, high: float) -> tuple[float, float] | Refusal:
    """The torque at a slip on the curve M = M0 nᵠ through two measured points, and the exponent q.

    Formula: q = ln(M2/M1) / ln(n2/n1), M = M1 (n/n1)ᵠ. Source: degressive curve, the accepted empirical form
    (common practice); q is 1 for an even fluid and less for one that thins. Torques in one unit, slips in
    one. Refuses two equal slips.

    Four times the slip and twice the torque: the exponent is a half.

    >>> curve(90, 10, 40, 40, 80)
    (120.0, 0.5)
    """
    if slow == fast:
        cure = "Measure the torque at two slips that lie well apart."
        return Refusal("one-point", f"Both torques were measured at {slow:g}.", cure)
    exponent = log(high / low) / log(fast / slow)
    return low * (slip / slow) ** exponent, exponent


def _drag(size: float, slip: float, outer: float, gap: float) -> Drag:
    """The drag of this size, in the direction of the slip."""
    omega = rad_s(slip)
    torque = size if slip >= 0 else -size
    return Drag(torque, torque * omega, torque / omega if omega else 0.0, omega * outer / gap)


def _no_pack(inner: float, outer: float, gap: float) -> Refusal | None:
    if inner >= outer:
        message = f"The inner radius, {inner:g} mm, is not less than the outer one, {outer:g} mm."
        return Refusal(
            "no-pack", message, "Measure both from the centre of the shaft; see whether they are swapped."
        )
    if gap <= 0:
        cure = "Give the height of the fluid between two plates, above zero."
        return Refusal("no-pack", f"A gap of {gap:g} mm holds no fluid.", cure)
    return None


def _power_difference(inner: float, outer: float, power: float) -> float:
    """The difference of two radii, given in mm, raised to a power in metres."""
    return float((outer / 1000) ** power - (inner / 1000) ** power)


_PACK: Final = (
    Input("slip", "n", "Slip of the coupling", "rpm", least=-20_000, most=20_000),
    Input("inner", "ri", "Inner radius of the plates", "mm", least=0, most=500),
    Input("outer", "ro", "Outer radius of the plates", "mm", least=1, most=500),
    Input("gap", "h", "Height of the fluid between two plates", "mm", least=0.01, most=10),
    Input("gaps", "N", "Gaps: two for each inner plate", "", least=1, most=500),
)
_VISCOSITY: Final = Input("viscosity", "η", "Viscosity", "Pa·s", least=0.0001, most=2000)
_SHARE: Final = Input("share", "s", "What slots leave of the area", "", least=0.1, most=1, default="1")
_DRAG: Final = (
    Output("torque", "T", "Torque", "N·m"),
    Output("power", "P", "Heat", "W"),
    Output("damping", "c", "Torque for its slip", "N·m·s/rad"),
    Output("rate", "g", "Shear rate at the outer rim", "per s"),
)
_PLOTS: Final = (Plot("slip", 0, 200, "torque"), Plot("slip", 0, 200, "power"))
_TURNING: Final = "w = 2 π n / 60  (n in rpm)"
_REST: Final = ("P = T w", "c = T / w", "g = w ro / h")

CALCULATORS: Final = (
    Calculator(
        name="coupling-torque",
        family="coupling",
        title="Torque and heat of a pack of plates, even fluid",
        inputs=(*_PACK, _VISCOSITY, _SHARE),
        outputs=_DRAG,
        function=newtonian,
        formula=(_TURNING, "T = s N π η w (ro^4 - ri^4) / (2 h)", *_REST),
        source="shear between turning discs, fluid-mechanics textbooks",
        mark="published",
        valid="The most that a pack can drag: slip thins a real fluid. Not for a unit on its hump.",
        example="slip=10 inner=35 outer=55 gap=0.25 gaps=40 viscosity=29.1",
        plots=_PLOTS,
    ),
    Calculator(
        name="coupling-torque-power-law",
        family="coupling",
        title="Torque and heat of a pack, fluid thinning by a power law",
        inputs=(
            *_PACK,
            Input(
                "consistency",
                "K",
                "Viscosity at a shear rate of one per second",
                "Pa·s",
                least=0.001,
                most=1e5,
            ),
            Input(
                "index", "m", "Exponent: 1 for an even fluid, less for one that thins", "", least=0.1, most=2
            ),
            _SHARE,
        ),
        outputs=_DRAG,
        function=power_law,
        formula=(_TURNING, "T = 2 π s N K (w / h)^m (ro^(m+3) - ri^(m+3)) / (m + 3)", *_REST),
        source="power-law fluid between turning discs, rheology textbooks",
        mark="published",
        valid="For the shear rates at which K and m were measured; near standstill the real torque is less.",
        example="slip=50 inner=35 outer=55 gap=0.25 gaps=40 consistency=200 index=0.7",
        plots=_PLOTS,
    ),
    Calculator(
        name="coupling-torque-cross",
        family="coupling",
        title="Torque and heat of a pack, fluid thinning from a stress on",
        inputs=(
            *_PACK,
            _VISCOSITY,
            Input("stress", "τ", "Stress at which it has thinned to half", "Pa", least=1, most=1e8),
            Input("index", "m", "How sharply it thins", "", least=0.1, most=1, default="0.8"),
            _SHARE,
        ),
        outputs=_DRAG,
        function=cross,
        formula=(
            _TURNING,
            "Torque  (integral of 2 π s N η g r² / (1 + (η g / τ)^m) over r from ri to ro, g = w r / h)",
            *_REST[:2],
        ),
        source="Cross, Journal of Colloid Science 20 (1965) 417",
        mark="published",
        valid="From standstill to any slip of a cold unit; η, τ and m belong to one fluid and are measured.",
        example="slip=10 inner=35 outer=55 gap=0.25 gaps=40 viscosity=29.1 stress='30 kPa'",
        plots=_PLOTS,
    ),
    Calculator(
        name="coupling-curve",
        family="coupling",
        title="Torque at a slip, from two measured points",
        inputs=(
            Input("slip", "n", "Slip that is asked about", "rpm", least=0.001, most=20_000),
            Input("slow", "n1", "Smaller slip measured", "rpm", least=0.001, most=20_000),
            Input("low", "M1", "Torque there", "N·m", least=0.001, most=100_000),
            Input("fast", "n2", "Larger slip measured", "rpm", least=0.001, most=20_000),
            Input("high", "M2", "Torque there", "N·m", least=0.001, most=100_000),
        ),
        outputs=(
            Output("torque", "M", "Torque", "N·m"),
            Output("exponent", "q", "Exponent of the curve", ""),
        ),
        function=curve,
        formula=("q = ln(M2 / M1) / ln(n2 / n1)", "M = M1 (n / n1)^q"),
        source="common practice: the degressive curve, with constants of the one unit",
        mark="common-practice",
        valid="Between the points and a little beyond, at the temperature at which both were measured.",
        example="slip=90 slow=10 low=40 fast=40 high=80",
        plots=(Plot("slip", 1, 200, "torque"),),
    ),
)
