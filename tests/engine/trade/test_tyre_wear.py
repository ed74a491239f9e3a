"""Tread and rolled distance: what the axles and the sides see, and which corner is the odd one."""

from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.errors import Refusal
from engine.trade.tyre_wear import CORNERS, Unlike, allowed, by_tread, lost, unlike

ROLLED = st.lists(st.fractions(1800, 2200, max_denominator=10), min_size=4, max_size=4)
#: Tread lost in mm and change in per cent on 632 mm (computed).
LOSSES = [(1.0, 0.32), (1.6, 0.51), (2.4, 0.76), (3.2, 1.01), (6.5, 2.06)]


def found(rolled: list[Fraction]) -> Unlike:
    """What four tyres that are all more than nothing come to."""
    made = unlike(rolled)
    assert isinstance(made, Unlike)
    return made


def of(*rolled: str | int) -> Unlike:
    """The same, from figures."""
    return found([Fraction(one) for one in rolled])


@pytest.mark.parametrize(("depth", "change"), LOSSES)
def test_lost_tread_takes_twice_its_depth_off_the_diameter(depth: float, change: float) -> None:
    """The worked table, to its digits; taking the depth for the loss of diameter would halve it."""
    assert lost(depth, 632) == pytest.approx(change, abs=0.005)
    assert lost(depth, 632) != pytest.approx(100 * depth / 632, rel=0.1)


def test_a_quarter_inch_of_circumference_is_no_per_cent() -> None:
    """6.35 mm of 1927.3 is 0.33 % and 1.01 to 1.04 mm of tread, not the 1 % that one page equates with it."""
    limit = 100 * 6.35 / 1927.3

    assert limit == pytest.approx(0.33, abs=0.005)
    assert allowed(limit, 632) == pytest.approx(1.04, abs=0.01)
    assert allowed(100 * 6.35 / (3.14159 * 632), 632) == pytest.approx(1.01, abs=0.005)


@given(st.floats(0.01, 20), st.floats(300, 1200))
def test_the_allowed_tread_is_the_one_that_loses_so_much(depth: float, diameter: float) -> None:
    """There and back."""
    assert allowed(float(lost(depth, diameter)), diameter) == pytest.approx(depth)


def test_a_pair_counts_whole_and_a_single_tyre_half() -> None:
    """1.6 mm on 632: 0.51 % at the coupling for a pair, 0.25 % for one tyre, with 0.51 % across its axle."""
    deep, worn, diameter = Fraction(8), Fraction("6.4"), Fraction(632)
    pair = by_tread([deep, deep, worn, worn], diameter)
    single = by_tread([deep, deep, worn, deep], diameter)

    assert isinstance(pair, Unlike)
    assert isinstance(single, Unlike)
    assert (float(pair.axles), float(pair.rear)) == pytest.approx((-0.51, 0), abs=0.005)
    assert (float(single.axles), float(single.rear)) == pytest.approx((-0.25, 0.51), abs=0.005)


@pytest.mark.parametrize(
    ("rolled", "odd"),
    [
        ((1990, 2000, 2000, 2000), "front left"),
        ((2000, 1990, 2000, 2000), "front right"),
        ((2000, 2001, 1980, 2000), "rear left"),
        ((2000, 2001, 1999, 2020), "rear right"),
        ((1990, 1990, 2000, 2000), "front pair against rear pair"),
        ((1990, 2000, 1990, 2000), "left against right"),
        ((1990, 2000, 2000, 1990), "one diagonal against the other"),
        ((2000, 2000, 2000, 2000), "none: all are alike"),
        ((1980, 1990, 2000, 2010), "none alone"),
    ],
)
def test_the_odd_one_is_named(rolled: tuple[int, ...], odd: str) -> None:
    """The corner without which the others agree three times as well, else the pairs that differ."""
    assert of(*rolled).odd == odd


@given(ROLLED, st.permutations(range(4)))
def test_an_odd_corner_moves_with_its_tyre(rolled: list[Fraction], order: list[int]) -> None:
    """Swap the wheels, and the same tyre is the odd one at its new corner."""
    before = found(rolled).odd
    after = found([rolled[k] for k in order]).odd

    if before in CORNERS:
        assert after == CORNERS[order.index(CORNERS.index(before))]
    else:
        assert after not in CORNERS


@given(ROLLED)
def test_swapping_sides_does_not_reach_the_coupling(rolled: list[Fraction]) -> None:
    """Left for right on one axle: the axles see the same, that axle the opposite."""
    a, b, c, d = rolled
    before, after = found(rolled), found([b, a, c, d])

    assert after.axles == before.axles
    assert after.front == -before.front
    assert (after.rear, after.spread) == (before.rear, before.spread)


@given(ROLLED)
def test_swapping_axles_turns_the_sign(rolled: list[Fraction]) -> None:
    """Front for rear: as much, the other way."""
    a, b, c, d = rolled

    assert found([c, d, a, b]).axles == -found(rolled).axles


@given(ROLLED)
def test_crossing_the_diagonals_evens_a_pair(rolled: list[Fraction]) -> None:
    """One tyre of each pair on each axle takes all the mismatch from the coupling."""
    a, _, c, _ = rolled

    assert found([a, c, c, a]).axles == 0


@given(ROLLED, st.fractions(1, 3, max_denominator=50))
def test_the_size_of_all_does_not_matter(rolled: list[Fraction], times: Fraction) -> None:
    """Ten turns instead of one, or inches instead of mm: the same per cent."""
    assert found([times * one for one in rolled]) == found(rolled)


@given(ROLLED)
def test_no_axle_differs_more_than_the_tyres(rolled: list[Fraction]) -> None:
    """The spread bounds what any differential sees."""
    made = found(rolled)

    assert max(abs(made.axles), abs(made.front), abs(made.rear)) <= made.spread


@given(st.lists(st.fractions(0, 10, max_denominator=10), min_size=5, max_size=5, unique=True).map(sorted))
def test_more_wear_is_more_mismatch(depths: list[Fraction]) -> None:
    """A pair that wears on drives the axles further apart."""
    most = Fraction(10)
    made = [by_tread([most, most, depth, depth], Fraction(632)) for depth in reversed(depths)]
    axles = [one.axles for one in made if isinstance(one, Unlike)]

    assert all(low > high for low, high in pairwise(axles))


@pytest.mark.parametrize(
    "rolled", [[2000] * 3, [2000] * 5, [], [2000, 2000, 0, 2000], [2000, 2000, -1, 2000]]
)
def test_other_than_four_tyres_are_refused(rolled: list[int]) -> None:
    """Three tyres, or one that rolls nothing, are no vehicle."""
    assert isinstance(unlike([Fraction(one) for one in rolled]), Refusal)
