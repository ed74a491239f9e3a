"""Spread of tyre readings, absolute and in per cent."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.errors import Refusal
from engine.quantity import Quantity, convert
from engine.trade.calculator import figure
from engine.trade.registry import find

READINGS = st.lists(st.fractions(min_value=1, max_value=3000, max_denominator=100), min_size=2, max_size=6)


def made(name: str, readings: list[Quantity]) -> Quantity | Refusal:
    """The figure of this name, through the door that trees go through."""
    calculator = find(name)
    assert calculator is not None
    return figure(calculator, readings)


def spread(readings: list[Quantity]) -> Quantity | Refusal:
    """The spread of readings."""
    return made("spread", readings)


def relative_spread(readings: list[Quantity]) -> Quantity | Refusal:
    """The spread of readings in per cent."""
    return made("relative-spread", readings)


def of(unit: str, *values: Fraction | int | str) -> list[Quantity]:
    """Readings in one unit."""
    return [Quantity(Fraction(value), unit) for value in values]


def test_the_spread_is_largest_minus_smallest() -> None:
    """Order does not matter, nor do the readings in between."""
    assert spread(of("mm", 1984, 1990, 1976, 1984)) == Quantity(Fraction(14), "mm")


def test_the_spread_is_in_the_unit_of_the_first_reading() -> None:
    """A reading in inches among millimetres is converted, not compared as a bare number."""
    mixed = [*of("mm", 1981), *of("in", 78), *of("mm", "1981.7")]

    assert spread(mixed) == Quantity(Fraction("0.7"), "mm")


def test_a_quarter_inch_of_circumference_is_a_third_of_a_per_cent() -> None:
    """1/4 in on the 1927.3 mm rolled by a 205/55R16 tyre is 0.33 % (common practice compares the two)."""
    rolled = Fraction("1927.3")
    readings = of("mm", rolled, rolled + convert(of("in", "1/4")[0], "mm").value)

    assert spread(readings) == Quantity(Fraction("6.35"), "mm")
    result = relative_spread(readings)
    assert isinstance(result, Quantity)
    assert float(result.value) == pytest.approx(0.33, abs=0.005)


def test_the_relative_spread_is_of_the_smallest() -> None:
    """100 against 80 is 25 % of the smaller, not 20 % of the larger."""
    assert relative_spread(of("mm", 100, 80)) == Quantity(Fraction(25), "%")


@given(READINGS, st.sampled_from(["in", "cm", "ft"]))
def test_the_relative_spread_does_not_depend_on_the_unit(values: list[Fraction], other: str) -> None:
    """The same tyres measured in another unit have exactly the same relative spread."""
    metric = of("mm", *values)

    assert relative_spread(metric) == relative_spread([convert(reading, other) for reading in metric])


@given(READINGS, st.fractions(min_value=-500, max_value=500))
def test_a_spread_ignores_what_is_added_to_every_reading(values: list[Fraction], more: Fraction) -> None:
    """A tape that starts late by the same amount each time changes no spread, and none is negative."""
    found = spread(of("mm", *values))

    assert isinstance(found, Quantity)
    assert found == spread(of("mm", *(value + more for value in values)))
    assert found.value >= 0


@pytest.mark.parametrize("values", [(0, 5), (-1, 5), (0, 0)])
def test_nothing_is_a_percentage_of_nothing(values: tuple[int, int]) -> None:
    """A smallest reading of zero or less is refused with its cure, and does not divide."""
    refusal = relative_spread(of("mm", *values))

    assert isinstance(refusal, Refusal)
    assert refusal.kind == "figure"
    assert "more than zero" in refusal.cure


@pytest.mark.parametrize("name", ["spread", "relative-spread"])
@pytest.mark.parametrize(
    ("readings", "words"),
    [
        ([], "at least 2"),
        (of("mm", 1), "at least 2"),
        ([*of("mm", 1), *of("kPa", 1)], "1 kPa is not of the kind"),
        (of("°C", 20, 30), "temperatures"),
    ],
)
def test_readings_of_no_spread_are_refused(name: str, readings: list[Quantity], words: str) -> None:
    """Too few readings, mixed kinds and temperatures make no figure."""
    refusal = made(name, readings)

    assert isinstance(refusal, Refusal)
    assert words in refusal.message
