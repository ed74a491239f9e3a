"""Values of public standards and tables, each beside its source, within the tolerance it was printed with."""

from math import inf, nan

import pytest

from engine.decision.conformity import conformity
from engine.decision.guard import guard
from engine.decision.normal import quantile
from engine.decision.risk import (
    Interval,
    Prior,
    gamma,
    guard_for,
    nonconforming,
    normal,
    overall,
    specific,
)

# Marks: published (seen in print), memory (inputs or value recalled), computed (independently, elsewhere).

RESISTORS = normal(1500, 0.12)
BEARINGS = gamma(4, 1 / 4)


@pytest.mark.parametrize(
    ("probability", "z"),
    [(0.80, 0.8416), (0.90, 1.2816), (0.95, 1.6449), (0.99, 2.3263), (0.999, 3.0902)],
)
def test_one_limit_needs_this_many_standard_uncertainties(probability: float, z: float) -> None:
    """JCGM 106:2012, 7.3.3 (table of z for one limit), computed, to 4 decimals."""
    found = quantile(probability)

    assert found == pytest.approx(z, abs=5e-5)


@pytest.mark.parametrize(
    ("value", "uncertainty", "low", "high", "conform", "tolerance"),
    [
        # JCGM 106:2012, 7.3.3, example 1: breakdown voltage; inputs from memory, computed
        (-5.47, 0.05, None, -5.40, 0.919243, 5e-7),
        # JCGM 106:2012, 7.3.3, example 2: burst strength; inputs from memory, computed
        (509.7, 8.6, 490, None, 0.989010, 5e-7),
        # speed enforcement: 100 km/h, 2 % of the value, 99.9 %; memory and computed
        (106.588, 0.02 * 106.588, 100, None, 0.999, 5e-6),
        # item N(mu, 0.4), limits 9 and 11, part out of tolerance; published to 5 decimals
        (10, 0.4, 9, 11, 1 - 0.01242, 5e-6),
        (10.5, 0.4, 9, 11, 1 - 0.10574, 5e-6),
        (12, 0.4, 9, 11, 1 - 0.99379, 5e-6),
    ],
)
def test_probability_of_conformity(
    *,
    value: float,
    uncertainty: float,
    low: float | None,
    high: float | None,
    conform: float,
    tolerance: float,
) -> None:
    """A value, its standard uncertainty and the limits give the printed probability."""
    found = conformity(value, uncertainty, low, high)

    assert found == pytest.approx(conform, abs=tolerance)


@pytest.mark.parametrize(
    ("prior", "uncertainty", "tolerance", "guarded", "consumer", "producer", "within"),
    [
        # JCGM 106:2012, 9.5.3 resistors, guard 0.02: inputs published, computed to 6 decimals
        (RESISTORS, 0.04, (1499.8, 1500.2), 0.02, 0.009878, 0.069027, 1e-6),
        # the same as the standard prints it; memory
        (RESISTORS, 0.04, (1499.8, 1500.2), 0.02, 0.01, 0.07, 5e-3),
        # without guard bands, and relaxed; computed
        (RESISTORS, 0.04, (1499.8, 1500.2), 0, 0.018942, 0.037208, 1e-6),
        (RESISTORS, 0.04, (1499.8, 1500.2), -0.02, 0.031145, 0.017554, 1e-6),
        # JCGM 106:2012, 9.5.4 ball bearings: consumer published, producer computed
        (BEARINGS, 0.25, (-inf, 2), 0, 0.00801911, 0.0174446, 5e-8),
        # limit 1.6718288 published; producer computed
        (BEARINGS, 0.25, (-inf, 2), 0.3281712, 0.001, 0.0754939, 5e-8),
        # Deaver, "How to maintain confidence": test ratio 4; published 0.008 and 0.015, computed further
        (normal(0, 1), 1 / 4, (-2, 2), 0, 0.0080061, 0.0148509, 5e-7),
        (normal(0, 1), 1 / 4, (-2.5, 2.5), 0, 0.0024453, 0.0053194, 5e-7),
    ],
)
def test_global_risks(
    *,
    prior: Prior,
    uncertainty: float,
    tolerance: Interval,
    guarded: float,
    consumer: float,
    producer: float,
    within: float,
) -> None:
    """A process, a test and its limits give the printed risks."""
    accepted = (tolerance[0] + guarded, tolerance[1] - guarded)

    found = overall(prior, uncertainty, tolerance, accepted)

    assert (found.consumer, found.producer) == pytest.approx((consumer, producer), abs=within)


@pytest.mark.parametrize(
    ("share", "accepted_bad", "of_accepted", "rejected_good"),
    [
        (0.60, 4.838603, 8.260082, 6.260453),
        (0.80, 2.855830, 3.632271, 4.232016),
        (0.95, 0.871009, 0.923897, 1.595394),
    ],
)
def test_risks_by_the_share_in_tolerance(
    share: float, accepted_bad: float, of_accepted: float, rejected_good: float
) -> None:
    """Public test suite held against a draft of NCSLI RP-19; within 2e-6 %; the last column computed."""
    deviation = 1 / quantile((1 + share) / 2)

    found = overall(normal(0, deviation), deviation / 4, (-1, 1), (-1, 1))

    assert [
        100 * found.consumer,
        100 * found.consumer / found.accepted,
        100 * found.producer,
    ] == pytest.approx([accepted_bad, of_accepted, rejected_good], abs=2e-6)


def test_nonconforming_bearings_without_inspection() -> None:
    """JCGM 106:2012, 9.5.4: 0.0423801 of the bearings exceed 2 micrometres; published."""
    found = nonconforming(BEARINGS, (-inf, 2))

    assert found == pytest.approx(0.0423801, abs=5e-8)


def test_share_of_resistors_in_tolerance() -> None:
    """JCGM 106:2012, 9.5.3: 0.904419 of the resistors conform; computed, printed as 0.90."""
    found = 1 - nonconforming(RESISTORS, (1499.8, 1500.2))

    assert found == pytest.approx(0.904419, abs=5e-7)


def test_guard_band_for_a_consumer_risk() -> None:
    """JCGM 106:2012, 9.5.4: risk 0.001 takes a guard band of 0.3281712; published."""
    found = guard_for(0.001, BEARINGS, 0.25, (-inf, 2))

    assert found == pytest.approx(0.3281712, abs=5e-8)


def test_guard_band_of_the_expanded_uncertainty() -> None:
    """ILAC-G8:09/2019: w = U (k = 2) at one limit accepts a bad part by at most 2.275 %; published."""
    found = specific(-2.0, 1.0, (-inf, 0), (-inf, -2.0))

    assert found.consumer == pytest.approx(0.02275, abs=5e-6)


def test_simple_acceptance() -> None:
    """ILAC-G8:09/2019: without a guard band a bad part is accepted by at most 50 %; published."""
    found = specific(0.0, 1.0, (-inf, 0), (-inf, 0))

    assert found.consumer == pytest.approx(0.5)


def test_guard_band_of_95_percent() -> None:
    """ISO 14253-1: 95 % at one limit takes 1.644854 u, 0.822427 of U with k = 2; computed."""
    expanded = 2.0

    assert guard(1.0) / expanded == pytest.approx(0.822427, abs=5e-7)


@pytest.mark.parametrize("probability", [-0.1, 1.1, nan])
def test_no_quantile_outside_probabilities(probability: float) -> None:
    """What is no probability has no quantile."""
    with pytest.raises(ValueError, match="no probability"):
        quantile(probability)


def test_no_risks_without_uncertainty() -> None:
    """Risks of a perfect gauge are refused, not divided by zero."""
    with pytest.raises(ValueError, match="Without uncertainty"):
        overall(BEARINGS, 0, (0, 2), (0, 2))
