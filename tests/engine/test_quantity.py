"""Quantities: exact conversion, and how they are written for people."""

import copy
import pickle
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.errors import Refusal
from engine.quantity import (
    Quantity,
    beside,
    convert,
    dimension,
    parse,
    same_kind,
    units,
    write,
)

PAIRS = [(old, new) for old in units() for new in units() if dimension(old) == dimension(new)]
VALUES = st.fractions(min_value=-(10**9), max_value=10**9, max_denominator=10**6)

#: Fixed points of the two temperature scales, exact by definition.
TEMPERATURES = [
    ("-40", "°C", "-40", "°F"),
    ("0", "°C", "32", "°F"),
    ("100", "°C", "212", "°F"),
    ("37", "°C", "98.6", "°F"),
    ("0", "K", "-273.15", "°C"),
    ("0", "K", "-459.67", "°F"),
    ("0", "°C", "273.15", "K"),
]

WRITTEN = [
    ("0", "mm", "0 mm"),
    ("12.5", "mm", "12.5 mm"),
    ("-3", "mm", "-3 mm"),
    ("0.0001", "mm", "0.0001 mm"),
    ("1/3", "in", "≈ 0.33333 in"),
    ("-2/3", "in", "≈ -0.66667 in"),
    ("0.00005", "mm", "0.00005 mm"),
    ("0.000012345678", "mm", "≈ 0.000012346 mm"),
    ("0.999999", "mm", "≈ 1 mm"),
    ("123456.78901", "mm", "≈ 123457 mm"),
    ("1234567", "rpm", "1234567 rpm"),
    ("45", "°", "45°"),
    ("90", "°C", "90 °C"),
    ("0.5", "%", "0.5 %"),
    ("100000", "kPa", "100000 kPa"),
]

WRITTEN_WITH_DIGITS = [
    ("12.5", 2, "12.50 mm"),
    ("12.5", 0, "≈ 13 mm"),
    ("-12.5", 0, "≈ -13 mm"),
    ("12.345", 2, "≈ 12.35 mm"),
    ("-0.001", 2, "≈ 0.00 mm"),
    ("100", 0, "100 mm"),
    ("1/3", 3, "≈ 0.333 mm"),
]


@pytest.mark.parametrize(("value", "unit", "expected", "other"), TEMPERATURES)
def test_temperature_scales_meet_at_their_fixed_points(
    value: str, unit: str, expected: str, other: str
) -> None:
    """Temperatures carry their offset, both ways, exactly."""
    there = convert(Quantity(Fraction(value), unit), other)

    assert there == Quantity(Fraction(expected), other)
    assert convert(there, unit) == Quantity(Fraction(value), unit)


@given(pair=st.sampled_from(PAIRS), value=VALUES)
def test_there_and_back_is_where_it_began(pair: tuple[str, str], value: Fraction) -> None:
    """Converting to any unit of the same kind and back gives the very same fraction."""
    begun = Quantity(value, pair[0])

    assert convert(convert(begun, pair[1]), pair[0]) == begun


@given(pair=st.sampled_from(PAIRS), small=VALUES, step=st.fractions(min_value=Fraction(1, 10**6)))
def test_conversion_keeps_the_order(pair: tuple[str, str], small: Fraction, step: Fraction) -> None:
    """A larger reading is larger in every unit, so a band decides alike in all of them."""
    low, high = (convert(Quantity(value, pair[0]), pair[1]).value for value in (small, small + step))

    assert low < high


def test_another_dimension_is_the_callers_mistake() -> None:
    """A pressure never becomes a length."""
    with pytest.raises(ValueError, match="kPa is no length"):
        convert(Quantity(Fraction(1), "kPa"), "mm")


def test_an_unknown_unit_makes_no_quantity() -> None:
    """A quantity of a unit that does not exist cannot be made or asked for."""
    with pytest.raises(ValueError, match="furlong"):
        Quantity(Fraction(1), "furlong")
    with pytest.raises(ValueError, match="furlong"):
        convert(Quantity(Fraction(1), "mm"), "furlong")


def test_a_quantity_is_frozen() -> None:
    """Nobody changes a reading after it was taken."""
    with pytest.raises(AttributeError):
        Quantity(Fraction(1), "mm").value = Fraction(2)


@pytest.mark.parametrize(("one", "other", "same"), [("mm", "in", True), ("lb", "lbf", False)])
def test_same_kind_compares_what_is_measured(one: str, other: str, same: bool) -> None:  # noqa: FBT001  reason: a case
    """Millimetres and inches are of a kind; pounds of mass and of force are not."""
    assert same_kind(Quantity(Fraction(1), one), Quantity(Fraction(1), other)) is same


@pytest.mark.parametrize(("value", "unit", "text"), WRITTEN)
def test_a_number_is_written_as_short_as_it_is_true(value: str, unit: str, text: str) -> None:
    """Exact where four decimals hold it; else five significant digits, marked where rounded."""
    assert write(Quantity(Fraction(value), unit)) == text


@pytest.mark.parametrize(("value", "digits", "text"), WRITTEN_WITH_DIGITS)
def test_a_number_is_written_with_the_decimals_asked_for(value: str, digits: int, text: str) -> None:
    """Asked for decimals are all written, halves go away from zero, and zero has no sign."""
    assert write(Quantity(Fraction(value), "mm"), digits) == text


@given(value=VALUES, unit=st.sampled_from(units()))
def test_what_is_written_without_a_mark_is_exact(value: Fraction, unit: str) -> None:
    """An unmarked number reads back as the same quantity; a marked one is right to five digits."""
    quantity = Quantity(value, unit)
    text = write(quantity)

    read = parse(text.removeprefix("≈ "), unit)

    assert not isinstance(read, Refusal)
    if text.startswith("≈"):
        assert 0 < abs(read.value - value) <= abs(value) / 20_000
    else:
        assert read == quantity


@pytest.mark.parametrize(
    ("value", "unit", "text"),
    [
        ("12.7", "mm", "12.7 mm = 0.5 in"),
        ("1/2", "in", "0.5 in = 12.7 mm"),
        ("100", "N·m", "100 N·m ≈ 73.756 lbf·ft"),
        ("1/3", "in", "≈ 0.33333 in ≈ 8.4667 mm"),
        ("-40", "°C", "-40 °C = -40 °F"),
        ("12", "V", "12 V"),
    ],
)
def test_the_other_system_stands_beside(value: str, unit: str, text: str) -> None:
    """A quantity is shown with its partner, with = where that is exact and ≈ where not."""
    assert beside(Quantity(Fraction(value), unit)) == text


@pytest.mark.parametrize(
    ("unit", "text"), [("bar", "25 psi ≈ 1.7237 bar"), ("psi", "25 psi"), (None, "25 psi ≈ 172.37 kPa")]
)
def test_a_chosen_unit_stands_beside(unit: str | None, text: str) -> None:
    """The unit that a step asks for may stand beside what was typed; the same unit is not said twice."""
    assert beside(Quantity(Fraction(25), "psi"), unit) == text


def test_a_quantity_stays_what_it_is() -> None:
    """Neither its number nor its unit can be set or taken away, and it is the same after a journey."""
    length = Quantity(Fraction(1, 2), "mm")

    for name in ("value", "unit", "other"):
        with pytest.raises(AttributeError):
            setattr(length, name, Fraction(1))
    with pytest.raises(AttributeError):
        del length.unit
    assert pickle.loads(pickle.dumps(length)) == length
    assert copy.deepcopy(length) == length
    assert len({length, Quantity(Fraction(1, 2), "mm"), Quantity(Fraction(1, 2), "in")}) == 2
    assert length != Fraction(1, 2)
