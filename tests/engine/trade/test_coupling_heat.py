"""Fluid and heat of a coupling against worked figures and against an independent solver of equations."""

from math import inf, isinf

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import solve_ivp

from engine.errors import Refusal
from engine.trade.coupling_fluid import density_at, dynamic, full_at, temperature_coefficient, thinned
from engine.trade.coupling_heat import Body, heat_capacity, seconds_to, settled, warmed

WORKED = Body(200, 25, 25, 3302.5, 12)
BODIES = st.builds(
    Body,
    power=st.floats(10, 40_000),
    start=st.floats(-20, 90),
    ambient=st.floats(-30, 45),
    capacity=st.floats(1000, 8000),
    loss=st.floats(1, 60),
    thinning=st.sampled_from([0.0, 900.0, 1750.0]),
)

#: Fill in per cent, temperature in °C at which the case is full; 25 °C, 9.2e-4 per kelvin (mark: computed).
FULL = [(85, 217), (88, 173), (90, 146), (92, 120), (95, 82)]


def solved(body: Body, seconds: float) -> float:
    """The temperature by an independent solver."""
    answer = solve_ivp(
        lambda _, t: [body.rate(t[0])], (0, seconds), [body.start], method="LSODA", rtol=1e-10, atol=1e-9
    )
    return float(answer.y[0, -1])


@pytest.mark.parametrize(("fill", "temperature"), FULL)
def test_a_case_is_full_when_the_fluid_has_grown(fill: float, temperature: float) -> None:
    """The temperatures of the worked table, to the degree."""
    assert full_at(fill) == pytest.approx(temperature, abs=0.5)


@pytest.mark.parametrize("fill", [0, -5, 101])
def test_a_case_that_cannot_be_filled_so_is_refused(fill: float) -> None:
    """More than full, and empty, get a cure."""
    assert isinstance(full_at(fill), Refusal)


def test_two_memories_of_the_fluid_agree() -> None:
    """B 1750 K gives a coefficient of 0.602, beside the 0.60 remembered (memory, computed)."""
    assert temperature_coefficient(1750) == pytest.approx(0.602, abs=5e-4)


@given(st.floats(-30, 180), st.floats(1, 60))
def test_silicone_fluid_never_thickens_with_heat(temperature: float, more: float) -> None:
    """The popular claim that the fluid thickens when hot is the wrong way round."""
    assert thinned(1000, temperature + more) < thinned(1000, temperature)


def test_viscosity_at_the_named_temperature_is_the_named_one() -> None:
    """30 000 mm²/s at 970 kg/m³ are 29.1 Pa·s (computed)."""
    assert dynamic(thinned(30_000, 25), density_at(970, 25)) == pytest.approx(29.1)


def test_the_worked_unit_stores_so_much_heat() -> None:
    """6 kg of steel and 0.35 kg of fluid: 3302.5 J/K (computed)."""
    assert heat_capacity(6, 0.35) == pytest.approx(3302.5)


def test_two_hundred_watts_for_ten_minutes() -> None:
    """39.7830 °C after 600 s, 41.667 °C in the end, with a time constant of 275.2 s (computed)."""
    assert warmed(WORKED, 600) == pytest.approx(39.7830, abs=5e-5)
    assert settled(WORKED) == pytest.approx(41.667, abs=5e-4)
    assert WORKED.capacity / WORKED.loss == pytest.approx(275.2, abs=0.05)


def test_towed_with_one_axle_held() -> None:
    """31.7 kW heat the unit by 9.6 K a second: 110 K in 11.5 s (computed)."""
    towed = Body(31_700, 25, 25, 3302.5, 0)

    assert towed.rate(25) == pytest.approx(9.6, abs=0.05)
    assert seconds_to(towed, 135) == pytest.approx(11.5, abs=0.05)


@settings(max_examples=40)
@given(BODIES, st.floats(1, 3600))
def test_the_temperature_agrees_with_an_independent_solver(body: Body, seconds: float) -> None:
    """Any unit, after any time up to an hour, to a thousandth of a kelvin or a millionth of its rise."""
    expected = solved(body, seconds)

    assert warmed(body, seconds) == pytest.approx(expected, abs=1e-3 + 2e-6 * abs(expected - body.start))


@settings(max_examples=40)
@given(BODIES)
def test_a_day_brings_the_unit_to_where_it_settles(body: Body) -> None:
    """What is settled at last warms and cools no more."""
    assert warmed(body, 86_400 * 4) == pytest.approx(settled(body), abs=1e-3)
    assert body.rate(settled(body)) == pytest.approx(0, abs=1e-6)


@given(BODIES, st.floats(0.05, 0.95))
def test_the_time_to_a_limit_is_the_time_after_which_it_is_met(body: Body, part: float) -> None:
    """Warming for the seconds told gives the limit again."""
    rise = settled(body) - body.start
    limit = body.start + part * rise
    seconds = seconds_to(body, limit)

    if rise * part <= 0:
        assert isinstance(seconds, Refusal)
    else:
        assert not isinstance(seconds, Refusal)
        assert warmed(body, seconds) == pytest.approx(limit, abs=1e-3 + 1e-5 * rise)


@given(BODIES)
def test_fluid_that_thins_heats_less(body: Body) -> None:
    """The even fluid is the worst case, while the unit warms up."""
    even, thin = body._replace(thinning=0), body._replace(thinning=1750)

    if settled(even) > body.start:
        assert settled(thin) <= settled(even)
        assert warmed(thin, 600) <= warmed(even, 600) + 1e-6


def test_a_limit_out_of_reach_is_refused_with_where_it_settles() -> None:
    """200 W settle at 42 °C and never come to 100."""
    refusal = seconds_to(WORKED, 100)

    assert isinstance(refusal, Refusal)
    assert refusal.kind == "never"
    assert "42 °C" in refusal.message


def test_a_limit_already_passed_is_refused() -> None:
    """A unit hotter than its limit has no time left to count."""
    assert isinstance(seconds_to(WORKED, 20), Refusal)


def test_nothing_cools_a_wrapped_unit() -> None:
    """Without loss there is no end to it, unless nothing heats it."""
    assert isinf(settled(WORKED._replace(loss=0)))
    assert settled(Body(0, 60, 25, 3302.5, 0)) == 60
    assert settled(WORKED._replace(loss=0)) == inf


def test_a_hot_unit_cools() -> None:
    """Without slip, half of the difference is gone after 0.693 time constants."""
    hot = Body(0, 125, 25, 3302.5, 12)

    assert warmed(hot, 0.693147 * 3302.5 / 12) == pytest.approx(75, abs=1e-3)
    assert settled(hot) == 25
