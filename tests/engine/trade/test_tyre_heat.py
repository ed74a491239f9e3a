"""Slip and heat of the coupling against the worked table."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.quantity import Quantity
from engine.trade.calculator import Sum, compute
from engine.trade.coupling_slip import from_mismatch
from engine.trade.registry import find
from engine.trade.tyre_heat import drag, heat

#: Mismatch in %, rpm at the wheel, rpm at the coupling, N·m, W; 100 km/h, 1927.6 mm, 3.5 (computed).
ROWS = [(0.5, 4.32, 15.1, 88.7, 140), (1, 8.65, 30.3, 177, 562)]


@pytest.mark.parametrize("row", ROWS, ids=lambda row: f"{row[0]} %")
def test_a_mismatch_at_a_hundred(row: tuple[float, ...]) -> None:
    """The worked table, to its digits."""
    mismatch, wheel, coupling, torque, watt = row
    rpm = from_mismatch(mismatch, 100, 1927.6, 3.5).coupling

    assert from_mismatch(mismatch, 100, 1927.6, 1).coupling == pytest.approx(wheel, abs=0.005)
    assert rpm == pytest.approx(coupling, abs=0.05)
    assert drag(rpm, 55.949) == pytest.approx(torque, abs=0.5)
    assert heat(rpm, 55.949) == pytest.approx(watt, abs=0.5)


def test_a_wheel_at_a_hundred_turns_so_fast() -> None:
    """864.7 rpm (computed, of C 1.9276 m as rounded)."""
    assert from_mismatch(100, 100, 1927.6, 1).coupling == pytest.approx(864.7, abs=0.1)


@given(st.floats(0.01, 10), st.floats(1, 150), st.floats(1, 3))
def test_heat_grows_with_the_square_of_mismatch_and_speed(
    mismatch: float, speed: float, times: float
) -> None:
    """So many times the one or the other, so many times squared the heat."""
    once = heat(from_mismatch(mismatch, speed, 1927.6, 3.5).coupling, 50)

    assert heat(from_mismatch(times * mismatch, speed, 1927.6, 3.5).coupling, 50) == pytest.approx(
        times**2 * once
    )
    assert heat(from_mismatch(mismatch, times * speed, 1927.6, 3.5).coupling, 50) == pytest.approx(
        times**2 * once
    )


def test_the_heat_is_told_over_the_speeds() -> None:
    """One figure for each speed, rising, 562 W among them."""
    calculator = find("mismatch-heat")
    assert calculator is not None

    made = compute(calculator, {"mismatch": "1", "circumference": "1927.6"})

    assert isinstance(made, Sum)
    heats = made.outputs["heats"]
    assert isinstance(heats, tuple)
    values = [float(one.value) for one in heats if isinstance(one, Quantity)]
    assert len(values) == 6
    assert values == sorted(values)
    assert values[4] == pytest.approx(562, abs=0.5)
