"""What the air takes from the case of a coupling while the vehicle rolls.

The case is taken for a cylinder across the stream. Speed of the air in m/s, lengths in mm, temperatures
in °C, h in W/(m²·K), loss in W/K.
"""

from math import pi
from typing import Final, NamedTuple

from engine.trade.calculator import Calculator, Input, Output
from engine.trade.coupling_fluid import ZERO
from engine.trade.plot import Plot

#: Sea level; J/(kg·K) of dry air; m/s².
_PRESSURE: Final = 101_325.0
_GAS: Final = 287.05
_HEAT: Final = 1007.0
_FALL: Final = 9.80665
#: Rayleigh number up to which a row holds, its factor and its power. Source: Morgan (1975), textbooks.
_STILL: Final = (
    (1e-2, 0.675, 0.058),
    (1e2, 1.02, 0.148),
    (1e4, 0.850, 0.188),
    (1e7, 0.480, 0.250),
    (1e12, 0.125, 0.333),
)


class Air(NamedTuple):
    """Air at sea level: density kg/m³, viscosity mm²/s, conductivity W/(m·K), Prandtl number."""

    density: float
    viscosity: float
    conductivity: float
    prandtl: float


def air(temperature: float) -> Air:
    """Air of a temperature in °C.

    Formula: Sutherland's law for viscosity and conductivity, the gas law for density. Source: fluid-mechanics
    textbooks; within 1 % of reference data from -40 to 150 °C.

    >>> [round(value, 3) for value in air(25)]
    [1.184, 15.517, 0.026, 0.709]
    """
    kelvin = temperature + ZERO
    rise = (kelvin / ZERO) ** 1.5
    dynamic = 1.716e-5 * rise * (ZERO + 110.4) / (kelvin + 110.4)
    conductivity = 0.0241 * rise * (ZERO + 194) / (kelvin + 194)
    density = _PRESSURE / (_GAS * kelvin)
    return Air(density, dynamic / density * 1e6, conductivity, dynamic * _HEAT / conductivity)


def transfer(stream: float, diameter: float, surface: float = 100, ambient: float = 25) -> float:
    """How well air takes heat from a cylinder across its stream, W/(m²·K).

    Formula: Churchill and Bernstein, Nu = 0.3 + 0.62 √Re Pr^⅓ / (1 + (0.4 / Pr)^⅔)^¼ (1 + (Re / 282000)^⅝)^⅘;
    in still air Morgan, Nu = C Ra^n; the larger of both counts. Air at the mean of both temperatures. Source:
    heat-transfer textbooks, to 20 %.

    A case of 150 mm at 100 °C in air of 25 °C: still, and at 15 m/s.

    >>> round(transfer(0, 150), 1), round(transfer(15, 150), 1)
    (5.8, 46.1)
    """
    film = air((surface + ambient) / 2)
    nusselt = max(_blown(stream, diameter, film), _rising(diameter, surface, ambient, film))
    return nusselt * film.conductivity / (diameter / 1000)


def _blown(stream: float, diameter: float, film: Air) -> float:
    reynolds = stream * diameter * 1000 / film.viscosity
    shape = (1 + (0.4 / film.prandtl) ** (2 / 3)) ** 0.25
    turbulent = (1 + (reynolds / 282_000) ** 0.625) ** 0.8
    return float(0.3 + 0.62 * reynolds**0.5 * film.prandtl ** (1 / 3) / shape * turbulent)


def _rising(diameter: float, surface: float, ambient: float, film: Air) -> float:
    """By the air that rises from a warm case, or sinks from a cold one."""
    mean = (surface + ambient) / 2 + ZERO
    size = (diameter / 1000) ** 3 / (film.viscosity * 1e-6) ** 2
    rayleigh = _FALL * abs(surface - ambient) / mean * size * film.prandtl
    factor, power = next((row[1:] for row in _STILL if rayleigh <= row[0]), _STILL[-1][1:])
    return float(factor * rayleigh**power)


def skin(diameter: float, length: float) -> float:
    """The outside of a closed cylinder in cm², its two ends with it; lengths in mm.

    >>> round(skin(150, 100), 1)
    824.7
    """
    return pi * diameter * (length + diameter / 2) / 100


def cooled(
    speed: float,
    diameter: float,
    length: float,
    share: float = 30,
    surface: float = 100,
    ambient: float = 25,
) -> tuple[float, float, float]:
    """Air speed in m/s, h in W/(m²·K) and loss in W/K of a case at a road speed in km/h.

    Formula: u = share v; G = h A. `share` in per cent is the part of the road speed that reaches the case;
    under a floor it is less than half (common practice). Source: as `transfer`.

    >>> [round(value, 2) for value in cooled(100, 150, 100)]
    [8.33, 31.26, 2.58]
    """
    stream = speed / 3.6 * share / 100
    coefficient = transfer(stream, diameter, surface, ambient)
    return stream, coefficient, coefficient * skin(diameter, length) / 10_000


SPEED: Final = Input("speed", "v", "Road speed", "km/h", least=0, most=250)
#: Shared by whatever asks for a case in the air of the road.
CASE: Final = (
    Input("diameter", "D", "Diameter of the case", "mm", least=20, most=500, default="150"),
    Input("length", "L", "Length of the case", "mm", least=10, most=1000, default="100"),
    Input(
        "share", "s", "Part of the road speed in the air at the case", "%", least=0, most=120, default="30"
    ),
)
AMBIENT: Final = Input("ambient", "ta", "Air", "°C", least=-60, most=70, default="25")
_NUSSELT: Final = (
    "Nu = 0.3 + 0.62 √Re Pr^⅓ / (1 + (0.4 / Pr)^⅔)^¼ (1 + (Re / 282000)^⅝)^⅘,"
    " in still air C Ra^n; the larger counts"
)

CALCULATORS: Final = (
    Calculator(
        name="air-cooling",
        family="coupling",
        title="Heat that the air takes from a case at a road speed",
        inputs=(
            SPEED,
            *CASE,
            Input("surface", "ts", "Surface of the case", "°C", least=-60, most=300, default="100"),
            AMBIENT,
        ),
        outputs=(
            Output("stream", "u", "Air at the case", "m/s"),
            Output("transfer", "h", "Heat transfer", "W/(m²·K)"),
            Output("loss", "G", "Heat lost for each kelvin above the air", "W/K"),
        ),
        function=cooled,
        formula=("u = s v", _NUSSELT, "h = Nu k / D", "G = h π D (L + D / 2)"),
        source="Churchill and Bernstein (1977) and Morgan (1975), heat-transfer textbooks; the share of the"
        " air and the case are invented until you put in your own",
        mark="published",
        valid="For a smooth closed case at sea level, to 20 % or so; ribs take more, dirt and a shield less.",
        example="speed=100",
        plots=(Plot("speed", 0, 130, "loss"),),
    ),
)
