"""How large a tyre is and how far it rolls in one turn."""

from math import floor, pi
from typing import Final

from engine.errors import Refusal
from engine.trade.calculator import Calculator, Input, Output
from engine.trade.inputs import Values
from engine.trade.tyre_codes import Size, read_size

#: Rolled distance for a diameter of one, at 60 km/h and rated load; standards' practice, from memory.
RADIAL: Final = 3.05
DIAGONAL: Final = 2.99
_MILE: Final = 1_609_344.0  # mm


def standard_diameter(size: Size) -> float:
    """The diameter over the tread as the standards tell it, in mm: rim and height rounded to whole mm.

    Source: UN R30, ISO 4000-1 (rounding from memory).

    >>> standard_diameter(read_size("205/55R16"))
    632
    """
    return floor(float(size.rim) + 0.5) + 2 * floor(float(size.height) + 0.5)


def rolled(diameter: float, make: str = "radial") -> float:
    """How far a tyre rolls in one turn under load, in mm, from its diameter over the tread in mm.

    Formula: C = 3.05 D, diagonal and belted tyres 2.99 D. Source: standards' practice at 60 km/h, from
    memory; textbooks agree that C is about 3 % less than pi D. Within 1 %; the tyre itself, rolled over a
    marked floor, knows better.

    >>> round(rolled(631.9), 1)
    1927.3
    """
    return diameter * (RADIAL if make == "radial" else DIAGONAL)


def turns_a_km(circumference: float) -> float:
    """Turns in one kilometre, from the rolled circumference in mm.

    >>> turns_a_km(2000)
    500.0
    """
    return 1e6 / circumference


def section_width(stated: float, rim: float, measuring_rim: float) -> float:
    """The width of a tyre's section on another rim, all in mm.

    Formula: S = S1 + 0.4 (A - A1). Source: UN R30.

    One inch wider a rim: 0.4 · 25.4 = 10.16 mm.

    >>> round(section_width(205, 177.8, 152.4), 2)
    215.16
    """
    return stated + 0.4 * (rim - measuring_rim)


def _size(code: str) -> Values | Refusal:
    size = read_size(code)
    if isinstance(size, Refusal):
        return size
    over = float(size.diameter)
    length = rolled(over, size.make)
    words = f"{size.use}, {size.make}"
    free = pi * over
    per_km = turns_a_km(length)
    return (words, float(size.width), float(size.height), over, standard_diameter(size), free, length, per_km)


CALCULATORS: Final = (
    Calculator(
        name="tyre-size",
        family="tyres",
        title="Diameter, circumference and turns a km from a size code",
        inputs=(Input("code", "code", "Size as it stands on the sidewall", "text"),),
        outputs=(
            Output("kind", "kind", "Kind of tyre", "text"),
            Output("width", "W", "Width of the section", "mm"),
            Output("height", "H", "Height from rim to tread", "mm"),
            Output("diameter", "D", "Diameter over the tread", "mm"),
            Output("standard-diameter", "Ds", "Diameter as the standards round it", "mm"),
            Output("free-circumference", "Cf", "Circumference, not loaded", "mm"),
            Output("circumference", "C", "Rolled in one turn, loaded", "mm"),
            Output("turns", "n", "Turns a distance, loaded", "rev/km"),
        ),
        function=_size,
        formula=("Cf = pi D", "C = 3.05 D  (diagonal and belted: 2.99 D)", "n = 1 000 000 mm / C"),
        source="UN R30, ISO 4000-1; C from memory, at 60 km/h and rated load",
        mark="memory",
        valid="For a new tyre; C within 1 %. Before two tyres are compared, roll both over a marked floor.",
        example="code='205/55R16 91V'",
    ),
    Calculator(
        name="tyre-width",
        family="tyres",
        title="Width of a tyre's section on another rim",
        inputs=(
            Input("width", "S1", "Stated width of the section", "mm", least=100, most=500),
            Input("rim", "A", "Width of the rim it is on", "mm", least=75, most=400),
            Input("measuring-rim", "A1", "Width of the rim it was stated for", "mm", least=75, most=400),
        ),
        outputs=(Output("width", "S", "Width of the section", "mm"),),
        function=lambda width, rim, measuring_rim: (section_width(width, rim, measuring_rim),),
        formula=("S = S1 + 0.4 (A - A1)",),
        source="UN R30",
        mark="published",
        valid="For rims that are allowed for the tyre.",
        example="width=205 rim='7 in' measuring-rim='6 in'",
    ),
)
