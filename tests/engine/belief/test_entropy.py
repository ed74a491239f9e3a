"""Bits that are open, and bits that a step settles."""

from math import log2

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.belief.entropy import entropy, expected, gain
from engine.belief.evidence import table
from engine.belief.update import Belief, updated
from tests.engine.belief.small_steps import Rows, ask, beliefs, fits


@pytest.mark.parametrize("count", [1, 2, 8, 30])
def test_equal_shares_have_the_most_bits(count: int) -> None:
    """log2(n) for n that are equally probable."""
    assert entropy((1 / count,) * count) == pytest.approx(log2(count))


def test_who_is_ruled_out_opens_nothing() -> None:
    """0 log 0 is 0."""
    assert entropy((0.5, 0, 0.5)) == 1


@given(st.data())
def test_expected_entropy_is_the_mean_over_the_answers(data: st.DataObject) -> None:
    """Each answer as often as it is met, with the entropy of the belief after it."""
    belief, said = data.draw(beliefs()), data.draw(fits())
    step = table(ask(*said), belief.suspects)
    total = 0.0
    for row in step:
        met = sum(share * likely for share, likely in zip(belief.shares, row, strict=True))
        if met:
            total += met * entropy(updated(belief, row).shares)
    assert expected(belief, step) == pytest.approx(total, abs=1e-9)


@given(beliefs(), fits())
def test_no_step_settles_less_than_nothing(belief: Belief, said: Rows) -> None:
    """Nor more than is open."""
    settled = gain(belief, table(ask(*said), belief.suspects))
    assert 0 <= settled <= entropy(belief.shares) + 1e-12


def test_step_that_says_nothing_settles_nothing() -> None:
    """It has no table."""
    assert gain(Belief(("shaft", "elsewhere"), (0.5, 0.5)), ()) == 0
