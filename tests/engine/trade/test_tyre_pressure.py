"""Pressures against the gas law and the practice of the trade."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.errors import Refusal
from engine.trade.calculator import Given, Sum, compute
from engine.trade.registry import find
from engine.trade.tyre_pressure import at_temperature


def checked(pressures: str, **more: Given) -> Sum | Refusal:
    """Four tyres, of which 2.2 bar are wanted."""
    calculator = find("inflation")
    assert calculator is not None
    return compute(calculator, {"pressures": pressures, "front": "2.2 bar", **more})


def told(pressures: str, **more: Given) -> str:
    """What to do about them."""
    made = checked(pressures, **more)
    assert isinstance(made, Sum)
    return str(made.outputs["advice"])


@pytest.mark.parametrize(
    ("pressures", "advice"),
    [
        ("2.2, 2.2, 2.2, 2.2", "All four are as wanted."),
        ("2.1, 2.3, 2.2, 2.2", "All four are as wanted."),
        ("2.09, 2.2, 2.2, 2.2", "Correct front left."),
        ("2.2, 2.2, 2.0, 2.21", "Correct rear left; the pair at the rear is too far apart to measure by."),
        ("32, 32, 32, 32 psi", "All four are as wanted."),
    ],
)
def test_tyres_are_corrected_that_are_off(pressures: str, advice: str) -> None:
    """Beyond 0.1 bar a tyre, beyond 0.2 bar a pair (common practice); on the limit it stays."""
    assert told(pressures) == advice


def test_a_pair_may_be_too_far_apart_though_each_is_near_enough() -> None:
    """A wide tolerance does not let a pair be measured by."""
    assert told("2.05, 2.35, 2.2, 2.2", tolerance="0.2").startswith(
        "Bring each pair to one pressure; the pair"
    )


def test_warm_tyres_are_judged_as_if_cold() -> None:
    """2.55 bar at 50 °C are 2.22 at 20 °C."""
    assert told("2.55,2.55,2.55,2.55", air="50") == "All four are as wanted."
    assert told("2.2,2.2,2.2,2.2", air="50").startswith(
        "Correct front left, front right, rear left, rear right"
    )


def test_the_rear_may_want_another_pressure() -> None:
    """Loaded vehicles do."""
    assert told("2.2, 2.2, 2.6, 2.6", rear="2.6") == "All four are as wanted."


def test_five_tyres_are_refused() -> None:
    """The spare is none of the four."""
    assert isinstance(checked("2.2, 2.2, 2.2, 2.2, 4.2"), Refusal)


def test_a_pressure_typed_without_its_unit_is_asked_back() -> None:
    """32 is no pressure in bar that a tyre has."""
    refused = checked("32, 32, 32, 32")

    assert isinstance(refused, Refusal)
    assert "Did you mean 32 psi" in refused.cure


@given(st.floats(0, 8), st.floats(-40, 100), st.floats(-40, 100))
def test_a_tyre_that_warms_and_cools_is_as_before(pressure: float, cold: float, warm: float) -> None:
    """There and back, and never less when warmer."""
    hot = at_temperature(pressure, cold, warm)

    assert at_temperature(hot, warm, cold) == pytest.approx(pressure)
    assert (hot >= pressure) == (warm >= cold) or hot == pytest.approx(pressure)
