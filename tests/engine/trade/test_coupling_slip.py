"""Slip on the road and tests at the bench against worked figures and an independent solver."""

from math import pi, radians, sin

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import quad, solve_ivp

from engine.errors import Refusal
from engine.trade.coupling_bench import (
    FALL,
    RunDown,
    at_coupling,
    at_wheel,
    lever_damping,
    lever_time,
    run_down,
)
from engine.trade.coupling_heat import Body, warmed
from engine.trade.coupling_slip import after, from_mismatch, in_turn, mismatch_like, wheel_speed

#: Mismatch in %, difference at the wheel and slip at the coupling in rpm, torque in N·m, heat in W at 100
#: km/h on 1927.6 mm, ratio 3.5, damping 55.949 N·m·s/rad (mark: computed).
ROAD = [(0.5, 4.32, 15.1, 88.7, 140), (1, 8.65, 30.3, 177, 562), (2, 17.3, 60.5, 354.6, 2247)]
UNIT = Body(0, 25, 25, 3302.5, 12, 1750)


@pytest.mark.parametrize(("mismatch", "wheel", "coupling", "torque", "heat"), ROAD)
def test_a_mismatch_at_speed(
    mismatch: float, wheel: float, coupling: float, torque: float, heat: float
) -> None:
    """Slip, torque and heat of the worked table, to its digits."""
    slip = from_mismatch(mismatch, 100, 1927.6, 3.5)
    hour = after(60, slip.coupling, 55.949, UNIT)

    assert slip.wheel == pytest.approx(864.7, abs=0.1)
    assert slip.difference == pytest.approx(wheel, rel=2e-3)
    assert slip.coupling == pytest.approx(coupling, rel=4e-3)
    assert hour.torque == pytest.approx(torque, rel=3e-3)
    assert hour.power == pytest.approx(heat, rel=5e-3)


def test_a_tight_turn_slips_like_one_per_cent_at_speed() -> None:
    """2.6 m of wheelbase on 4.5 m at 5 km/h: wheel 43.2 rpm, slip 23.4, like 0.8 % at 100 (computed)."""
    turn = in_turn(2.6, 4.5, 5, 1927.6, 3.5)

    assert turn.wheel == pytest.approx(43.2, abs=0.05)
    assert turn.coupling == pytest.approx(23.4, abs=0.05)
    assert turn.difference / turn.wheel == pytest.approx(0.1549, abs=5e-5)
    assert mismatch_like(turn.coupling, 100, 1927.6, 3.5) == pytest.approx(0.8, abs=0.05)


def test_a_vehicle_at_rest_has_no_mismatch_like_it() -> None:
    """No wheel turns, so no per cent of it is told."""
    assert isinstance(mismatch_like(20, 0, 1927.6, 3.5), Refusal)


@given(st.floats(0.01, 5), st.floats(1, 200), st.floats(1500, 2500), st.floats(1, 6))
def test_the_like_mismatch_is_the_one_that_slips_so(m: float, v: float, c: float, i: float) -> None:
    """From mismatch to slip and back."""
    assert mismatch_like(from_mismatch(m, v, c, i).coupling, v, c, i) == pytest.approx(m)


@given(st.floats(0.1, 3), st.floats(10, 200))
def test_heat_grows_with_the_square(mismatch: float, speed: float) -> None:
    """Twice the mismatch, or twice the speed, is four times the heat at the start."""
    once = after(1, from_mismatch(mismatch, speed, 1927.6, 3.5).coupling, 50, UNIT).power
    unlike = after(1, from_mismatch(2 * mismatch, speed, 1927.6, 3.5).coupling, 50, UNIT).power
    fast = after(1, from_mismatch(mismatch, 2 * speed, 1927.6, 3.5).coupling, 50, UNIT).power

    assert (unlike, fast) == pytest.approx((4 * once, 4 * once))


@settings(max_examples=15)
@given(st.floats(5, 100), st.floats(1, 120))
def test_the_heat_told_is_the_power_over_the_time(slip: float, minutes: float) -> None:
    """What the unit holds and has lost is what the drag put in, by quadrature."""
    hour = after(minutes, slip, 55.949, UNIT)
    warm = UNIT._replace(power=hour.power)

    whole, _ = quad(lambda t: warm.power_at(warmed(warm, t)), 0, minutes * 60, epsrel=1e-6)

    assert hour.heat == pytest.approx(whole / 1000, rel=1e-3)


def test_a_wheel_turns_so_often() -> None:
    """864.7 rpm at 100 km/h on 1.9276 m (computed)."""
    assert wheel_speed(100, 1927.6) == pytest.approx(864.7, abs=0.1)


def test_the_weighted_lever() -> None:
    """5 kg at 1 m from 45° to 90° against 500 N·m·s/rad: 8.98751 s (computed)."""
    assert lever_time(500, 5, 1, 45, 90) == pytest.approx(8.98751, abs=5e-6)


@given(
    st.floats(50, 5000),
    st.floats(1, 20),
    st.floats(0.3, 2),
    st.tuples(st.floats(5, 80), st.floats(5, 90)).map(lambda a: (a[0], a[0] + a[1])),
)
def test_the_lever_agrees_with_an_independent_solver(
    damping: float, mass: float, length: float, angles: tuple[float, float]
) -> None:
    """The motion c dθ/dt = m g L sin θ, stopped at the second angle."""
    start, end = map(radians, angles)

    def arrive(_: float, y: list[float]) -> float:
        return y[0] - end

    arrive.terminal = True  # type: ignore[attr-defined]  # reason: how the solver is told to stop
    fall = mass * FALL * length / damping
    span = solve_ivp(
        lambda _, y: [fall * sin(y[0])], (0, 1e9), [start], events=arrive, rtol=1e-10, atol=1e-12
    )

    assert lever_time(damping, mass, length, *angles) == pytest.approx(span.t_events[0][0], rel=1e-6)


@given(st.floats(50, 5000), st.floats(1, 20), st.floats(0.3, 2))
def test_the_damping_is_the_one_whose_lever_takes_that_long(c: float, mass: float, length: float) -> None:
    """From damping to time and back."""
    seconds = lever_time(c, mass, length, 30, 120)

    assert not isinstance(seconds, Refusal)
    assert lever_damping(seconds, mass, length, 30, 120) == pytest.approx(c)


@pytest.mark.parametrize("angles", [(0, 90), (90, 45), (45, 45), (45, 180), (-10, 45)])
def test_a_lever_that_does_not_fall_is_refused(angles: tuple[float, float]) -> None:
    """Upright it never starts, hanging it never arrives, upwards it does not go."""
    assert isinstance(lever_time(500, 5, 1, *angles), Refusal)
    assert isinstance(lever_damping(9, 5, 1, *angles), Refusal)


@given(st.floats(1, 500), st.floats(1, 6))
def test_the_coupling_felt_at_a_wheel(damping: float, ratio: float) -> None:
    """The power put in at the wheel is the heat in the coupling, whose shaft turns half the ratio as fast."""
    wheel = 2 * pi
    shaft = wheel * ratio / 2

    assert at_wheel(damping, ratio) * wheel**2 == pytest.approx(damping * shaft**2)
    assert at_coupling(at_wheel(damping, ratio), ratio) == pytest.approx(damping)


def test_two_free_parts_run_together() -> None:
    """0.8 and 1.2 kg·m², 10 N·m·s/rad, 100 apart: 12.4514 after 0.1 s, 40.0 in common (computed)."""
    found = run_down(0.1, 10, 0.8, 1.2, 100, 0)

    assert isinstance(found, RunDown)
    assert found.slip == pytest.approx(12.4514, abs=5e-5)
    assert found.common == pytest.approx(40.0)


@given(st.floats(0.01, 5), st.floats(0.5, 50), st.floats(0.2, 3), st.floats(0.2, 3), st.floats(-200, 200))
def test_two_free_parts_agree_with_an_independent_solver(
    seconds: float, damping: float, one: float, other: float, speed: float
) -> None:
    """Both speeds, by J dω/dt = -c (ω1 - ω2) on either part."""
    pull = [-damping / one, damping / other]
    answer = solve_ivp(
        lambda _, w: [pull[0] * (w[0] - w[1]), pull[1] * (w[0] - w[1])],
        (0, seconds),
        [speed, 30.0],
        method="LSODA",
        rtol=1e-10,
        atol=1e-10,
    )

    found = run_down(seconds, damping, one, other, speed, 30)

    assert isinstance(found, RunDown)
    assert (found.first, found.second) == pytest.approx(tuple(answer.y[:, -1]), abs=1e-5)


def test_a_part_without_inertia_is_refused() -> None:
    """Nothing that turns has none."""
    assert isinstance(run_down(1, 10, 0, 1, 100, 0), Refusal)
