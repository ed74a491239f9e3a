"""The fluid in a viscous coupling: how it thins and grows with heat, and where its case is full.

Silicone fluid (polydimethylsiloxane). It does not thicken when hot: heat thins it, and the steep rise of a
hot unit comes from plates that touch once the fluid has filled the case. Temperatures in °C, kelvin inside.
"""

from math import exp
from typing import Final

from engine.errors import Refusal
from engine.trade.answers import single
from engine.trade.calculator import Calculator, Input, Output

ZERO: Final = 273.15
#: The temperature that fluids are named by, °C.
NAMED_AT: Final = 25.0
#: Thinning constant in kelvin (14.6 kJ/mol); from memory, and it gives the usual coefficient of 0.60.
THINNING: Final = 1750.0


def thinned(
    viscosity: float, temperature: float, named_at: float = NAMED_AT, thinning: float = THINNING
) -> float:
    """The viscosity at a temperature, in the unit that it was given in.

    Formula: η = η0 exp(B (1/T - 1/T0)), T in kelvin. Source: Arrhenius' law, with B from memory for silicone
    fluid. Good between -20 and 200 °C; does not know the thinning by slip.

    A fluid of 30 000 mm²/s at 25 °C keeps a third at 100 °C:

    >>> round(thinned(30_000, 100))
    9221
    """
    return viscosity * exp(thinning * (1 / (temperature + ZERO) - 1 / (named_at + ZERO)))


def temperature_coefficient(thinning: float = THINNING) -> float:
    """What part of its viscosity at 38 °C the fluid loses up to 99 °C (the trade's VTC).

    Formula: 1 - ν(99 °C) / ν(38 °C). Source: definition used for silicone fluids; about 0.60 from 100 mm²/s
    up (from memory).

    >>> round(temperature_coefficient(), 3)
    0.602
    """
    return 1 - thinned(1, 99, 38, thinning)


def density_at(
    density: float, temperature: float, named_at: float = NAMED_AT, expansion: float = 9.2e-4
) -> float:
    """The density in kg/m³ at a temperature.

    Formula: ρ = ρ0 / (1 + b (T - T0)), b per kelvin. Source: cubic expansion, textbook; b from memory.

    >>> round(density_at(970, 125))
    888
    """
    return density / (1 + expansion * (temperature - named_at))


def dynamic(kinematic: float, density: float) -> float:
    """Viscosity in Pa·s from mm²/s and kg/m³. Formula: η = ν ρ. Source: definition, ISO 80000-4.

    >>> dynamic(30_000, 970)
    29.1
    """
    return kinematic * density / 1e6


def full_at(fill: float, filled_at: float = NAMED_AT, expansion: float = 9.2e-4) -> float | Refusal:
    """The temperature in °C at which fluid that fills `fill` per cent of the case, cold, fills all of it.

    Formula: T = T0 + (1/f - 1) / b, b per kelvin. Source: cubic expansion, textbook; 9.0 to 9.6e-4 per kelvin
    for silicone fluid (from memory). An estimate from below: air dissolves and the case grows, so a real hump
    comes later. Refuses a fill beyond 100 %.

    >>> [round(full_at(fill)) for fill in (85, 90, 95)]
    [217, 146, 82]
    """
    if not 0 < fill <= 100:
        message = f"A case cannot be {fill:g} % full."
        return Refusal("fill", message, "Give the fill in per cent of the free space; 85 to 95 is usual.")
    return filled_at + (100 / fill - 1) / expansion


_THINNING: Final = Input(
    "thinning", "B", "Thinning constant in kelvin", "", least=0, most=6000, default="1750"
)


def _fluid(
    viscosity: float, temperature: float, density: float, thinning: float
) -> tuple[float, float, float]:
    thin = thinned(viscosity, temperature, thinning=thinning)
    return thin, dynamic(thin, density_at(density, temperature)), 100 * temperature_coefficient(thinning)


CALCULATORS: Final = (
    Calculator(
        name="coupling-fluid",
        family="coupling",
        title="Viscosity of silicone fluid at a temperature",
        inputs=(
            Input(
                "viscosity", "v", "Viscosity that it is named by, at 25 °C", "mm²/s", least=50, most=2_000_000
            ),
            Input("temperature", "t", "Temperature", "°C", least=-40, most=230),
            Input("density", "d", "Density at 25 °C", "kg/m³", least=800, most=1200, default="970"),
            _THINNING,
        ),
        outputs=(
            Output("thinned", "vt", "Viscosity then", "mm²/s"),
            Output("dynamic", "η", "The same as dynamic viscosity", "Pa·s"),
            Output("coefficient", "VTC", "Lost from 38 to 99 °C", "%"),
        ),
        function=_fluid,
        formula=(
            "vt = v exp(B (1 / (t + 273.15) - 1 / 298.15))  (t in °C)",
            "η = vt d / (1 + 9.2e-4 (t - 25))",
            "VTC = 1 - exp(B (1 / 372.15 - 1 / 311.15))",
        ),
        source="Arrhenius' law; constants of silicone fluid from memory",
        mark="memory",
        valid="From -20 to 200 °C, at rest: slip thins it besides. It never thickens when hot.",
        example="viscosity=30000 temperature=100",
    ),
    Calculator(
        name="coupling-full",
        family="coupling",
        title="Temperature at which the fluid fills the case",
        inputs=(
            Input("fill", "f", "Fill, cold", "%", least=50, most=100),
            Input(
                "filled-at", "t0", "Temperature when it was filled", "°C", least=-20, most=60, default="25"
            ),
            Input("expansion", "b", "Growth of the fluid", "per K", least=5e-4, most=2e-3, default="0.00092"),
        ),
        outputs=(Output("temperature", "t", "The case is full at", "°C"),),
        function=lambda fill, filled_at, expansion: single(full_at(fill, filled_at, expansion)),
        formula=("t = t0 + (1 / f - 1) / b",),
        source="cubic expansion, textbook; growth of silicone fluid from memory",
        mark="computed",
        valid="From below: air dissolves, the case grows. Beyond it plates touch and torque jumps.",
        example="fill=90",
    ),
)
