"""Figures on old cans and sheets: Saybolt seconds as a viscosity, degrees API as a density."""

from typing import Final

from engine.errors import Refusal
from engine.trade.answers import single
from engine.trade.calculator import Calculator, Input, Output

#: Below this the tube of Saybolt does not measure.
_LEAST_SECONDS: Final = 32.0


def saybolt(viscosity: float) -> float:
    """Saybolt universal seconds at 100 °F of a viscosity in mm²/s.

    Formula: 4.6324 v + (1 + 0.03264 v) / ((3930.2 + 262.7 v + 23.97 v² + 1.646 v³) 10⁻⁵). Source: ASTM D2161
    (from memory).

    >>> round(saybolt(42.90), 1)
    200.0
    """
    bend = 3930.2 + 262.7 * viscosity + 23.97 * viscosity**2 + 1.646 * viscosity**3
    return 4.6324 * viscosity + (1 + 0.03264 * viscosity) / (bend * 1e-5)


def from_saybolt(seconds: float) -> float | Refusal:
    """The viscosity in mm²/s of so many Saybolt universal seconds at 100 °F, found by halving.

    >>> round(from_saybolt(200), 2)
    42.9
    """
    if seconds < _LEAST_SECONDS:
        return Refusal("range", "The tube of Saybolt begins at 32 s.", "Give the viscosity in mm²/s.")
    low, high = 0.0, seconds
    while low < (middle := (low + high) / 2) < high:
        low, high = (middle, high) if saybolt(middle) < seconds else (low, middle)
    return high


def relative_density(api: float) -> float:
    """The density of oil at 60 °F over that of water, from degrees API: 141.5 / (API + 131.5).

    Source: definition, API MPMS 11.1 (from memory). The other way round: API = 141.5 / density - 131.5.

    >>> round(relative_density(27), 4), round(141.5 / 0.9 - 131.5, 2)
    (0.8927, 25.72)
    """
    return 141.5 / (api + 131.5)


CALCULATORS: Final = (
    Calculator(
        name="saybolt-viscosity",
        family="oils",
        title="Viscosity from Saybolt seconds on an old can",
        inputs=(Input("seconds", "U", "Saybolt universal seconds at 100 °F", "s", least=1, most=100_000),),
        outputs=(Output("viscosity", "v", "Viscosity at 37.8 °C", "mm²/s"),),
        function=lambda seconds: single(from_saybolt(seconds)),
        formula=("U = 4.6324 v + (1 + 0.03264 v) / ((3930.2 + 262.7 v + 23.97 v² + 1.646 v³) 10⁻⁵)",),
        source="ASTM D2161",
        mark="memory",
        valid="At 100 °F; at other temperatures a little more.",
        example="seconds=200",
    ),
    Calculator(
        name="api-gravity",
        family="oils",
        title="Density of oil from degrees API",
        inputs=(Input("api", "API", "Degrees API", "", least=-40, most=100),),
        outputs=(Output("density", "d", "Density at 60 °F, over that of water", ""),),
        function=lambda api: (relative_density(api),),
        formula=("d = 141.5 / (API + 131.5)",),
        source="definition, API MPMS 11.1",
        mark="memory",
        valid="At 60 °F.",
        example="api=27",
    ),
)
