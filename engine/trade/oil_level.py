"""How far oil rises as it warms, what a level read hot is worth cold, and how much to fill.

Oil grows by about 0.07 % a degree. In a small unit with a narrow space above the oil that is millimetres at
the plug: a level read hot reads high. Volumes in L, temperatures in °C, expansion per kelvin, levels in mm,
surfaces of oil in cm².
"""

from typing import Final

from engine.errors import Refusal

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
