"""Jeffreys' interval and the mean of Dirichlet(1/2), against published and computed values.

Theory section 4.3: 4 of 20, 4 of 200 and 100 of 200 are published (test suite of a public statistics
package, to the places shown); the upper end of 0 of 10 is from memory and computed; the rest is computed.
"""

import pytest
from scipy.stats import beta

from engine.belief.interval import enough, interval


@pytest.mark.parametrize(
    ("found", "of", "mean", "low", "high", "tolerance"),
    [
        (4, 20, 0.214286, 0.07152005, 0.40822576, 5e-9),  # published
        (4, 200, 0.022388, 0.00678760, 0.04684657, 5e-9),  # published
        (100, 200, 0.5, 0.4311217, 0.5688783, 5e-8),  # published
        (0, 10, 0.045455, 0.0, 0.217196, 5e-7),  # convention: begins at 0; upper end computed
        (1, 10, 0.136364, 0.011012, 0.381315, 5e-7),  # computed
        (10, 10, 0.954545, 0.782804, 1.0, 5e-7),  # the mirror of 0 of 10
    ],
)
def test_the_interval_of_counts(  # noqa: PLR0917  reason: a row of a table
    found: int, of: int, mean: float, low: float, high: float, tolerance: float
) -> None:
    """Within the places that are printed."""
    told = interval(found, of)

    assert (told.low, told.high) == pytest.approx((low, high), abs=tolerance)
    assert told.mean == pytest.approx(mean, abs=5e-7)


@pytest.mark.parametrize("of", [1, 7, 30])
def test_intervals_are_those_of_an_independent_library(of: int) -> None:
    """Every count between none and all."""
    for found in range(1, of):
        wanted = beta.ppf([0.025, 0.975], found + 0.5, of - found + 0.5)
        told = interval(found, of)

        assert [told.low, told.high] == pytest.approx([*wanted])


def test_means_of_several_causes() -> None:
    """7, 2, 1, 0 of ten: 0.625, 0.208333, 0.125, 0.041667 (computed)."""
    means = [interval(found, 10, 4).mean for found in (7, 2, 1, 0)]

    assert means == pytest.approx([0.625, 0.208333, 0.125, 0.041667], abs=5e-7)


def test_nothing_counted_says_nothing() -> None:
    """From 0 to 1, and no share of the whole more likely than another."""
    assert interval(0, 0, 4) == (0, 0, 0.25, 0.0, 1.0)


@pytest.mark.parametrize(
    ("share", "within"), [(0.0715, False), (0.0716, True), (0.4082, True), (0.4083, False)]
)
def test_a_share_lies_inside_or_outside(share: float, *, within: bool) -> None:
    """Both ends of four of twenty."""
    assert interval(4, 20).holds(share) is within


@pytest.mark.parametrize("kinds", [2, 3, 8])
def test_with_enough_cases_the_half_cases_weigh_less_than_a_tenth(kinds: int) -> None:
    """Of what was counted; one case fewer for each kind, and they weigh more."""
    assert kinds / 2 / enough(kinds) <= 0.1
    assert kinds / 2 / (enough(kinds) - kinds) > 0.1
