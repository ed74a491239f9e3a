"""The units a workshop reads off its gauges: spellings, dimensions and exact factors.

Every factor is exact by definition: inch, pound and the standard fall by the international agreement of
1959 and ISO 80000, gallons by law (231 cubic inches; 4.54609 L), inch of mercury by the conventional density
13 595.1 kg/m³, the horsepower by 550 foot-pounds a second. Rounded values of the same factors: NIST SP 811,
appendix B.

Turns and hertz are one dimension here: a shaft at 60 rpm turns once a second, 1 Hz. Angular speed
(rad/s) is left out, for pi is no fraction.
"""

from fractions import Fraction as F  # noqa: N817  reason: the table below is read as figures
from typing import Final, NamedTuple

_INCH: Final = F("0.0254")  # m
_FOOT: Final = 12 * _INCH
_MILE: Final = 5280 * _FOOT
_POUND: Final = F("0.45359237")  # kg
_FALL: Final = F("9.80665")  # m/s², standard
_LBF: Final = _POUND * _FALL  # N
_GALLON: Final = 231 * _INCH**3 * 1000  # L, US liquid
_IMPERIAL: Final = F("4.54609")  # L, imperial gallon
_ZERO: Final = F("273.15")  # K at 0 °C


class Unit(NamedTuple):
    """One unit: `amount * factor + offset` is its amount in the base unit of the dimension."""

    name: str
    dimension: str
    factor: F
    #: The unit of the other system shown beside it; empty where none is usual.
    partner: str
    #: Other spellings as `_key` makes them; `(s)` stands for both the singular and the plural.
    aliases: str
    offset: F = F(0)


_LENGTH: Final = (
    Unit("mm", "length", F(1, 1000), "in", "millimetre(s) millimeter(s)"),
    Unit("cm", "length", F(1, 100), "in", "centimetre(s) centimeter(s)"),
    Unit("m", "length", F(1), "ft", "metre(s) meter(s)"),
    Unit("km", "length", F(1000), "mile", "kilometre(s) kilometer(s)"),
    Unit("in", "length", _INCH, "mm", 'inch inches "'),
    Unit("ft", "length", _FOOT, "m", "foot feet '"),
    Unit("mile", "length", _MILE, "km", "miles mi"),
)
_TURNING: Final = (
    Unit(
        "N·m",
        "torque",
        F(1),
        "lbf·ft",
        "nm newton·metre(s) newton·meter(s) newtonmetre(s) newtonmeter(s)",
    ),
    Unit(
        "lbf·ft",
        "torque",
        _LBF * _FOOT,
        "N·m",
        "ft·lbf ftlbf lbfft lb·ft lbft ft·lb(s) ftlb(s) foot·pound(s) pound·foot pound·feet",
    ),
    Unit(
        "lbf·in",
        "torque",
        _LBF * _INCH,
        "N·m",
        "in·lbf inlbf lbfin lb·in lbin in·lb(s) inlb(s) inch·pound(s) pound·inch pound·inches",
    ),
    Unit("kgf·m", "torque", _FALL, "N·m", "kgfm m·kgf kg·m kgm m·kg mkg kp·m kpm m·kp mkp"),
)
_HEAT: Final = (
    Unit("°C", "temperature", F(1), "°F", "c ℃ °·c deg·c degc degree(s)·c celsius degree(s)·celsius", _ZERO),
    Unit(
        "°F",
        "temperature",
        F(5, 9),
        "°C",
        "f ℉ °·f deg·f degf degree(s)·f fahrenheit degree(s)·fahrenheit",
        _ZERO - 32 * F(5, 9),
    ),
    Unit("K", "temperature", F(1), "°C", "kelvin(s)"),
)
_VOLUME: Final = (
    Unit("L", "volume", F(1), "US qt", "litre(s) liter(s) ltr"),
    Unit("mL", "volume", F(1, 1000), "US pt", "millilitre(s) milliliter(s)"),
    Unit("cm³", "volume", F(1, 1000), "US pt", "cm3 cm^3 cc ccm"),
    Unit("US qt", "volume", _GALLON / 4, "L", "qt(s) quart(s) us·qts us·quart(s) u·s·qt(s) u·s·quart(s)"),
    Unit("US pt", "volume", _GALLON / 8, "L", "pt(s) pint(s) us·pts us·pint(s) u·s·pt(s) u·s·pint(s)"),
    Unit("US gal", "volume", _GALLON, "L", "gal(s) gallon(s) us·gallon(s) u·s·gal u·s·gallon(s)"),
    Unit(
        "imp qt", "volume", _IMPERIAL / 4, "L", "imp·quart(s) imperial·qt imperial·quart(s) uk·qt uk·quart(s)"
    ),
    Unit("imp pt", "volume", _IMPERIAL / 8, "L", "imp·pint(s) imperial·pt imperial·pint(s) uk·pt uk·pint(s)"),
)
_MOTION: Final = (
    Unit("rpm", "frequency", F(1, 60), "", "r/min rev/min revs/min turns/min u/min"),
    Unit("Hz", "frequency", F(1), "", "hertz r/s rev/s"),
    Unit("s", "time", F(1), "", "sec(s) second(s)"),
    Unit("min", "time", F(60), "", "mins minute(s)"),
    Unit("h", "time", F(3600), "", "hr(s) hour(s)"),
    Unit("km/h", "speed", F(1000, 3600), "mph", "kmh kph km/hr"),
    Unit("mph", "speed", _MILE / 3600, "km/h", "mi/h mile(s)/h miles·per·hour"),
    Unit("m/s", "speed", F(1), "mph", "m/sec metre(s)/s meter(s)/s"),
)
_PRESSING: Final = (
    Unit("kPa", "pressure", F(1000), "psi", "kilopascal(s)"),
    Unit("bar", "pressure", F(100_000), "psi", "bars"),
    Unit("psi", "pressure", _LBF / _INCH**2, "kPa", "lbf/in² lbf/in2 lb/in² lb/in2 lbs/in² lbs/in2"),
    Unit("MPa", "pressure", F(1_000_000), "psi", "megapascal(s) N/mm² N/mm2 N/mm^2"),
    Unit("inHg", "pressure", F("13595.1") * _FALL * _INCH, "kPa", 'in·hg "hg "·hg inch·hg inches·hg'),
    Unit("kg", "mass", F(1), "lb", "kgs kilo(s) kilogram(s) kilogramme(s)"),
    Unit("g", "mass", F(1, 1000), "", "gram(s) gramme(s)"),
    Unit("lb", "mass", _POUND, "kg", "lbs pound(s)"),
    Unit("N", "force", F(1), "lbf", "newton(s)"),
    Unit("kN", "force", F(1000), "lbf", "kilonewton(s)"),
    Unit("lbf", "force", _LBF, "N", "pound·force pounds·force"),
)
_ELECTRIC: Final = (
    Unit("V", "voltage", F(1), "", "volt(s)"),
    Unit("mV", "voltage", F(1, 1000), "", "millivolt(s)"),
    Unit("A", "current", F(1), "", "amp(s) ampere(s)"),
    Unit("mA", "current", F(1, 1000), "", "milliamp(s) milliampere(s)"),
    Unit("Ω", "resistance", F(1), "", "ohm(s)"),
    Unit("kΩ", "resistance", F(1000), "", "kohm(s) kilohm(s) kiloohm(s)"),
    Unit("W", "power", F(1), "", "watt(s)"),
    Unit("kW", "power", F(1000), "hp", "kilowatt(s)"),
    Unit("hp", "power", 550 * _LBF * _FOOT, "kW", "bhp horsepower"),
)
_OTHER: Final = (
    Unit("%", "proportion", F(1, 100), "", "percent per·cent pct"),
    Unit("°", "angle", F(1), "", "deg(s) degree(s)"),
    Unit("mm²/s", "viscosity", F(1, 1_000_000), "", "mm2/s mm^2/s cst centistoke(s)"),
    Unit("mm²", "area", F(1, 1_000_000), "", "mm2 mm^2 sq·mm"),
    Unit("cm²", "area", F(1, 10_000), "", "cm2 cm^2 sq·cm"),
    Unit("kg/m³", "density", F(1), "", "kg/m3 kg/m^3"),
    Unit("per turn", "order", F(1), "", "order(s) orders·of·turning /turn"),
    Unit("per K", "expansion", F(1), "", "per·°c per·kelvin"),
    Unit("ppm/K", "expansion", F(1, 1_000_000), "", "ppm/°c µm/m/k µm/(m·k)"),
)
#: What slip, heat and vibration are worked out in: coherent SI, so its factors are powers of ten.
_DRIVELINE: Final = (
    Unit("Pa", "pressure", F(1), "", "pascal(s)"),
    Unit("GPa", "pressure", F(10**9), "", "gigapascal(s)"),
    Unit("Pa·s", "dynamic viscosity", F(1), "", "pascal·second(s)"),
    Unit("mPa·s", "dynamic viscosity", F(1, 1000), "", "cp centipoise(s)"),
    Unit("rev/km", "turns a distance", F(1, 1000), "rev/mile", "revs/km turns/km"),
    Unit("rev/mile", "turns a distance", 1 / _MILE, "rev/km", "revs/mile turns/mile"),
    Unit("N·m·s/rad", "damping", F(1), "", "n·m·s n·m/(rad/s)"),
    Unit("J/K", "heat capacity", F(1), "", "j/°c"),
    Unit("J/(kg·K)", "specific heat", F(1), "", "j/kg·k j/kg/k j/(kg·°c)"),
    Unit("W/K", "heat loss", F(1), "", "w/°c"),
    Unit("W/(m²·K)", "heat transfer", F(1), "", "w/m²·k w/m2·k w/m²/k w/m2/k"),
    Unit("K/s", "heating rate", F(1), "", "°c/s"),
    Unit("kJ", "energy", F(1000), "", "kilojoule(s)"),
    Unit("kg·m²", "moment of inertia", F(1), "", "kg·m2 kg·m^2 kgm2"),
    Unit("g·mm", "unbalance", F(1, 1_000_000), "", "gmm"),
    Unit("rad/s²", "angular acceleration", F(1), "", "rad/s2 rad/s^2"),
    Unit("per s", "shear rate", F(1), "", "per·second"),
)
_TABLE: Final = {
    unit.name: unit
    for family in (_LENGTH, _TURNING, _HEAT, _VOLUME, _MOTION, _PRESSING, _ELECTRIC, _OTHER, _DRIVELINE)
    for unit in family
}
#: Here the letter's case is another power of ten, which a check of the dimension would not catch.
_OTHER_POWER: Final = frozenset({"Mm", "ML", "MV", "MA", "mPa", "MPa·s", "k"})
#: Signs that join two parts of a unit, and the look-alikes of the degree, inch and foot signs.
_LOOKS: Final = str.maketrans(
    dict.fromkeys(".·⋅∙•*×-‐‑", " ")
    | dict.fromkeys("º˚", "°")
    | dict.fromkeys("″“”", '"')
    | dict.fromkeys("′‘’", "'")
)


def units() -> tuple[str, ...]:
    """Every unit by its one spelling in documents."""
    return tuple(_TABLE)


def dimension(unit: str) -> str | None:
    """What a unit measures, in one or two words; None where there is no such unit.

    >>> dimension("lbf·ft"), dimension("furlong")
    ('torque', None)
    """
    found = _TABLE.get(unit)
    return found.dimension if found else None


def partner(unit: str) -> str | None:
    """The unit of the other system that is shown beside this one; None where none is usual.

    >>> partner("mm"), partner("psi"), partner("V")
    ('in', 'kPa', None)
    """
    found = _TABLE.get(unit)
    return found.partner or None if found else None


def look_up(unit: str) -> Unit:
    """The unit of this exact spelling; ValueError where there is none."""
    found = _TABLE.get(unit)
    if found is None:
        raise ValueError(f"There is no unit {unit!r}.")
    return found


def spelling(typed: str) -> str | None:
    """The spelling in documents of a unit as people type it; None where it is not known.

    Capitals do not matter, save where they would be another power of ten (MV is no mV). A quart, pint or
    gallon without more words is the US one; the imperial ones always carry `imp`.

    >>> spelling("ft-lb"), spelling("NEWTON METRES"), spelling("quarts"), spelling("MV")
    ('lbf·ft', 'N·m', 'US qt', None)
    """
    key = _key(typed)
    return None if key in _OTHER_POWER else _spellings().get(key.casefold())


def alike(typed: str, wanted: str) -> tuple[str, ...]:
    """Up to three known units spelt nearly like this; where some have the wanted dimension, only those.

    >>> alike("milimeter", "length"), alike("k", "resistance"), alike("xyzzy", "length")
    (('mm', 'km', 'm'), ('kΩ',), ())
    """
    from difflib import get_close_matches

    close = get_close_matches(_key(typed).casefold(), _spellings(), n=9, cutoff=0.6)
    names = tuple(dict.fromkeys(_spellings()[key] for key in close))
    fitting = tuple(name for name in names if _TABLE[name].dimension == wanted)
    return (fitting or names)[:3]


def _key(typed: str) -> str:
    """A unit's spelling with every way to join its parts made one: `ft-lb`, `ft lb`, `ft.lb`."""
    return "·".join(typed.translate(_LOOKS).split())


_known: dict[str, str] = {}


def _spellings() -> dict[str, str]:
    """All spellings, made on first use: most starts of the program never ask for one."""
    if not _known:
        _known.update((key.casefold(), unit.name) for unit in _TABLE.values() for key in _ways(unit))
    return _known


def _ways(unit: Unit) -> list[str]:
    """The unit's own spelling and its aliases, as `_key` makes them."""
    aliases = unit.aliases.split()
    return [_key(unit.name), *(way.replace("(s)", end) for way in aliases for end in ("", "s"))]
