"""Oil at the door: what is typed, in which unit, and what is told."""

import pytest

from engine.errors import Refusal
from engine.quantity import Quantity, convert
from engine.trade.calculator import Sum, compute
from engine.trade.registry import find


def asked(name: str, **given: str) -> Sum | Refusal:
    """What the calculator makes of texts; `_` stands for `-`."""
    calculator = find(name)
    assert calculator is not None
    return compute(calculator, {key.replace("_", "-"): text for key, text in given.items()})


def told(name: str, **given: str) -> dict[str, object]:
    """The outputs by name, where nothing is refused."""
    made = asked(name, **given)
    assert isinstance(made, Sum), made
    return dict(made.outputs)


def test_a_temperature_in_fahrenheit_is_converted_at_the_door() -> None:
    """176 °F is 80 °C: 8.5332 mm²/s (computed)."""
    found = told("viscosity", temperature="176 °F", cold_viscosity="32 cSt", hot_viscosity="5.4")["viscosity"]

    assert isinstance(found, Quantity)
    assert float(found.value) == pytest.approx(8.5332, abs=5e-5)


def test_the_index_is_reported_whole() -> None:
    """ASTM D2270, first example."""
    assert told("viscosity-index", at_40="73.30", at_100="8.86")["index"] == 92


def test_a_grade_needs_the_cold_test_for_its_w() -> None:
    """Without it, the number alone."""
    assert told("gear-oil-grade", at_100="15")["grade"] == "90"
    assert told("gear-oil-grade", at_100="15")["engine"] == "40"
    assert "engine" not in told("gear-oil-grade", at_100="30")
    assert told("gear-oil-grade", at_100="15", thick_at="-41")["grade"] == "75W-90"


def test_the_thickest_grade_has_no_upper_limit_to_tell() -> None:
    """250 starts at 41 mm²/s and does not end; a number alone has no coldest day."""
    found = told("gear-oil-meaning", grade="250")

    assert set(found) == {"cold", "least"}


def test_a_level_read_in_inches() -> None:
    """A quarter inch below the hole at 80 °C is 6.35 + 2.1 mm at 20 °C."""
    found = told("oil-level", below="1/4 in", volume="1", surface="200", at="80")["corrected"]

    assert isinstance(found, Quantity)
    assert float(convert(found, "mm").value) == pytest.approx(8.45)


def test_the_calculator_of_mixtures_takes_lists() -> None:
    """Half and half, by mass."""
    found = told("oil-mixture", viscosities="15, 7.3", shares="1, 1")["viscosity"]

    assert isinstance(found, Quantity)
    assert float(found.value) == pytest.approx(10.254, abs=5e-4)


def test_a_swap_is_answered_in_words() -> None:
    """The word and the reason."""
    found = told("oil-substitution", asked="gl-5", offered="GL-4", unit="hypoid axle")

    assert found["answer"] == "do not use"


@pytest.mark.parametrize(
    ("name", "given"),
    [
        ("gear-oil-meaning", {"grade": "15W-40"}),
        ("gear-oil-for-cold", {"ambient": "-70"}),
        ("gear-oil-grade", {"at_100": "2"}),
        ("viscosity-index", {"at_40": "5", "at_100": "1.5"}),
        ("oil-level", {"below": "0", "volume": "1", "surface": "0", "at": "80"}),
        ("oil-refill", {"capacity": "1", "stays": "2"}),
        ("oil-substitution", {"asked": "GL-9", "offered": "GL-4", "unit": "hypoid axle"}),
    ],
)
def test_what_cannot_be_is_refused_at_the_door(name: str, given: dict[str, str]) -> None:
    """The refusals of the functions come through, with their cure."""
    refusal = asked(name, **given)

    assert isinstance(refusal, Refusal)
    assert refusal.cure
