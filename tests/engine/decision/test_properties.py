"""What holds for every reading, with scipy as the judge of the numbers."""

from fractions import Fraction
from math import exp, inf, sqrt

import pytest
from hypothesis import given
from hypothesis import strategies as some
from scipy import integrate, stats

from engine.decision.conformity import conformity, shares
from engine.decision.estimate import CRITICAL_RANGE, estimate, single
from engine.decision.finer import gauge_needed, readings_needed, uncertainty_needed
from engine.decision.guard import acceptance, guard
from engine.decision.normal import below, between, density, quantile
from engine.decision.risk import gamma, overall, specific
from engine.quadrature import integral

values = some.floats(-50, 50)
sizes = some.floats(0.01, 20)
BANDS = ((None, 10.0), (10.0, 12.0), (12.0, None))


@given(some.floats(-37, 37))
def test_the_normal_distribution(z: float) -> None:
    """Distribution and density are those of scipy, far out as well."""
    assert below(z) == pytest.approx(stats.norm.cdf(z), rel=1e-11)
    assert density(z) == pytest.approx(stats.norm.pdf(z), rel=1e-11)


@given(some.floats(1e-12, 1 - 1e-12))
def test_the_quantile(probability: float) -> None:
    """Quantiles are those of scipy."""
    assert quantile(probability) == pytest.approx(stats.norm.ppf(probability), rel=1e-9, abs=1e-11)


def test_far_stretches_keep_their_digits() -> None:
    """Far to the right, a stretch has the probability of its image to the left, and not zero."""
    assert between(9, 10) == between(-10, -9) > 0


@given(values, sizes)
def test_bands_share_the_whole(value: float, uncertainty: float) -> None:
    """The probabilities of the bands are one in sum."""
    assert sum(shares(value, uncertainty, BANDS, 0)) == pytest.approx(1)


@given(values, sizes, some.floats(0, 10))
def test_probability_falls_towards_a_limit(value: float, uncertainty: float, further: float) -> None:
    """A larger reading is never surer of lying below an upper limit."""
    nearer = conformity(value + further, uncertainty, None, 10)

    assert nearer <= conformity(value, uncertainty, None, 10)


@given(values, sizes)
def test_probability_is_symmetric(value: float, uncertainty: float) -> None:
    """Seen in a mirror, a reading and its limits have the same probability."""
    mirrored = conformity(-value, uncertainty, -12, -10)

    assert mirrored == pytest.approx(conformity(value, uncertainty, 10, 12), abs=1e-15)


@given(some.floats(-50, 9.9), sizes)
def test_a_finer_gauge_is_surer(value: float, uncertainty: float) -> None:
    """Inside its band, a reading is surer with less uncertainty."""
    rough = shares(value, uncertainty, BANDS, 0)[0]

    assert shares(value, uncertainty / 2, BANDS, 0)[0] >= rough - 1e-12


@given(some.floats(0.5, 9.9), some.floats(0.6, 0.999))
def test_the_uncertainty_needed_just_does(value: float, confidence: float) -> None:
    """What is said to be needed decides, and one percent more does not."""
    needed = uncertainty_needed(value, BANDS, 0, confidence)

    assert shares(value, needed, BANDS, 0)[0] >= confidence > shares(value, needed * 1.01, BANDS, 0)[0]


def test_nothing_decides_on_a_limit() -> None:
    """A value on the limit itself is decided by no gauge."""
    assert uncertainty_needed(10, BANDS, 0, 0.95) == 0


def test_one_band_needs_no_gauge() -> None:
    """Where there is one band only, anything decides."""
    assert uncertainty_needed(10, ((None, None),), 0, 0.95) == inf


def test_how_many_readings_do() -> None:
    """Three more readings, four in all, halve an uncertainty that shrinks with the root."""
    assert readings_needed(1, lambda n: 1 / sqrt(n), 0.5) == 3


def test_more_than_ten_readings_are_not_asked_for() -> None:
    """Where ten readings would not do, no number is said."""
    assert readings_needed(1, lambda n: 1 / sqrt(n), 0.3) is None


@given(sizes)
def test_the_gauge_needed_just_does(needed: float) -> None:
    """A gauge that scatters by its own step comes to just the uncertainty needed."""
    step = gauge_needed(needed)

    assert single(step, step) == pytest.approx(needed)


def test_no_uncertainty_decides_by_the_limit() -> None:
    """Without uncertainty the band that was chosen has all the probability."""
    assert shares(10, 0, BANDS, 1) == (0, 1, 0)


def test_no_band_for_miles_around() -> None:
    """Where no band has any probability left, the chosen one has all of it."""
    assert shares(1000, 0.1, [(None, 10), (10, 12)], 1) == (0, 1)


@pytest.mark.parametrize(("count", "factor"), CRITICAL_RANGE.items())
def test_critical_ranges(count: int, factor: float) -> None:
    """ISO 5725-6, table 1: 95 % quantiles of the range of n normal values, to three decimals."""
    assert factor == pytest.approx(stats.studentized_range.ppf(0.95, count, inf), abs=1e-3)


def test_repeats_are_averaged() -> None:
    """Readings that agree give their exact mean, and their scatter shrinks with the root of their number."""
    found = estimate([Fraction(12), Fraction(13)], 0.5, 1)

    assert (found.value, found.apart) == (Fraction(25, 2), False)
    assert found.uncertainty == pytest.approx(sqrt(max(0.5, sqrt(0.5)) ** 2 / 2 + 1 / 12))


def test_a_stray_reading_does_not_move_the_value() -> None:
    """Readings further apart than the critical range are told, and their median stands for them."""
    found = estimate([Fraction(12), Fraction(12), Fraction(21)], 0.5, 1)

    assert (found.value, found.apart) == (Fraction(12), True)


def test_nothing_read_is_no_estimate() -> None:
    """Without a reading there is nothing to say."""
    with pytest.raises(ValueError, match="Nothing"):
        estimate([], 0.5, 1)


@given(some.lists(some.fractions(0, 100, max_denominator=10), min_size=1, max_size=10), sizes, sizes)
def test_repeats_in_any_order(readings: list[Fraction], gauge: float, step: float) -> None:
    """The order of readings does not matter, and their value lies among them."""
    found = estimate(readings, gauge, step)

    assert found == estimate(sorted(readings), gauge, step)
    assert min(readings) <= found.value <= max(readings)


def test_the_quadrature() -> None:
    """An integral over many panels is that of scipy."""
    found = integral(lambda x: exp(-x * x), 0, 3, panels=15)

    assert found == pytest.approx(integrate.quad(lambda x: exp(-x * x), 0, 3)[0], abs=1e-12)


def test_global_risks_by_another_quadrature() -> None:
    """The risks of a gamma process are those that scipy integrates."""
    prior, process = gamma(3, 0.4), stats.gamma(3, scale=0.4)
    consumer = integrate.quad(lambda x: process.pdf(x) * stats.norm.cdf((1.8 - x) / 0.2), 2, 12)[0]

    found = overall(prior, 0.2, (-inf, 2), (-inf, 1.8))

    assert found.consumer == pytest.approx(consumer, rel=1e-7)


def test_a_rejected_reading_risks_what_is_good() -> None:
    """Outside the limits, only the producer has a risk."""
    found = specific(11, 1, (-inf, 10), (-inf, 10))

    assert found == pytest.approx((0, 1 - stats.norm.cdf(1), 0))


def test_guard_bands_may_leave_nothing() -> None:
    """Limits nearer together than their guard bands accept no reading."""
    assert acceptance(10, 12, guard(1.0)) is None
