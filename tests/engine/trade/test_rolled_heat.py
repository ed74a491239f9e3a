"""How hot the coupling runs on tyres as they roll: the worked 1 %, and what must hold of any tyres."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.trade.coupling_heat import Body
from engine.trade.rolled_heat import run

COLD = Body(0, 25, 25, 1, 12)
THINNING = COLD._replace(thinning=1750)


def test_one_per_cent_at_a_hundred() -> None:
    """30.26 rpm and 561.9 W (computed, as for the mismatch itself); over 12 W/K 46.8 K above 25 °C."""
    found = run(1927.6, 1927.6 / 1.01, 100, 3.5, 55.949, COLD)

    assert found == pytest.approx((71.8, 30.26, 561.9, 1), abs=0.05)


def test_fluid_that_thins_runs_cooler() -> None:
    """562 exp(1750 (1/326.4 - 1/298.15)) W = 338.5 W, and 12 W/K lose that 28.2 K above the air."""
    assert run(1927.6, 1927.6 / 1.01, 100, 3.5, 55.949, THINNING).settled == pytest.approx(53.2, abs=0.1)


@given(st.floats(1500, 2500), st.floats(1500, 2500), st.floats(1, 160))
def test_it_does_not_matter_which_axle_is_larger(front: float, rear: float, speed: float) -> None:
    """The coupling slips the same whichever axle runs ahead."""
    assert run(front, rear, speed, 3.5, 56, THINNING) == run(rear, front, speed, 3.5, 56, THINNING)


@given(st.floats(1500, 2500), st.floats(1, 160))
def test_tyres_alike_leave_it_cold(rolled: float, speed: float) -> None:
    """Without slip it stays at the temperature of the air."""
    assert run(rolled, rolled, speed, 3.5, 56, THINNING).settled == pytest.approx(25)


@given(st.floats(1800, 2000), st.floats(20, 150), st.floats(1.05, 1.5))
def test_faster_is_hotter(rear: float, speed: float, times: float) -> None:
    """The same tyres on a faster road run it hotter."""
    slow, fast = (run(2000.1, rear, at, 3.5, 56, THINNING).settled for at in (speed, speed * times))

    assert slow < fast
