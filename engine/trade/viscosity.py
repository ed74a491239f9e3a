"""How thick an oil is at another temperature, how much that changes, and what two oils make when mixed.

Kinematic viscosity in mm²/s throughout (1 mm²/s = 1 cSt). A gear oil that spins easily on a warm day may
not flow to a bearing at all on a cold one; two readings at two temperatures tell the rest.
"""

from collections.abc import Sequence
from math import exp, isfinite, log, log10
from typing import Final

from engine.errors import Refusal
from engine.trade.answers import single
from engine.trade.calculator import Calculator, Input, Output
from engine.trade.plot import Plot

#: Where ASTM D341 says that its equation holds, mm²/s.
THINNEST: Final = 0.21
THICKEST: Final = 2e7
#: Kelvin at 0 °C; some published examples round it to 273.
ZERO: Final = 273.15


def walther(
    cold: float, cold_viscosity: float, hot: float, hot_viscosity: float, zero: float = ZERO
) -> tuple[float, float] | Refusal:
    """Constants A and B of an oil, from its viscosity at two temperatures (°C, mm²/s).

    Formula: log log Z = A - B log T, Z = v + 0.7 + exp(-1.47 - 1.84 v - 0.51 v²), T in kelvin, logarithms to
    base 10. Source: ASTM D341. Above 2 mm²/s the exponential is less than the last digit of any reading.
    Refuses one temperature twice, an oil that is thicker when hot, and viscosities outside 0.21 to
    20 000 000 mm²/s.

    The worked example of the source, which counts 0 °C as 273 K: A 9.5259, B 3.7449.

    >>> [round(constant, 4) for constant in walther(40, 32, 100, 5.4, zero=273)]
    [9.5259, 3.7449]
    """
    for value in (cold_viscosity, hot_viscosity):
        if not THINNEST <= value <= THICKEST:
            return _outside(f"{value:g} mm²/s")
    if cold == hot:
        cure = "Give the viscosity at two temperatures, as a rule 40 °C and 100 °C."
        return Refusal("same-temperature", f"Both viscosities are at {cold:g} °C.", cure)
    upper, lower = _double_log(cold_viscosity), _double_log(hot_viscosity)
    slope = (upper - lower) / (log10(hot + zero) - log10(cold + zero))
    if slope <= 0:
        message = f"An oil of {cold_viscosity:g} mm²/s at {cold:g} °C"
        message += f" cannot have {hot_viscosity:g} mm²/s at {hot:g} °C."
        return Refusal("no-oil", message, "An oil thins as it warms: see whether the two are swapped.")
    return upper + slope * log10(cold + zero), slope


def viscosity_at(
    temperature: float,
    cold: float,
    cold_viscosity: float,
    hot: float,
    hot_viscosity: float,
    zero: float = ZERO,
) -> float | Refusal:
    """The viscosity in mm²/s at a temperature in °C, from that at two others.

    Formula and bounds: see `walther`; back, with x = Z - 0.7, by v = x - exp(-0.7487 - 3.295 x + 0.6119 x² -
    0.3193 x³). Source: ASTM D341. It knows nothing of wax: near the pour point a real oil is thicker.

    >>> round(viscosity_at(80, 40, 32, 100, 5.4), 1)
    8.5
    """
    constants = walther(cold, cold_viscosity, hot, hot_viscosity, zero)
    if isinstance(constants, Refusal):
        return constants
    if temperature + zero <= 0:
        return Refusal("too-cold", f"There is no temperature of {temperature:g} °C.", "Look at the sign.")
    power = constants[0] - constants[1] * log10(temperature + zero)
    value = _undo(power)
    if not (isfinite(value) and 0.995 * THINNEST <= value <= THICKEST):  # the way back is approximate
        return _outside(f"The oil at {temperature:g} °C")
    return value


def temperature_for(
    viscosity: float, cold: float, cold_viscosity: float, hot: float, hot_viscosity: float, zero: float = ZERO
) -> float | Refusal:
    """The temperature in °C at which the oil has this viscosity; the way back of `viscosity_at`.

    >>> round(temperature_for(32, 40, 32, 100, 5.4), 6)
    40.0
    """
    constants = walther(cold, cold_viscosity, hot, hot_viscosity, zero)
    if isinstance(constants, Refusal):
        return constants
    if not THINNEST <= viscosity <= THICKEST:
        return _outside(f"{viscosity:g} mm²/s")
    power = (constants[0] - _double_log(viscosity)) / constants[1]
    if not 0 < power < 4:
        return _outside(f"{viscosity:g} mm²/s")
    return float(10**power) - zero


def mixed(viscosities: Sequence[float], shares: Sequence[float]) -> float | Refusal:
    """The viscosity of a mixture, in mm²/s at the one temperature at which the parts were measured.

    Formula: VBN = 14.534 ln ln(v + 0.8) + 10.975; the numbers are averaged by mass, and the formula undone.
    Source: Refutas blending equation (from memory). Shares by mass, in any one unit; only their ratio counts.

    Half of 15 mm²/s and half of 7.3 mm²/s: less than the 11.15 of a plain average.

    >>> round(mixed([15, 7.3], [1, 1]), 3)
    10.254
    """
    if len(viscosities) != len(shares):
        message = f"There are {len(viscosities)} viscosities and {len(shares)} shares."
        return Refusal("length", message, "Give one share for each oil, in the same order.")
    if any(not THINNEST <= value <= THICKEST for value in viscosities):
        return _outside("One of the oils")
    if any(share < 0 for share in shares) or not sum(shares) > 0:
        return Refusal("share", "A share is less than nothing, or all are nothing.", "Give each mass.")
    number = sum(s * log(log(v + 0.8)) for v, s in zip(viscosities, shares, strict=True)) / sum(shares)
    return exp(exp(number)) - 0.8


def _double_log(viscosity: float) -> float:
    """Log log Z of a viscosity."""
    z = viscosity + 0.7 + exp(-1.47 - 1.84 * viscosity - 0.51 * viscosity**2)
    return log10(log10(z))


def _undo(power: float) -> float:
    """The viscosity of a log log Z; infinite where no float holds it."""
    if power > 2:
        return float("inf")
    x = float(10 ** (10**power)) - 0.7
    return x - exp(-0.7487 - 3.295 * x + 0.6119 * x**2 - 0.3193 * x**3)


def _outside(what: str) -> Refusal:
    message = f"{what} is outside the {THINNEST} to 20 000 000 mm²/s for which the equation holds."
    return Refusal("outside", message, "Look at the figures and their units; 1 cSt is 1 mm²/s.")


_PAIR: Final = (
    Input("cold", "t1", "Temperature of the first viscosity", "°C", least=-70, most=370, default="40 °C"),
    Input("cold-viscosity", "v1", "Viscosity there", "mm²/s", least=0.21, most=20_000_000),
    Input("hot", "t2", "Temperature of the second viscosity", "°C", least=-70, most=370, default="100 °C"),
    Input("hot-viscosity", "v2", "Viscosity there", "mm²/s", least=0.21, most=20_000_000),
    Input(
        "zero", "T0", "Kelvin at 0 °C; some examples take 273", "", least=273, most=273.15, default="273.15"
    ),
)
_CURVE: Final = ("log log Z = A - B log T", "Z = v + 0.7 + exp(-1.47 - 1.84 v - 0.51 v²)")
_HOLDS: Final = "From 0.21 to 20 000 000 mm²/s, for oil that is clear: near its pour point it is thicker."

CALCULATORS: Final = (
    Calculator(
        name="viscosity",
        family="oils",
        title="Viscosity of an oil at another temperature",
        inputs=(Input("temperature", "t", "Temperature asked for", "°C", least=-70, most=370), *_PAIR),
        outputs=(Output("viscosity", "v", "Viscosity", "mm²/s"),),
        function=lambda temperature, cold, cold_viscosity, hot, hot_viscosity, zero: single(
            viscosity_at(temperature, cold, cold_viscosity, hot, hot_viscosity, zero)
        ),
        formula=_CURVE,
        source="ASTM D341",
        mark="published",
        valid=_HOLDS,
        example="temperature=80 cold-viscosity=32 hot-viscosity=5.4",
        plots=(Plot("temperature", 20, 140, "viscosity"),),
    ),
    Calculator(
        name="viscosity-constants",
        family="oils",
        title="Constants A and B of an oil from two viscosities",
        inputs=_PAIR,
        outputs=(Output("a", "A", "Constant A", ""), Output("b", "B", "Constant B", "")),
        function=walther,
        formula=_CURVE,
        source="ASTM D341",
        mark="published",
        valid=_HOLDS,
        example="cold-viscosity=32 hot-viscosity=5.4",
    ),
    Calculator(
        name="viscosity-temperature",
        family="oils",
        title="Temperature at which an oil has a viscosity",
        inputs=(
            Input("viscosity", "v", "Viscosity asked for", "mm²/s", least=0.21, most=20_000_000),
            *_PAIR,
        ),
        outputs=(Output("temperature", "t", "Temperature", "°C"),),
        function=lambda viscosity, cold, cold_viscosity, hot, hot_viscosity, zero: single(
            temperature_for(viscosity, cold, cold_viscosity, hot, hot_viscosity, zero)
        ),
        formula=_CURVE,
        source="ASTM D341",
        mark="published",
        valid=_HOLDS,
        example="viscosity=20 cold-viscosity=140 hot-viscosity=14.5",
    ),
    Calculator(
        name="oil-mixture",
        family="oils",
        title="Viscosity of a mixture of oils",
        inputs=(
            Input("viscosities", "v", "Viscosity of each oil", "mm²/s", least=0.21, most=20_000_000, many=2),
            Input("shares", "x", "Share of each by mass, in the same order", "", least=0, many=2),
        ),
        outputs=(Output("viscosity", "vm", "Viscosity of the mixture", "mm²/s"),),
        function=lambda viscosities, shares: single(mixed(viscosities, shares)),
        formula=("VBN: 14.534 ln ln(v + 0.8) + 10.975 of each oil, averaged by x; then undone",),
        source="Refutas blending equation",
        mark="memory",
        valid="All at one temperature. It says nothing of additives: oils of two makes may not agree.",
        example="viscosities='15, 7.3' shares='1, 1'",
    ),
)
