"""Cooling by the air of the road against worked figures, reference data and an independent solver."""

import shlex
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import solve_ivp

from engine.errors import Refusal
from engine.quantity import Quantity
from engine.trade.air_cooling import air, cooled, skin, transfer
from engine.trade.calculator import Sum, compute
from engine.trade.coupling_heat import Body
from engine.trade.coupling_road import on_the_road
from engine.trade.registry import find

#: Air speed in m/s and W/(m²·K): a cylinder of 150 mm at 100 °C in air of 25 °C, to the digits given
#: (mark: computed, by an independent library from the same textbook correlations).
TRANSFER = [(0, 5.80), (5, 22.7), (15, 46.1), (100 / 3.6, 71.2)]
#: Density kg/m³, viscosity mPa·s, conductivity W/(m·K), Prandtl number of air at 25 °C and 1 atm, and
#: the part by which the simple laws may be off (mark: computed, from reference equations of state).
AIR = [("density", 1.18432, 0.001), ("conductivity", 0.026247, 0.01), ("prandtl", 0.70730, 0.005)]
#: Cr in mm, axle ratio, N·m·s/rad: the worked vehicle.
ROLLED = (1927.6, 3.5, 55.949)
UNIT = Body(0, 25, 25, 3302.5, 2.57)
SPEEDS = st.floats(1, 250)


def told(typed: str) -> Sum:
    """What the calculator tells of a coupling on the road."""
    calculator = find("coupling-road")
    assert calculator is not None
    made = compute(calculator, dict(word.split("=", 1) for word in shlex.split(typed)))
    assert isinstance(made, Sum), made
    return made


def number(made: Sum, name: str) -> float:
    """One figure of it."""
    value = made.outputs[name]
    assert isinstance(value, Quantity)
    return float(value.value)


@pytest.mark.parametrize(("stream", "expected"), TRANSFER)
def test_heat_transfer_in_a_stream(stream: float, expected: float) -> None:
    """Still air, and three speeds."""
    assert transfer(stream, 150) == pytest.approx(expected, rel=0.002)


@pytest.mark.parametrize(("name", "expected", "tolerance"), AIR)
def test_air_at_25_degrees(name: str, expected: float, tolerance: float) -> None:
    """Within a part of the reference figure."""
    assert getattr(air(25), name) == pytest.approx(expected, rel=tolerance)


def test_the_viscosity_of_air() -> None:
    """1.8448e-5 Pa·s at 25 °C (computed), within half a per cent."""
    found = air(25)

    assert found.viscosity * found.density * 1e-6 == pytest.approx(1.8448e-5, rel=0.005)


@given(st.floats(0, 100), st.floats(0.1, 20), st.floats(30, 400))
def test_a_faster_stream_never_cools_less(slow: float, more: float, diameter: float) -> None:
    """Nor does still air cool more than a breeze."""
    assert transfer(slow + more, diameter) >= transfer(slow, diameter)


@given(st.floats(30, 400), st.floats(10, 500))
def test_the_outside_is_a_hull_and_two_ends(diameter: float, length: float) -> None:
    """Two short cylinders have two ends more than a long one."""
    ends = skin(diameter, length) * 2 - skin(diameter, 2 * length)

    assert ends == pytest.approx(2 * 3.14159265 * diameter**2 / 4 / 100)


@given(st.floats(0, 250), st.floats(-30, 45))
def test_a_case_of_the_temperature_of_the_air_moves_no_heat_by_itself(speed: float, ambient: float) -> None:
    """Without a difference nothing rises, and the stream alone counts."""
    assert cooled(speed, 150, 100, 100, ambient, ambient)[1] >= 0
    assert transfer(0, 150, ambient, ambient) < transfer(0, 150, ambient + 50, ambient)


@settings(max_examples=25)
@given(st.floats(0.2, 3), SPEEDS, st.floats(1, 7200), st.sampled_from([0.0, 1750.0]))
def test_the_road_agrees_with_an_independent_solver(
    mismatch: float, speed: float, seconds: float, thinning: float
) -> None:
    """The temperature by an ODE solver, from the equations as the trade writes them."""
    loss = cooled(speed, 150, 100)[2]
    omega = speed / 3.6 / 1.9276 * 2 * 3.141592653589793 * mismatch / 100 * 3.5

    def rate(_: float, at: list[float]) -> list[float]:
        thin = 2.718281828459045 ** (thinning * (1 / (at[0] + 273.15) - 1 / 298.15))
        return [(55.949 * omega**2 * thin - loss * (at[0] - 25)) / 3302.5]

    answer = solve_ivp(rate, (0, seconds), [25.0], method="LSODA", rtol=1e-10, atol=1e-9)
    body = UNIT._replace(loss=loss, thinning=thinning)

    found = on_the_road(mismatch, speed, seconds, 120, ROLLED, body)

    assert found.temperature == pytest.approx(float(answer.y[0, -1]), rel=1e-5, abs=1e-3)


@given(st.floats(0.2, 3), SPEEDS, st.floats(30, 300))
def test_at_the_time_told_the_limit_is_met(mismatch: float, speed: float, limit: float) -> None:
    """Or it settles below and no time is told."""
    found = on_the_road(mismatch, speed, 0, limit, ROLLED, UNIT)

    if found.time is None:
        assert found.settled <= limit
    else:
        assert on_the_road(mismatch, speed, found.time, limit, ROLLED, UNIT).temperature == pytest.approx(
            limit, abs=1e-3
        )


def test_speed_heats_more_than_it_cools() -> None:
    """1 % on the worked vehicle: twice the speed more than doubles the rise above the air."""
    ends = [number(told(f"mismatch=1 speed={v}"), "settled") - 25 for v in (25, 50, 100)]

    assert all(2 < fast / slow < 4 for slow, fast in pairwise(ends))


def test_the_air_of_the_road_saves_the_worked_unit_at_half_a_per_cent() -> None:
    """140 W at 100 km/h settle below 120 °C in the stream under a floor; 562 W do not."""
    mild, hard = told("mismatch=0.5 speed=100"), told("mismatch=1 speed=100")

    assert number(mild, "heat") == pytest.approx(140, abs=0.5)
    assert number(mild, "settled") < 120
    assert "reached" not in mild.outputs
    assert number(hard, "heat") == pytest.approx(562, abs=0.5)
    assert number(hard, "reached") < 1200


def test_a_unit_at_its_limit_is_refused() -> None:
    """There is no time left to tell."""
    calculator = find("coupling-road")
    assert calculator is not None

    found = compute(calculator, {"mismatch": "1", "speed": "100", "start": "120"})

    assert isinstance(found, Refusal)
    assert "above the temperature" in found.cure
