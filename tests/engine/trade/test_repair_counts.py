"""Shares from counts against published intervals and an independent library."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from engine.errors import Refusal
from engine.quantity import Quantity
from engine.trade.calculator import Sum, compute
from engine.trade.registry import find
from engine.trade.repair_counts import PRIORS, Share, share, shares

#: Found, of, Jeffreys mean, interval of 95 %, Laplace mean, tolerance of the interval. Intervals of the first
#: three: published, from the test values of a public statistics package; the rest computed.
COUNTS = [
    (4, 20, 0.214286, 0.07152005, 0.40822576, 0.227273, 5e-9),
    (4, 200, 0.022388, 0.00678760, 0.04684657, 0.024752, 5e-9),
    (100, 200, 0.5, 0.4311217, 0.5688783, 0.5, 5e-8),
    (0, 10, 0.045455, 0, 0.217196, 0.083333, 5e-7),
    (1, 10, 0.136364, 0.011012, 0.381315, 0.166667, 5e-7),
]
CASES = st.integers(1, 400).flatmap(lambda of: st.tuples(st.integers(0, of), st.just(of)))


def made(value: Share | Refusal) -> Share:
    """The share, where it is not refused."""
    assert isinstance(value, Share)
    return value


@pytest.mark.parametrize("row", COUNTS, ids=lambda row: f"{row[0]} of {row[1]}")
def test_a_share_from_counts(row: tuple[float, ...]) -> None:
    """Mean and interval within what is printed."""
    found, of, jeffreys, low, high, laplace, tolerance = row
    one, other = made(share(found, of)), made(share(found, of, prior="laplace"))

    assert (one.mean / 100, other.mean / 100) == pytest.approx((jeffreys, laplace), abs=5e-7)
    assert (one.low / 100, one.high / 100) == pytest.approx((low, high), abs=tolerance)


def test_a_bound_from_above_only() -> None:
    """100 of 200: at most 0.5578862 with 95 % (published)."""
    assert made(share(100, 200)).most / 100 == pytest.approx(0.5578862, abs=5e-8)


def test_what_was_found_always_or_never_has_one_bound() -> None:
    """By the convention, the interval goes to its end."""
    assert made(share(0, 10)).low == 0
    assert made(share(10, 10)).high == 100


@given(CASES, st.floats(60, 99.9), st.sampled_from(sorted(PRIORS)))
def test_the_interval_agrees_with_an_independent_library(
    counts: tuple[int, int], confidence: float, prior: str
) -> None:
    """Equal tails of the beta distribution."""
    found, of = counts
    c, tail = PRIORS[prior], (1 - confidence / 100) / 2
    expected = stats.beta.ppf([tail, 1 - tail, 1 - 2 * tail], found + c, of - found + c)
    answer = made(share(found, of, confidence, prior))

    assert answer.most / 100 == pytest.approx(float(expected[2]), rel=1e-7)
    assert not found or answer.low / 100 == pytest.approx(float(expected[0]), rel=1e-7)
    assert found == of or answer.high / 100 == pytest.approx(float(expected[1]), rel=1e-7)


@given(CASES)
def test_what_is_left_is_the_share_of_the_rest(counts: tuple[int, int]) -> None:
    """Found and not found mirror each other."""
    found, of = counts
    one, rest = made(share(found, of)), made(share(of - found, of))

    assert one.mean + rest.mean == pytest.approx(100)
    assert one.low + rest.high == pytest.approx(100)


def test_several_causes() -> None:
    """7, 2, 1 and 0: 0.625, 0.208333, 0.125 and 0.041667 (computed)."""
    assert shares([7, 2, 1, 0]) == pytest.approx((62.5, 20.8333, 12.5, 4.1667), abs=5e-5)


@given(st.lists(st.integers(0, 100), min_size=2, max_size=10), st.sampled_from(sorted(PRIORS)))
def test_the_causes_share_the_whole(counts: list[int], prior: str) -> None:
    """And none is impossible, found or not."""
    found = shares(counts, prior)

    assert not isinstance(found, Refusal)
    assert sum(found) == pytest.approx(100)
    assert min(found) > 0


@pytest.mark.parametrize("refusal", [share(5, 4), share(1.5, 4), share(0, 0), shares([1, -1]), shares([0.5])])
def test_what_cannot_be_counted_is_refused(refusal: object) -> None:
    """Whole numbers, and no more found than there were."""
    assert isinstance(refusal, Refusal)


def test_shares_at_the_door() -> None:
    """A list in, a list out."""
    calculator = find("repair-shares")
    assert calculator is not None

    told = compute(calculator, {"counts": "7,2,1,0"})

    assert isinstance(told, Sum)
    values = told.outputs["shares"]
    assert isinstance(values, tuple)
    assert [round(float(one.value), 1) for one in values if isinstance(one, Quantity)] == [
        62.5,
        20.8,
        12.5,
        4.2,
    ]
