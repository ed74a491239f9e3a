"""The beta distribution against an independent library."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from engine.beta import below, quantile

SHAPES = st.floats(0.3, 500)


@given(st.floats(0, 1), SHAPES, SHAPES)
def test_it_agrees_with_an_independent_library(x: float, a: float, b: float) -> None:
    """Any share, any shape."""
    assert below(x, a, b) == pytest.approx(float(stats.beta.cdf(x, a, b)), rel=1e-8, abs=1e-12)


@given(st.floats(0.001, 0.999), SHAPES, SHAPES)
def test_the_quantile_is_the_share_with_so_much_below_it(probability: float, a: float, b: float) -> None:
    """There and back."""
    assert below(quantile(probability, a, b), a, b) == pytest.approx(probability, abs=1e-9)


def test_nothing_lies_outside() -> None:
    """No share is below 0 or above 1."""
    assert (below(-1, 2, 3), below(2, 2, 3)) == (0, 1)
    assert (quantile(0, 2, 3), quantile(1, 2, 3)) == (0, 1)


def test_what_is_no_distribution_is_told() -> None:
    """Shapes above zero, probabilities from 0 to 1."""
    with pytest.raises(ValueError, match="no beta"):
        below(0.5, 0, 1)
    with pytest.raises(ValueError, match="no probability"):
        quantile(1.5, 1, 1)
