"""From what a step says in `fits` to how probable a sign is under each suspect."""

from fractions import Fraction
from typing import Final

import pytest
from hypothesis import given

from engine.belief.evidence import met, read, table
from engine.belief.shares import rows, shares
from engine.model.tree import ELSEWHERE, Do
from tests.engine.belief.small_steps import HERE, NAMES, Rows, ask, fits, measure, run

EVERY: Final = (*NAMES, ELSEWHERE)
NINE: Final = {"shaft": Fraction(9, 10)}


def test_answer_is_met_as_often_as_it_says() -> None:
    """And who is left out meets each answer equally often, something else among them."""
    assert met(ask(NINE, {}), EVERY, 0) == (0.9, 0.5, 0.5, 0.5, 0.5)


def test_other_answers_share_the_rest() -> None:
    """What 0.9 leaves of 1 is split over two."""
    assert met(ask(NINE, {}, {}), EVERY, 2)[0] == pytest.approx(0.05)


def test_step_may_say_what_something_else_does() -> None:
    """`elsewhere` in `fits` is a suspect like the others."""
    assert met(ask({ELSEWHERE: Fraction(1, 5)}, {}), EVERY, 1)[-1] == 0.8


def test_step_that_says_nothing_is_no_sign() -> None:
    """Every suspect meets its answers alike."""
    assert met(ask({}, {}), EVERY, 1) == (1, 1, 1, 1, 1)


def test_thing_done_is_no_sign() -> None:
    """A step to do has no ways to choose from."""
    step = Do(name="drive", place=HERE, text="Drive.", then="end")
    assert (table(step, EVERY), met(step, EVERY, 0)) == ((), (1, 1, 1, 1, 1))


def test_outcome_is_a_sign_where_the_run_says_so() -> None:
    """The outcomes stand in the order of the tree."""
    step = run(raised=NINE, cannot={})
    assert (met(step, EVERY, 0)[0], met(step, EVERY, 1)[0]) == pytest.approx((0.9, 0.1))


def test_outcome_is_no_sign_otherwise() -> None:
    """A run that says nothing of any suspect has no table."""
    assert table(run(raised={}, cannot={}), EVERY) == ()


def test_reading_far_from_the_limit_is_its_band() -> None:
    """All of its probability lies there."""
    step = measure(NINE, {})
    assert read(step, EVERY, (1, 0)) == met(step, EVERY, 0)


def test_reading_on_the_limit_speaks_for_both_bands() -> None:
    """Half of 0.9 and half of 0.1: it tells nothing of the shaft."""
    assert read(measure(NINE, {}), EVERY, (0.5, 0.5)) == pytest.approx((0.5,) * 5)


def test_reading_near_the_limit_speaks_less() -> None:
    """Three parts in four lie in the band: 0.75 x 0.9 + 0.25 x 0.1."""
    assert read(measure(NINE, {}), EVERY, (0.75, 0.25))[0] == pytest.approx(0.7)


def test_reading_of_a_step_that_says_nothing_is_no_sign() -> None:
    """However probable its bands."""
    assert read(measure({}, {}), EVERY, (0.75, 0.25)) == (1, 1, 1, 1, 1)


@given(fits())
def test_table_is_the_exact_shares(said: Rows) -> None:
    """To the last places of a float, whatever is said or left out."""
    step = ask(*said)
    for suspect, column in zip(EVERY, zip(*table(step, EVERY), strict=True), strict=False):
        assert column == pytest.approx([float(share) for share in shares(rows(step), suspect)], abs=1e-12)


@given(fits())
def test_shares_of_a_suspect_add_up_to_one(said: Rows) -> None:
    """Exactly, even where what is said does not."""
    assert all(sum(shares(said, suspect)) == 1 for suspect in EVERY)
