"""Cardan joints and shafts against a computer-algebra system, eigenvalues and worked figures."""

from math import cos, degrees, pi, radians, sin, sqrt

import numpy as np
import pytest
import sympy
from hypothesis import given
from hypothesis import strategies as st
from scipy.linalg import eigvalsh_tridiagonal
from scipy.optimize import minimize_scalar

from engine.errors import Refusal
from engine.trade.cardan import ACROSS, IN_PLANE, ratio, turned, uneven
from engine.trade.joint_chain import (
    CROSSED,
    IN_PHASE,
    Left,
    acceleration,
    allowed,
    joint_angle,
    judged,
    residual,
    second_angle,
)
from engine.trade.shafts import Shape, critical_speed, shape, whirl

#: Joint angle in °, least ratio, unevenness in %, phase in °, acceleration in rad/s² at 1000 rpm (mark:
#: computed).
JOINTS = [
    (5, 0.99619, 0.763, 0.1092, 83.6),
    (10, 0.98481, 3.062, 0.4386, 335.9),
    (30, 0.86603, 28.868, 4.1172, 3230),
]
#: Shaft speed in rpm and residual angle in °, as printed in SAE AE-7 to a tenth.
PRINTED = [(1500, 7.3), (1600, 6.9), (1700, 6.5)]
#: Largest second angle at 1500 rpm for a first of 0 to 9°, as printed in SAE AE-7.
SECOND = [7.3, 7.4, 7.6, 7.9, 8.3, 8.9, 9.5, 10.1, 10.8, 11.6]

TURNS = st.floats(-720, 720)
ANGLES = st.floats(0.5, 40)


def chain(turn: float, joints: list[tuple[float, float]], yokes: list[str]) -> float:
    """The last shaft's turn behind real joints, each with its angle and the direction of its plane in °."""
    angle = turn
    offset = 0.0
    for (joint, plane), yoke in zip(joints, [*yokes, IN_PHASE], strict=True):
        local = angle + offset - plane
        angle += turned(local, joint) - local
        offset += 90 if yoke == IN_PHASE else 0
    return angle


@pytest.mark.parametrize(("joint", "least", "spread", "phase", "peak"), JOINTS)
def test_a_joint_by_its_angle(joint: float, least: float, spread: float, phase: float, peak: float) -> None:
    """Ratio, unevenness, phase error and acceleration of the worked table, to its digits."""
    found = uneven(joint, 1000)

    assert found.least == pytest.approx(least, abs=5e-6)
    assert found.spread == pytest.approx(spread, abs=5e-4)
    assert found.phase == pytest.approx(phase, abs=5e-5)
    assert found.acceleration == pytest.approx(peak, rel=5e-4)


def test_thirty_degrees_turn_between_two_bounds() -> None:
    """0.86603 to 1.15470, phase error 4.1172° (computed)."""
    found = uneven(30, 1000)

    assert found[:2] == pytest.approx((0.86603, 1.15470), abs=5e-6)


def test_the_ratio_is_the_slope_of_the_cross_constraint() -> None:
    """Solving sin t1 cos b cos t2 = cos t1 sin t2 and differentiating gives the formula, for all angles."""
    t, b = sympy.symbols("t b", real=True)
    second = sympy.atan(sympy.tan(t) * sympy.cos(b))
    ours = sympy.cos(b) / (1 - sympy.sin(b) ** 2 * sympy.sin(t) ** 2)

    constraint = sympy.sin(t) * sympy.cos(b) * sympy.cos(second) - sympy.cos(t) * sympy.sin(second)

    assert sympy.simplify(sympy.diff(second, t) - ours) == 0
    assert abs(constraint.subs({t: 0.4, b: 0.5}).evalf()) < 1e-12


@pytest.mark.parametrize("zero", [ACROSS, IN_PLANE])
@given(TURNS, ANGLES)
def test_the_ratio_is_the_slope_of_the_turn(zero: str, turn: float, joint: float) -> None:
    """A small turn more of the first shaft is the ratio times as much of the second."""
    step = 1e-4
    slope = (turned(turn + step, joint, zero) - turned(turn - step, joint, zero)) / (2 * step)

    assert ratio(turn, joint, zero) == pytest.approx(slope, rel=1e-6)


@given(TURNS, ANGLES)
def test_the_two_zeros_are_a_quarter_turn_apart(turn: float, joint: float) -> None:
    """One formula is the other, 90° on."""
    assert ratio(turn + 90, joint, IN_PLANE) == pytest.approx(ratio(turn, joint, ACROSS))
    assert turned(turn + 90, joint, IN_PLANE) - 90 == pytest.approx(turned(turn, joint), abs=1e-9)


def test_mixing_the_zeros_is_no_small_mistake() -> None:
    """At 0.5 rad of angle and 0.2 rad of turn the two forms differ by 0.24 (computed)."""
    joint, turn = degrees(0.5), degrees(0.2)

    assert ratio(turn, joint, IN_PLANE) - ratio(turn, joint, ACROSS) == pytest.approx(0.24, abs=0.005)


@given(TURNS, ANGLES)
def test_a_whole_turn_is_a_whole_turn(turn: float, joint: float) -> None:
    """However uneven, the second shaft never falls behind, and stays within the phase error."""
    assert turned(turn + 360, joint) == pytest.approx(turned(turn, joint) + 360, abs=1e-9)
    assert abs(turned(turn, joint) - turn) <= uneven(joint, 0).phase + 1e-9


@given(ANGLES)
def test_the_peak_acceleration_is_a_maximum(joint: float) -> None:
    """The closed answer is what a search over the turn finds."""
    b = radians(joint)

    def slowing(t: float) -> float:
        return -cos(b) * sin(b) ** 2 * sin(2 * t) / (1 - (sin(b) * sin(t)) ** 2) ** 2

    found = minimize_scalar(slowing, bounds=(0, pi / 2), method="bounded", options={"xatol": 1e-10})

    assert uneven(joint, 30 / pi).acceleration == pytest.approx(-found.fun, rel=1e-9)


@given(TURNS, ANGLES)
def test_two_equal_joints_in_phase_undo_each_other(turn: float, joint: float) -> None:
    """Exactly, at any angle; and nothing is left by the rule."""
    assert chain(turn, [(joint, 0), (joint, 0)], [IN_PHASE]) == pytest.approx(turn, abs=1e-9)
    assert residual([joint, joint], [0, 0], [IN_PHASE]) == 0


@given(
    st.lists(st.tuples(st.floats(0.5, 8), st.floats(-180, 180)), min_size=2, max_size=3),
    st.lists(st.sampled_from([IN_PHASE, CROSSED]), min_size=2, max_size=2),
)
def test_the_rule_for_a_row_agrees_with_real_joints(
    joints: list[tuple[float, float]], both: list[str]
) -> None:
    """The largest lag of two or three exact joints, in any planes, is that of the residual angle."""
    yokes = both[: len(joints) - 1]
    side = [b * cos(radians(plane)) for b, plane in joints]
    top = [b * sin(radians(plane)) for b, plane in joints]
    left = residual(side, top, yokes)

    lags = [chain(turn, joints, yokes) - turn for turn in range(180)]
    biggest = max(b for b, _ in joints)

    assert not isinstance(left, Refusal)
    assert (max(lags) - min(lags)) / 2 == pytest.approx(
        degrees(radians(left) ** 2 / 4), abs=degrees(radians(biggest) ** 4) + 2e-4
    )


def test_the_residual_angle_at_1500_rpm() -> None:
    """7.3° at 1500 rpm are 400.5 rad/s² (SAE AE-7; computed)."""
    assert acceleration(7.3, 1500) == pytest.approx(400.5, abs=0.05)


@pytest.mark.parametrize(("speed", "angle"), PRINTED)
def test_the_printed_residual_angles(speed: float, angle: float) -> None:
    """SAE AE-7 rounds 400 rad/s² to a tenth of a degree."""
    assert allowed(speed) == pytest.approx(angle, abs=0.1)


@pytest.mark.parametrize(("speed", "angle"), [(2000, 5.47), (3000, 3.65), (4000, 2.74), (5000, 2.19)])
def test_the_allowed_angle_at_speed(speed: float, angle: float) -> None:
    """20 over the shaft speed in radians a second (computed)."""
    assert allowed(speed) == pytest.approx(angle, abs=0.005)


@pytest.mark.parametrize(("first", "second"), list(enumerate(SECOND)))
def test_the_printed_row_of_second_angles(first: float, second: float) -> None:
    """The row of 1500 rpm, to the tenth that is printed."""
    assert second_angle(first, 1500)[1] == pytest.approx(second, abs=0.06)


@given(st.floats(0, 15), st.floats(500, 5000))
def test_the_bounds_of_the_second_angle_leave_what_is_allowed(first: float, speed: float) -> None:
    """At the upper bound the row is just within; without a first joint the lower one is zero."""
    low, high = second_angle(first, speed)

    assert residual([first, high], [0, 0], [IN_PHASE]) == pytest.approx(allowed(speed))
    assert 0 <= low <= first


def test_a_row_is_judged_at_its_speed() -> None:
    """5 and 4° in phase leave 3°: within 3.65° at 3000 rpm, too much at 4000."""
    slow, fast = (judged([5, 4], [0, 0], [IN_PHASE], speed) for speed in (3000, 4000))

    assert isinstance(slow, Left)
    assert isinstance(fast, Left)
    assert slow.answer.startswith("within")
    assert fast.answer.startswith("too much")


def test_three_joints_with_a_crossed_shaft() -> None:
    """1, 4 and 4° with the second shaft in phase leave the first joint alone."""
    assert residual([1, 4, 4], [0, 0, 0], [IN_PHASE, IN_PHASE]) == pytest.approx(1)
    assert residual([3, 4, 0], [0, 0, 0], [CROSSED, IN_PHASE]) == pytest.approx(5)


@pytest.mark.parametrize(("side", "top", "yokes"), [([5], [0], [IN_PHASE]), ([5, 5], [0], [IN_PHASE])])
def test_a_row_whose_lists_do_not_fit_is_refused(
    side: list[float], top: list[float], yokes: list[str]
) -> None:
    """A joint without its shaft, or an angle without the other view."""
    assert isinstance(residual(side, top, yokes), Refusal)


@given(st.floats(-10, 10), st.floats(-10, 10), st.floats(-10, 10), st.floats(-10, 10))
def test_an_angle_in_space_is_the_same_from_either_shaft(a: float, b: float, c: float, d: float) -> None:
    """Swapping the shafts, or both views, changes nothing."""
    assert joint_angle(a, b, c, d) == pytest.approx(joint_angle(b, a, d, c), abs=1e-5)
    assert joint_angle(a, b, c, d) == pytest.approx(joint_angle(c, d, a, b), abs=1e-5)


def test_a_tube_whips_at() -> None:
    """63.5 x 1.65 mm of 1.5 m: 4694 rpm (computed)."""
    assert critical_speed(63.5, 1.65, 1500) == pytest.approx(4694, abs=0.5)


@given(st.floats(40, 120), st.floats(1, 5), st.floats(500, 3000))
def test_the_critical_speed_by_its_constant_for_steel(outer: float, wall: float, length: float) -> None:
    """1.2070e8 √(D² + d²) / L² (computed; handbooks give about 1.2e8)."""
    found = critical_speed(outer, wall, length)
    inner = outer - 2 * wall

    assert found == pytest.approx(1.2070e8 * sqrt(outer**2 + inner**2) / length**2, rel=1e-4)


def test_the_critical_speed_is_the_first_eigenvalue_of_a_beam() -> None:
    """A beam of 400 pieces whips where the formula says."""
    count, length = 400, 1.5
    step = length / count
    curvature = eigvalsh_tridiagonal(
        np.full(count - 1, 2 / step**2), np.full(count - 2, -1 / step**2), select="i", select_range=(0, 0)
    )[0]
    outer, inner = 0.0635, 0.0602
    stiffness = 206e9 * (outer**2 + inner**2) / 16 / 7850

    assert critical_speed(63.5, 1.65, 1500) == pytest.approx(
        30 / pi * float(curvature) * sqrt(stiffness), rel=1e-4
    )


@pytest.mark.parametrize("wall", [3.048, 3.175])
def test_public_pages_are_wrong_on_a_steel_tube(wall: float) -> None:
    """48 in by 3 in of 0.12 to 0.125 in, 200 GPa: 8262 to 8294 (computed); pages print 7200, 5800, 7353."""
    found = critical_speed(76.2, wall, 1219.2, modulus=200)

    assert not isinstance(found, Refusal)
    assert 8262 <= found <= 8294


def test_a_wall_thicker_than_the_tube_is_refused() -> None:
    """The cure names the wall of a solid shaft."""
    found = critical_speed(60, 31, 1000)

    assert isinstance(found, Refusal)
    assert "30 mm" in found.cure


@given(
    st.integers(6, 24),
    st.tuples(st.floats(0.01, 2), st.floats(0, 359)),
    st.tuples(st.floats(0, 1), st.floats(0, 179)),
    st.floats(-1, 1),
)
def test_bend_and_oval_come_back_from_the_readings(
    count: int, bend: tuple[float, float], oval: tuple[float, float], dial: float
) -> None:
    """Whatever the dial was set to, both harmonics and the high spot are found again."""
    places = [2 * pi * k / count for k in range(count)]
    readings = [
        dial + bend[0] * cos(p - radians(bend[1])) + oval[0] * cos(2 * (p - radians(oval[1]))) for p in places
    ]

    found = shape(readings)

    assert isinstance(found, Shape)
    assert found.eccentricity == pytest.approx(bend[0])
    assert found.oval == pytest.approx(oval[0], abs=1e-9)
    assert cos(radians(found.high_spot - bend[1])) == pytest.approx(1)


def test_too_few_readings_tell_no_shape() -> None:
    """Four places cannot tell an oval."""
    assert isinstance(shape([0, 0.1, 0, -0.1]), Refusal)


@given(st.floats(0.01, 2), st.floats(0.1, 20), st.floats(100, 5000))
def test_twice_the_speed_is_four_times_the_force(run_out: float, mass: float, speed: float) -> None:
    """And the unbalance does not care."""
    once, twice = whirl(run_out, mass, speed), whirl(run_out, mass, 2 * speed)

    assert twice.force == pytest.approx(4 * once.force)
    assert twice.unbalance == once.unbalance == pytest.approx(500 * run_out * mass)
