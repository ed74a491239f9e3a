"""The calculators that a tree may name."""

from fractions import Fraction

import pytest

from engine.quantity import Quantity, dimension, units
from engine.trade.registry import CALCULATORS, Calculator, find

NAMES = [calculator.name for calculator in CALCULATORS]


def some(calculator: Calculator, unit: str) -> list[Quantity]:
    """As few different readings as the calculator takes."""
    return [Quantity(Fraction(10 + k), unit) for k in range(calculator.least_inputs)]


def test_names_are_unique() -> None:
    """A name in a tree means one formula."""
    assert sorted(set(NAMES)) == sorted(NAMES)


def test_the_tyre_figures_can_be_named() -> None:
    """Trees may ask for the spread and for the relative spread."""
    assert {"spread", "relative-spread"} <= set(NAMES)


def test_an_unknown_name_finds_nothing() -> None:
    """A name that no calculator has is told as such."""
    assert find("sprad") is None


@pytest.mark.parametrize("name", NAMES)
def test_a_calculator_is_found_by_its_name(name: str) -> None:
    """Finding gives the calculator of that name, with its formula and its source."""
    found = find(name)

    assert found is not None
    assert found.name == name
    assert found.title
    assert found.formula
    assert found.source


@pytest.mark.parametrize("unit", units())
@pytest.mark.parametrize("name", NAMES)
def test_the_result_has_the_unit_that_was_promised(name: str, unit: str) -> None:
    """The unit told beforehand is that of the figure; where none is told, the figure is turned away."""
    calculator = find(name)
    assert calculator is not None
    promised = calculator.result_unit(unit)

    if promised is None:
        assert dimension(unit) == "temperature"
        with pytest.raises(ValueError, match="temperature"):
            calculator.function(some(calculator, unit))
    else:
        figure = calculator.function(some(calculator, unit))
        assert isinstance(figure, Quantity)
        assert figure.unit == promised


@pytest.mark.parametrize("name", NAMES)
def test_fewer_readings_than_the_least_make_no_figure(name: str) -> None:
    """The least number of inputs told is the true one."""
    calculator = find(name)
    assert calculator is not None

    with pytest.raises(ValueError, match="readings or more"):
        calculator.function(some(calculator, "mm")[1:])


def test_an_unknown_unit_has_no_result_unit() -> None:
    """Lint can ask about any word that a document gives for a unit."""
    assert [calculator.result_unit("furlong") for calculator in CALCULATORS] == [None] * len(CALCULATORS)
