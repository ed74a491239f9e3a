"""Diameter, rolled circumference and turns against published and worked figures."""

from math import pi

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.errors import Refusal
from engine.quantity import Quantity
from engine.trade.calculator import Sum, compute
from engine.trade.registry import find
from engine.trade.tyre_codes import Size, read_size
from engine.trade.tyre_size import rolled, section_width, standard_diameter, turns_a_km


def numbers(code: str, **units: str) -> dict[str, float]:
    """What the calculator tells of a code, without its words."""
    calculator = find("tyre-size")
    assert calculator is not None
    made = compute(calculator, {"code": code}, units)
    assert isinstance(made, Sum)
    return {name: float(value.value) for name, value in made.outputs.items() if isinstance(value, Quantity)}


def size(code: str) -> Size:
    """A size that can be read."""
    found = read_size(code)
    assert isinstance(found, Size)
    return found


#: Output, unit, figure, tolerance and where it is from, for 205/55R16.
WORKED = [
    ("diameter", "mm", 631.9, 0.001, "computed"),
    ("standard-diameter", "mm", 632, 0, "published: UN R30"),
    ("free-circumference", "mm", 1984.5, 1, "published, of 632 mm"),
    ("circumference", "mm", 1927.3, 0.05, "computed, 3.05"),
    ("turns", "rev/km", 518.9, 0.05, "computed"),
    ("turns", "rev/mile", 835.0, 0.1, "computed"),
]


@pytest.mark.parametrize(("output", "unit", "figure", "tolerance", "_source"), WORKED)
def test_a_205_55_r16(output: str, unit: str, figure: float, tolerance: float, _source: str) -> None:
    """Each figure within its published tolerance."""
    assert numbers("205/55R16", **{output: unit})[output] == pytest.approx(figure, abs=tolerance)


def test_turns_of_a_tyre_that_is_not_loaded() -> None:
    """504 a km and 810 a mile are those of the free circumference (published)."""
    free = turns_a_km(pi * 631.9)

    assert free == pytest.approx(504, abs=0.5)
    assert free * 1.609344 == pytest.approx(810, abs=1)


def test_turns_a_mile_by_the_diameter_in_inches() -> None:
    """20168 / D free and 20774 / D at 3.05 (computed)."""
    inches = 25.0

    assert turns_a_km(pi * inches * 25.4) * 1.609344 == pytest.approx(20168 / inches, rel=1e-4)
    assert turns_a_km(rolled(inches * 25.4)) * 1.609344 == pytest.approx(20774 / inches, rel=1e-4)


def test_a_loaded_tyre_rolls_about_three_per_cent_less() -> None:
    """3.1 % less than pi D (common practice); 3.05 D is within 1 % of it."""
    assert rolled(1) == pytest.approx(pi * (1 - 0.031), rel=0.01)


def test_a_textbook_rolling_radius_agrees() -> None:
    """Two thirds of the free and one of the loaded radius, 316 and 293 mm, roll 3.065 D (textbook)."""
    textbook = 2 * pi * (2 / 3 * 316 + 1 / 3 * 293)

    assert textbook / 632 == pytest.approx(3.065, abs=0.001)
    assert rolled(632) == pytest.approx(textbook, rel=0.01)


def test_a_diagonal_tyre_rolls_less_than_a_radial_one() -> None:
    """2.99 against 3.05 (memory)."""
    assert numbers("T125/70D15")["circumference"] == pytest.approx(2.99 * 556)


def test_width_on_another_rim() -> None:
    """S = S1 + 0.4 (A - A1) (published, UN R30)."""
    assert section_width(205, 6.5 * 25.4, 5.5 * 25.4) == pytest.approx(205 + 0.4 * 25.4)


@given(st.integers(105, 455), st.integers(25, 85), st.integers(10, 24))
def test_the_rounded_diameter_is_near_the_exact_one(width: int, aspect: int, rim: int) -> None:
    """Rounding the rim and twice the height moves it by 1.5 mm at most."""
    tyre = size(f"{width}/{aspect}R{rim}")

    assert abs(standard_diameter(tyre) - float(tyre.diameter)) <= 1.5


def test_a_code_that_is_none_makes_no_size() -> None:
    """The refusal of the code is the refusal of the calculator."""
    calculator = find("tyre-size")
    assert calculator is not None

    assert isinstance(compute(calculator, {"code": "205"}), Refusal)
