"""How far oil rises as it warms, what a level read hot is worth cold, and how much to fill.

Oil grows by about 0.07 % a degree. In a small unit with a narrow space above the oil that is millimetres at
the plug: a level read hot reads high. Volumes in L, temperatures in °C, expansion per kelvin, levels in mm,
surfaces of oil in cm².
"""

from typing import Final

from engine.errors import Refusal
from engine.trade.answers import single
from engine.trade.calculator import Calculator, Input, Output
from engine.trade.inputs import Values

#: Mean cubic expansion of lubricating oil, per K. Source: general engineering tables.
OIL: Final = 7.0e-4


def growth(volume: float, start: float, end: float, expansion: float = OIL) -> float:
    """By how much a volume grows from one temperature to another; less than nothing as it cools.

    Formula: dV = V b (t2 - t1). Source: general engineering tables, b = 7.0e-4 per K for oil; ASTM D1250
    tables come to about 6.4e-4. The line is straight; over 100 K the error is below a tenth of the growth.

    >>> round(growth(100, 20, 40), 6)
    1.4
    """
    return volume * expansion * (end - start)


def volume_at(volume: float, start: float, end: float, expansion: float = OIL) -> float:
    """The volume at the other temperature: V (1 + b (t2 - t1)).

    >>> round(volume_at(1, 20, 80), 6)
    1.042
    """
    return volume + growth(volume, start, end, expansion)


def density_at(density: float, start: float, end: float, expansion: float = OIL) -> float | Refusal:
    """The density at the other temperature, in the unit of the first: rho / (1 + b (t2 - t1)).

    >>> round(density_at(880, 15, 80), 1)
    841.7
    """
    size = 1 + expansion * (end - start)
    if size <= 0:
        message = f"An oil that shrinks to nothing between {start:g} °C and {end:g} °C is none."
        return Refusal("expansion", message, "Give the expansion per kelvin, about 0.0007 per K.")
    return density / size


def rise(volume: float, surface: float, start: float, end: float, expansion: float = OIL) -> float | Refusal:
    """By how many mm the level rises: the growth spread over the free surface of the oil, V b (t2 - t1) / A.

    Holds while the walls are upright and foam is gone; the growth of the case is left out, for it is a
    tenth of the oil's. Source: arithmetic.

    >>> round(rise(1, 200, 20, 80), 6)
    2.1
    """
    if surface <= 0:
        return Refusal("surface", "The oil has no free surface.", "Give the surface of the oil in cm².")
    return growth(volume, start, end, expansion) * 10_000 / surface


def below_hole(
    read: float, volume: float, surface: float, at: float, check_at: float, expansion: float = OIL
) -> float | Refusal:
    """How far below the hole the oil would stand at the temperature of the check; above it, negative.

    `read` is the reading in mm below the hole at the temperature `at`. Read warm at the very edge, the oil of
    the example stands 2.1 mm lower at 20 °C.

    >>> round(below_hole(0, 1, 200, at=80, check_at=20), 6)
    2.1
    """
    change = rise(volume, surface, at, check_at, expansion)
    return change if isinstance(change, Refusal) else read - change


def top_up(below: float, surface: float) -> float | Refusal:
    """What fills the unit up to the hole, in L: A h. Less than nothing is what runs out.

    >>> top_up(10, 200)
    0.2
    """
    if surface <= 0:
        return Refusal("surface", "The oil has no free surface.", "Give the surface of the oil in cm².")
    return below * surface / 10_000


def refill(
    capacity: float, stays: float, sheet_at: float, fill_at: float, expansion: float = OIL
) -> float | Refusal:
    """How much to fill after a drain, in L as measured at the temperature of the new oil.

    `capacity` is the dry fill of the sheet at `sheet_at`; `stays` is what the drain leaves behind (in
    bearings, in the case below the plug). Source: arithmetic.

    >>> refill(2.0, 0.2, 20, 20), round(refill(2.0, 0.2, 20, -10), 4)
    (1.8, 1.7622)
    """
    if not 0 <= stays <= capacity:
        message = f"{stays:g} L cannot stay behind in a unit that holds {capacity:g} L."
        return Refusal("stays", message, "Give what the drain leaves, between nothing and the dry fill.")
    return volume_at(capacity - stays, sheet_at, fill_at, expansion)


def missing(
    capacity: float, stays: float, drained: float, sheet_at: float, drained_at: float, expansion: float = OIL
) -> float | Refusal:
    """How much oil had been lost before the drain, in L at the temperature of the sheet.

    Drained hot, oil measures more than it is on the sheet. Less than nothing: the unit had been overfilled,
    or holds oil of its neighbour. Source: arithmetic.

    >>> round(missing(2.0, 0.2, 1.55, 20, 60), 3)
    0.293
    """
    full = refill(capacity, stays, sheet_at, sheet_at, expansion)
    if isinstance(full, Refusal):
        return full
    if drained < 0:
        return Refusal("drained", "Less than nothing was drained.", "Give the volume in the tray.")
    return full - volume_at(drained, drained_at, sheet_at, expansion)


def _level(
    below: float, volume: float, surface: float, at: float, check_at: float, expansion: float
) -> Values | Refusal:
    change = rise(volume, surface, at, check_at, expansion)
    if isinstance(change, Refusal):
        return change
    fill = top_up(below - change, surface)
    return fill if isinstance(fill, Refusal) else (change, below - change, fill)


_OIL: Final = Input(
    "expansion", "b", "Cubic expansion of the oil", "per K", least=0, most=0.002, default="0.0007 per K"
)
_VOLUME: Final = Input("volume", "V", "Volume of oil", "L", least=0, most=1_000)
_AT: Final = Input("at", "t1", "Temperature of the oil now", "°C", least=-60, most=250)
_CHECK: Final = Input(
    "check-at", "t2", "Temperature of the check", "°C", least=-60, most=250, default="20 °C"
)
_CAPACITY: Final = (
    Input("capacity", "Vc", "Dry fill of the sheet", "L", least=0, most=1_000),
    Input("stays", "Vs", "What the drain leaves behind", "L", least=0, most=1_000, default="0 L"),
)
_SHEET: Final = Input(
    "sheet-at", "t0", "Temperature that the sheet counts at", "°C", least=-60, most=250, default="20 °C"
)
_TABLES: Final = "general engineering tables for b (7.0e-4 per K; ASTM D1250 about 6.4e-4); arithmetic"

CALCULATORS: Final = (
    Calculator(
        name="oil-growth",
        family="oils",
        title="How much oil grows as it warms",
        inputs=(_VOLUME, _AT, _CHECK, _OIL),
        outputs=(
            Output("growth", "dV", "Growth", "L"),
            Output("volume", "V2", "Volume at the other temperature", "L"),
        ),
        function=lambda volume, at, check_at, expansion: (
            growth(volume, at, check_at, expansion),
            volume_at(volume, at, check_at, expansion),
        ),
        formula=("dV = V b (t2 - t1)", "V2 = V + dV"),
        source=_TABLES,
        mark="published",
        valid="For oil without foam; over 100 K the straight line is within a tenth of the growth.",
        example="volume=100 at=20 check-at=40",
    ),
    Calculator(
        name="oil-density",
        family="oils",
        title="Density of oil at another temperature",
        inputs=(Input("density", "r1", "Density now", "kg/m³", least=500, most=1_500), _AT, _CHECK, _OIL),
        outputs=(Output("density", "r2", "Density at the other temperature", "kg/m³"),),
        function=lambda density, at, check_at, expansion: single(
            density_at(density, at, check_at, expansion)
        ),
        formula=("r2 = r1 / (1 + b (t2 - t1))",),
        source=_TABLES,
        mark="published",
        valid="For oil without foam.",
        example="density=880 at=15 check-at=80",
    ),
    Calculator(
        name="oil-level",
        family="oils",
        title="Level below the hole, from hot to cold or back",
        inputs=(
            Input(
                "below", "h1", "Read below the hole; above it, less than nothing", "mm", least=-100, most=500
            ),
            _VOLUME,
            Input("surface", "A", "Free surface of the oil", "cm²", least=1, most=100_000),
            _AT,
            _CHECK,
            _OIL,
        ),
        outputs=(
            Output("rise", "dh", "Rise of the level", "mm"),
            Output("corrected", "h2", "Below the hole at the check", "mm"),
            Output("top-up", "dV", "Fills it up to the hole then", "L"),
        ),
        function=_level,
        formula=("dh = V b (t2 - t1) / A", "h2 = h1 - dh", "dV = A h2"),
        source=_TABLES,
        mark="computed",
        valid="While the walls are upright, on level ground, foam gone; the growth of the case is left out.",
        example="below=0 volume=1 surface=200 at=80",
    ),
    Calculator(
        name="oil-refill",
        family="oils",
        title="How much to fill after a drain",
        inputs=(
            *_CAPACITY,
            _SHEET,
            Input("fill-at", "t2", "Temperature of the new oil", "°C", least=-60, most=250, default="20 °C"),
            _OIL,
        ),
        outputs=(Output("refill", "V", "Fill", "L"),),
        function=lambda capacity, stays, sheet_at, fill_at, expansion: single(
            refill(capacity, stays, sheet_at, fill_at, expansion)
        ),
        formula=("V = (Vc - Vs) (1 + b (t2 - t0))",),
        source=_TABLES,
        mark="computed",
        valid="The level at the hole has the last word.",
        example="capacity=2.0 stays=0.2 fill-at=-10",
    ),
    Calculator(
        name="oil-lost",
        family="oils",
        title="How much oil had been lost before a drain",
        inputs=(
            *_CAPACITY,
            Input("drained", "Vd", "Drained", "L", least=0, most=1_000),
            Input("drained-at", "t1", "Temperature of the drained oil", "°C", least=-60, most=250),
            _SHEET,
            _OIL,
        ),
        outputs=(Output("lost", "V", "Lost; less than nothing was too much", "L"),),
        function=lambda capacity, stays, drained, drained_at, sheet_at, expansion: single(
            missing(capacity, stays, drained, sheet_at, drained_at, expansion)
        ),
        formula=("V = Vc - Vs - Vd (1 + b (t0 - t1))",),
        source=_TABLES,
        mark="computed",
        valid="As sure as what the drain leaves behind is known.",
        example="capacity=2.0 stays=0.2 drained=1.55 drained-at=60",
    ),
)
