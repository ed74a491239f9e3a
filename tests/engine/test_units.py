"""The table of units against exact definitions, published figures, and an independent library."""

from collections import Counter
from fractions import Fraction

import pint
import pytest

from engine import units

#: Each unit as the oracle knows it. Turns are counted, not measured in radians: see the trap below.
ORACLE = {
    "mm": "mm",
    "cm": "cm",
    "m": "m",
    "km": "km",
    "in": "inch",
    "ft": "foot",
    "mile": "mile",
    "N·m": "newton * metre",
    "lbf·ft": "force_pound * foot",
    "lbf·in": "force_pound * inch",
    "kgf·m": "force_kilogram * metre",
    "°C": "degC",
    "°F": "degF",
    "K": "kelvin",
    "L": "litre",
    "mL": "millilitre",
    "cm³": "cm**3",
    "US qt": "US_liquid_quart",
    "US pt": "pint",
    "US gal": "US_liquid_gallon",
    "imp qt": "imperial_quart",
    "imp pt": "imperial_pint",
    "hp": "horsepower",
    "mPa·s": "millipascal * second",
    "rev/km": "count / km",
    "rev/mile": "count / mile",
    "rpm": "count / minute",
    "Hz": "count / second",
    "s": "second",
    "min": "minute",
    "h": "hour",
    "kPa": "kilopascal",
    "bar": "bar",
    "psi": "psi",
    "inHg": "inHg",
    "MPa": "megapascal",
    "kg": "kilogram",
    "g": "gram",
    "lb": "pound",
    "N": "newton",
    "kN": "kilonewton",
    "lbf": "force_pound",
    "V": "volt",
    "mV": "millivolt",
    "A": "ampere",
    "mA": "milliampere",
    "Ω": "ohm",
    "kΩ": "kiloohm",
    "%": "percent",
    "°": "degree",
    "km/h": "km / hour",
    "mph": "mile / hour",
    "m/s": "m / s",
    "mm²/s": "mm**2 / s",
    "mm²": "mm**2",
    "cm²": "cm**2",
    "kg/m³": "kg / m**3",
    "per K": "1 / kelvin",
    "per turn": "1 / turn",
    "ppm/K": "ppm / kelvin",
    "Pa": "pascal",
    "GPa": "gigapascal",
    "Pa·s": "pascal * second",
    "N·m·s/rad": "newton * metre * second / radian",
    "J/K": "joule / kelvin",
    "J/(kg·K)": "joule / kg / kelvin",
    "W/K": "watt / kelvin",
    "W/(m²·K)": "watt / metre**2 / kelvin",
    "K/s": "kelvin / second",
    "kJ": "kilojoule",
    "kg·m²": "kg * metre**2",
    "g·mm": "gram * millimetre",
    "rad/s²": "radian / second**2",
    "per s": "1 / second",
    "W": "watt",
    "kW": "kilowatt",
}
PAIRS = [
    (old, new)
    for old in units.units()
    for new in units.units()
    if old != new and units.dimension(old) == units.dimension(new)
]

#: Figures as printed in NIST SP 811 (2008), appendix B.8, with as many digits as they are printed with.
PUBLISHED = [
    ("lbf·ft", "N·m", "1.355818"),
    ("lbf·in", "N·m", "0.112985"),
    ("psi", "kPa", "6.894757"),
    ("psi", "kPa", "6.894757293168"),
    ("N·m", "lbf·ft", "0.737562149"),
    ("N·m", "lbf·in", "8.850745791"),
    ("US pt", "L", "0.4731765"),
    ("inHg", "kPa", "3.386389"),
]

#: Exact by definition: inch and pound by the international agreement of 1959, standard fall by the third
#: general conference on weights and measures (1901), the US gallon as 231 cubic inches, the imperial gallon
#: as 4.54609 L.
EXACT = [
    ("in", "mm", "25.4"),
    ("ft", "mm", "304.8"),
    ("mile", "m", "1609.344"),
    ("lb", "kg", "0.45359237"),
    ("lbf", "N", "4.4482216152605"),
    ("lbf·ft", "N·m", "1.3558179483314004"),
    ("lbf·in", "N·m", "0.1129848290276167"),
    ("kgf·m", "N·m", "9.80665"),
    ("lbf·ft", "lbf·in", "12"),
    ("US gal", "L", "3.785411784"),
    ("US qt", "L", "0.946352946"),
    ("US pt", "L", "0.473176473"),
    ("imp qt", "L", "1.1365225"),
    ("imp pt", "L", "0.56826125"),
    ("cm³", "mL", "1"),
    ("bar", "kPa", "100"),
    ("mph", "km/h", "1.609344"),
    ("Hz", "rpm", "60"),
]


@pytest.fixture(scope="module")
def oracle() -> pint.UnitRegistry[float]:
    """The independent library, with floats as it comes."""
    return pint.UnitRegistry()


def factor(old: str, new: str) -> Fraction:
    """How many of the new unit one of the old is; not for temperatures, which have a zero of their own."""
    return units.look_up(old).factor / units.look_up(new).factor


def test_the_oracle_is_asked_about_every_unit() -> None:
    """No unit of the table escapes the comparison."""
    assert set(ORACLE) == set(units.units())


@pytest.mark.parametrize(("old", "new"), PAIRS)
def test_a_factor_agrees_with_an_independent_library(
    oracle: pint.UnitRegistry[float], old: str, new: str
) -> None:
    """Seven of any unit are as many of any other of its kind as an independent library says."""
    expected = oracle.Quantity(7.0, ORACLE[old]).to(ORACLE[new]).magnitude

    one, other = units.look_up(old), units.look_up(new)
    ours = float((7 * one.factor + one.offset - other.offset) / other.factor)

    assert ours == pytest.approx(expected, rel=1e-12)


@pytest.mark.parametrize(("old", "new", "printed"), PUBLISHED)
def test_a_factor_rounds_to_the_published_figure(old: str, new: str, printed: str) -> None:
    """Our exact factor lies within half a unit of the last digit that NIST SP 811 prints."""
    half = Fraction(1, 2 * 10 ** len(printed.partition(".")[2]))

    assert abs(factor(old, new) - Fraction(printed)) <= half


@pytest.mark.parametrize(("old", "new", "exact"), EXACT)
def test_a_factor_is_the_defined_one_to_the_last_digit(old: str, new: str, exact: str) -> None:
    """Factors are the exact fractions of their definitions, not floats near them."""
    assert factor(old, new) == Fraction(exact)


def test_pound_foot_is_pound_force_times_foot() -> None:
    """One lbf·ft is 4.4482216152605 N at 0.3048 m, with nothing rounded."""
    assert factor("lbf·ft", "N·m") == Fraction("4.4482216152605") * Fraction("0.3048")


def test_psi_is_pound_force_on_a_square_inch() -> None:
    """One psi is 4.4482216152605 N on 25.4 mm squared; the decimal never ends, the fraction does."""
    assert factor("psi", "kPa") * 1000 == Fraction("4.4482216152605") / Fraction("0.0254") ** 2


def test_foot_times_pound_of_mass_is_no_torque(oracle: pint.UnitRegistry[float]) -> None:
    """`ft-lb` is a torque here, though `ft*lb` is length times mass for the independent library."""
    trap = oracle.Quantity(1.0, "foot * pound").dimensionality

    assert trap != oracle.Quantity(1.0, "newton * metre").dimensionality
    assert units.dimension(units.spelling("ft-lb") or "") == "torque"


@pytest.mark.parametrize(
    ("name", "typed"), [("in_lb", "in-lb"), ("lbf_ft", "lbf-ft"), ("US_quart", "US quart")]
)
def test_what_the_independent_library_does_not_know_is_known_here(
    oracle: pint.UnitRegistry[float], name: str, typed: str
) -> None:
    """Usual spellings that the independent library lacks are read here."""
    with pytest.raises(pint.UndefinedUnitError):
        oracle.Unit(name)

    assert units.spelling(typed) is not None


def test_a_hertz_is_sixty_turns_a_minute_and_not_ten(oracle: pint.UnitRegistry[float]) -> None:
    """A shaft at 60 rpm turns at 1 Hz; through radians it would be 9.55 rpm."""
    trap = oracle.Quantity(1.0, "hertz").to("rpm").magnitude

    assert trap == pytest.approx(9.549296585513721)
    assert factor("Hz", "rpm") == 60


def test_a_bare_quart_or_pint_is_the_us_liquid_one(oracle: pint.UnitRegistry[float]) -> None:
    """`qt` and `pt` mean US liquid measure, for us as for the independent library."""
    assert oracle.Quantity(1.0, "qt").to("US_liquid_quart").magnitude == pytest.approx(1)
    assert [units.spelling(typed) for typed in ("qt", "pt", "gal")] == ["US qt", "US pt", "US gal"]


def test_no_spelling_means_two_units() -> None:
    """Every alias belongs to one unit, whatever its capitals."""
    owners = {(key.casefold(), unit.name) for unit in units._TABLE.values() for key in units._ways(unit)}

    twice = [key for key, count in Counter(key for key, _ in owners).items() if count > 1]

    assert twice == []


@pytest.mark.parametrize("unit", units.units())
def test_a_unit_is_its_own_spelling(unit: str) -> None:
    """What documents write is also what people may type."""
    assert units.spelling(unit) == unit


@pytest.mark.parametrize("unit", [unit for unit in units.units() if unit != "K"])
def test_small_letters_do(unit: str) -> None:
    """Every unit is known in small letters, save the kelvin: a small k is a thousand of something."""
    assert units.spelling(unit.lower()) == unit


@pytest.mark.parametrize("unit", units.units())
def test_every_alias_can_be_typed(unit: str) -> None:
    """No alias of the table is written in a way that a typed word could never become."""
    typed = units._ways(units.look_up(unit))

    assert {units.spelling(word) for word in typed} == {unit}


@pytest.mark.parametrize("unit", [unit for unit in units.units() if units.partner(unit)])
def test_a_partner_measures_the_same_thing(unit: str) -> None:
    """The unit shown beside another is another unit of the same dimension."""
    other = units.partner(unit) or ""

    assert other != unit
    assert units.dimension(other) == units.dimension(unit)


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("mm", "in"),
        ("N·m", "lbf·ft"),
        ("°C", "°F"),
        ("L", "US qt"),
        ("kPa", "psi"),
        ("km/h", "mph"),
        ("kg", "lb"),
    ],
)
def test_the_usual_units_are_each_others_partners(one: str, other: str) -> None:
    """Where a trade uses two units, each is shown beside the other."""
    assert (units.partner(one), units.partner(other)) == (other, one)


@pytest.mark.parametrize("typed", ["MV", "MA", "ML", "Mm", "mPa", "k"])
def test_a_capital_that_is_another_power_of_ten_is_not_read_over(typed: str) -> None:
    """MV is a million volts and never taken for mV."""
    assert units.spelling(typed) is None


def test_a_unit_that_is_none_has_nothing() -> None:
    """An unknown unit has no dimension and no partner, and looking it up is the caller's mistake."""
    assert units.dimension("furlong") is None
    assert units.partner("furlong") is None
    with pytest.raises(ValueError, match="furlong"):
        units.look_up("furlong")
