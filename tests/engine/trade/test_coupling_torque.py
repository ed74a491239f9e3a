"""The drag of a pack of plates against worked figures and against quadrature by an independent library."""

from math import pi

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad

from engine.errors import Refusal
from engine.trade.coupling_torque import Drag, cross, curve, newtonian, power_law, rad_s

#: The worked pack: 35 and 55 mm, 40 gaps of 0.25 mm, 30 000 mm²/s at 970 kg/m³. Model assumptions (invented).
PACK = (35, 55, 0.25, 40)

#: Slip in rpm, torque in N·m, power in W, rate at the rim in 1/s; computed for the pack above (mark:
#: computed).
NEWTONIAN = [
    (1, 5.859, 0.614, 23.0),
    (10, 58.589, 61.36, 230),
    (20, 117.2, 245, 461),
    (50, 292.9, 1534, 1152),
    (100, 585.9, 6136, 2304),
    (200, 1171.8, 24542, 4608),
    (400, 2343.6, 98168, 9215),
]

SLIPS = st.floats(0.01, 3000)
RADII = st.tuples(st.floats(0, 80), st.floats(0.5, 60)).map(lambda pair: (pair[0], pair[0] + pair[1]))


def done(drag: Drag | Refusal) -> Drag:
    """The drag of a pack that is none to refuse."""
    assert isinstance(drag, Drag)
    return drag


@pytest.mark.parametrize(("slip", "torque", "power", "rate"), NEWTONIAN)
def test_an_even_fluid_drags_in_proportion(slip: float, torque: float, power: float, rate: float) -> None:
    """Torque, power and shear rate of the worked pack, to the digits that the table gives."""
    drag = done(newtonian(slip, *PACK, 29.1))

    assert drag.torque == pytest.approx(torque, rel=2e-4)
    assert drag.power == pytest.approx(power, rel=5e-3)
    assert drag.rate == pytest.approx(rate, rel=2e-3)


def test_the_damping_of_the_worked_pack() -> None:
    """55.949 N·m·s/rad, whatever the slip (computed)."""
    dampings = [done(newtonian(slip, *PACK, 29.1)).damping for slip in (1, 10, 400)]

    assert dampings == pytest.approx([55.949] * 3, abs=5e-4)


@pytest.mark.parametrize(("faces", "torque"), [(1, 4.7703), (2, 9.5406)])
def test_a_disc_in_oil(faces: int, torque: float) -> None:
    """A disc of 100 mm in 0.29 Pa·s, 1 mm from the wall, at 1000 rpm; one face and both (textbook)."""
    disc = done(newtonian(1000, 0, 100, 1, faces, 0.29))

    assert disc.torque == pytest.approx(torque, abs=5e-5)
    assert disc.torque == pytest.approx(faces * pi * 0.29 * rad_s(1000) * 0.1**4 / (2 * 0.001))


def test_a_thinning_fluid_by_the_power_law() -> None:
    """At n 0.7 and K 200, the worked pack at 50 rpm: 255.159 N·m (computed)."""
    assert done(power_law(50, *PACK, 200, 0.7)).torque == pytest.approx(255.159, abs=5e-4)


@pytest.mark.parametrize(("slip", "torque"), [(1, 5.62), (10, 46.29)])
def test_a_thinning_fluid_by_cross(slip: float, torque: float) -> None:
    """τ 3e4 Pa, m 0.8, the worked pack: less than the even fluid drags, and ever less (computed)."""
    drag = done(cross(slip, *PACK, 29.1, 3e4, 0.8))

    assert drag.torque == pytest.approx(torque, abs=5e-3)


@given(SLIPS, RADII, st.floats(0.3, 1.2), st.floats(1, 1000))
def test_the_power_law_agrees_with_quadrature(
    slip: float, radii: tuple[float, float], index: float, consistency: float
) -> None:
    """Its closed answer is the integral over the rings of the pack."""
    inner, outer = radii
    rate = rad_s(slip) / 0.25e-3
    whole, _ = quad(lambda r: (rate * r) ** index * r**2, inner / 1000, outer / 1000, epsabs=0, epsrel=1e-11)

    drag = done(power_law(slip, inner, outer, 0.25, 40, consistency, index))

    assert drag.torque == pytest.approx(2 * pi * 40 * consistency * whole, rel=1e-9)


@given(SLIPS, RADII, st.floats(0.3, 1), st.floats(1, 100), st.floats(1e3, 1e5))
def test_the_law_of_cross_agrees_with_quadrature(
    slip: float, radii: tuple[float, float], index: float, viscosity: float, stress: float
) -> None:
    """The rule with fixed panels is as good as an adaptive one, from standstill to a towed vehicle's slip."""
    inner, outer = radii
    rate = rad_s(slip) / 0.25e-3

    def ring(r: float) -> float:
        return viscosity * rate * r**3 / (1 + float((viscosity * rate * r / stress) ** index))

    whole, _ = quad(ring, inner / 1000, outer / 1000, epsabs=0, epsrel=1e-11)

    drag = done(cross(slip, inner, outer, 0.25, 40, viscosity, stress, index))

    assert drag.torque == pytest.approx(2 * pi * 40 * whole, rel=1e-7)


@given(SLIPS, st.floats(0.5, 100))
def test_a_power_law_that_does_not_thin_is_the_even_fluid(slip: float, viscosity: float) -> None:
    """With n = 1 both formulas are one."""
    assert done(power_law(slip, *PACK, viscosity, 1)) == pytest.approx(
        done(newtonian(slip, *PACK, viscosity))
    )


@given(SLIPS, st.floats(1.01, 5), st.floats(0.3, 1))
def test_a_thinning_fluid_drags_more_with_slip_but_never_in_proportion(
    slip: float, faster: float, index: float
) -> None:
    """More slip, more torque; and always less than the even fluid of the same viscosity at rest."""
    slow = done(cross(slip, *PACK, 29.1, 3e4, index)).torque
    fast = done(cross(slip * faster, *PACK, 29.1, 3e4, index)).torque

    assert slow < fast < slow * faster
    assert fast < done(newtonian(slip * faster, *PACK, 29.1)).torque


@given(SLIPS)
def test_backwards_is_as_hard_and_as_hot(slip: float) -> None:
    """Slip the other way turns the torque round; the heat stays."""
    for one, other in (
        (newtonian(slip, *PACK, 29.1), newtonian(-slip, *PACK, 29.1)),
        (power_law(slip, *PACK, 200, 0.7), power_law(-slip, *PACK, 200, 0.7)),
        (cross(slip, *PACK, 29.1, 3e4, 0.8), cross(-slip, *PACK, 29.1, 3e4, 0.8)),
    ):
        assert done(other).torque == pytest.approx(-done(one).torque)
        assert done(other).power == pytest.approx(done(one).power)


def test_slots_take_their_share() -> None:
    """Plates that keep seven tenths of their area drag seven tenths."""
    assert done(newtonian(10, *PACK, 29.1, 0.7)).torque == pytest.approx(0.7 * 58.589, rel=1e-4)


def test_no_slip_no_drag() -> None:
    """At rest there is no torque, no heat, and nothing is divided by nothing."""
    assert done(cross(0, *PACK, 29.1, 3e4, 0.8))[:2] == (0, 0)
    assert done(power_law(0, *PACK, 200, 0.7))[:2] == (0, 0)


@pytest.mark.parametrize(
    ("inner", "outer", "gap"), [(55, 35, 0.25), (35, 35, 0.25), (35, 55, 0), (35, 55, -1)]
)
def test_what_is_no_pack_is_refused(inner: float, outer: float, gap: float) -> None:
    """Swapped radii and a gap of nothing get a cure, from all three formulas."""
    answers = (
        newtonian(10, inner, outer, gap, 40, 29.1),
        power_law(10, inner, outer, gap, 40, 200, 0.7),
        cross(10, inner, outer, gap, 40, 29.1, 3e4, 0.8),
    )

    assert [answer.kind for answer in answers if isinstance(answer, Refusal)] == ["no-pack"] * 3


@given(st.floats(1, 50), st.floats(1.1, 10), st.floats(0.3, 1.2), st.floats(1, 300))
def test_a_curve_goes_through_what_was_measured(slow: float, times: float, q: float, low: float) -> None:
    """Two torques on a curve of exponent q give back q and any third torque on it."""
    fast = slow * times

    found = curve(3 * slow, slow, low, fast, low * times**q)

    assert found == pytest.approx((low * 3**q, q))


def test_one_point_makes_no_curve() -> None:
    """Two torques at one slip are refused."""
    found = curve(30, 10, 40, 10, 80)

    assert isinstance(found, Refusal)
    assert "two slips" in found.cure
