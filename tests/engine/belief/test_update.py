"""What is believed before any evidence, and after each sign."""

from fractions import Fraction
from math import inf, nan
from typing import Final

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.belief.update import Belief, prior, updated
from engine.model.tree import ELSEWHERE
from tests.engine.belief.small_steps import beliefs, likelihoods

WEIGHTS: Final = {"shaft": Fraction(2), "gear": Fraction(1), "coupling": Fraction(5)}


def test_suspects_stand_in_the_order_of_the_tree() -> None:
    """And something else is the last."""
    assert prior(WEIGHTS).suspects == ("shaft", "gear", "coupling", ELSEWHERE)


def test_something_else_weighs_as_the_lightest_suspect() -> None:
    """Where the tree does not say: 1 of 9."""
    assert prior(WEIGHTS).shares == pytest.approx((2 / 9, 1 / 9, 5 / 9, 1 / 9))


def test_prior_does_not_depend_on_the_scale_of_the_weights() -> None:
    """A hundredfold of every weight is the same prior, bit for bit."""
    assert prior({name: weight * 100 for name, weight in WEIGHTS.items()}) == prior(WEIGHTS)


def test_tree_sets_the_weight_of_something_else() -> None:
    """2 beside 8 is a fifth."""
    assert prior(WEIGHTS, Fraction(2)).share(ELSEWHERE) == 1 / 5


@pytest.mark.parametrize(
    ("weights", "elsewhere"),
    [({}, None), ({"shaft": Fraction(0)}, None), ({"shaft": Fraction(1)}, Fraction(0))],
    ids=["nobody", "a suspect without weight", "something else without weight"],
)
def test_prior_needs_weights(weights: dict[str, Fraction], elsewhere: Fraction | None) -> None:
    """Whatever the weights of nobody would make is refused."""
    with pytest.raises(ValueError, match=r"needs a suspect|over 0"):
        prior(weights, elsewhere)


@pytest.mark.parametrize("wrong", [-0.1, nan, inf])
def test_likelihood_is_a_number_from_0_on(wrong: float) -> None:
    """Anything else is refused, and not believed."""
    with pytest.raises(ValueError, match="from 0 on"):
        updated(prior({"shaft": Fraction(1)}), (wrong, 1))


def test_every_suspect_needs_a_likelihood() -> None:
    """A list that is too short is refused."""
    with pytest.raises(ValueError, match="shorter"):
        updated(prior(WEIGHTS), (1, 1, 1))


@pytest.mark.parametrize("likely", [(0, 0, 0, 0.25), (0, 0, 0, 0)], ids=["something else may", "nothing may"])
def test_signs_that_rule_all_out_leave_something_else(likely: tuple[float, ...]) -> None:
    """No division by zero: something else has it all, and the contradiction is told."""
    assert updated(prior(WEIGHTS), likely) == Belief((*WEIGHTS, ELSEWHERE), (0, 0, 0, 1), contradicted=True)


def test_contradiction_stays() -> None:
    """Later signs cannot bring back who was ruled out."""
    after = updated(updated(prior(WEIGHTS), (0, 0, 0, 1)), (1, 1, 1, 0))
    assert (after.contradicted, after.share(ELSEWHERE)) == (True, 1)


def test_one_suspect_left_is_no_contradiction() -> None:
    """Even where something else is ruled out."""
    after = updated(prior(WEIGHTS), (0, 0.001, 0, 0))
    assert (after.contradicted, after.share("gear")) == (False, 1)


@given(st.data())
def test_shares_add_up_to_one(data: st.DataObject) -> None:
    """After any number of signs."""
    belief = data.draw(beliefs())
    for _ in range(data.draw(st.integers(0, 20))):
        belief = updated(belief, data.draw(likelihoods(belief)))
    assert sum(belief.shares) == pytest.approx(1, abs=1e-12)


@given(st.data())
def test_order_of_signs_does_not_matter(data: st.DataObject) -> None:
    """Forwards and in any other order the same is believed."""
    belief = data.draw(beliefs())
    signs = data.draw(st.lists(likelihoods(belief), min_size=2, max_size=6))
    one = other = belief
    for sign in signs:
        one = updated(one, sign)
    for sign in data.draw(st.permutations(signs)):
        other = updated(other, sign)
    assert one.shares == pytest.approx(other.shares, rel=1e-9)


@given(st.data())
def test_only_ratios_of_likelihoods_count(data: st.DataObject) -> None:
    """A sign that is half as common under every suspect says the same."""
    belief = data.draw(beliefs())
    sign = data.draw(likelihoods(belief))
    halved = [likely / 2 for likely in sign]
    assert updated(belief, sign).shares == pytest.approx(updated(belief, halved).shares, rel=1e-12)
