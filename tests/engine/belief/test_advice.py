"""What a test is worth a minute, and whether a repair is made before testing on."""

from typing import Final

import pytest

from engine.belief.advice import Open, Worth, swap, to_verdict, worth
from engine.belief.entropy import gain
from engine.belief.update import Belief

TWO: Final = Belief(("shaft", "tyre", "elsewhere"), (0.5, 0.5, 0.0))
SURE: Final = ((1.0, 0.0, 0.5), (0.0, 1.0, 0.5))
VAGUE: Final = ((0.6, 0.4, 0.5), (0.4, 0.6, 0.5))


def test_most_a_minute_comes_first() -> None:
    """A vague test of one minute (0.029 bits, by hand 1 - 0.971) before a sure one of forty (0.025)."""
    found = worth(TWO, [Open("sure", 40, SURE), Open("vague", 1, VAGUE)])

    assert [one.name for one in found] == ["vague", "sure"]
    assert found[0].bits == pytest.approx(0.029, abs=5e-4)
    assert (found[1].bits, found[1].part, found[1].rate) == (1.0, 1.0, 0.025)


def test_what_tells_nothing_is_left_out() -> None:
    """Neither a step without a table nor one that all meet alike."""
    assert worth(TWO, [Open("none", 1, ()), Open("alike", 1, ((0.5,) * 3, (0.5,) * 3))]) == ()


def test_nothing_is_worth_anything_to_who_is_certain() -> None:
    """No bits are open, and none is divided by."""
    assert worth(Belief(("shaft", "elsewhere"), (1.0, 0.0)), [Open("look", 1, ((1, 0), (0, 1)))]) == ()


def test_test_without_minutes_counts_as_one() -> None:
    """Or it would be worth any price."""
    assert Worth("look", 0, 0.5, 0.5).rate == 0.5


@pytest.mark.parametrize(("bits", "table"), [(1.0, SURE), (0.029, VAGUE)])
def test_bits_are_the_gain(bits: float, table: tuple[tuple[float, ...], ...]) -> None:
    """The same that one step of looking ahead finds."""
    assert gain(TWO, table) == pytest.approx(bits, abs=5e-4)


def test_minutes_to_a_verdict_are_the_mean() -> None:
    """Half of 10 and half of 30; what is ruled out does not count."""
    assert to_verdict(TWO, (10, 30, 1000)) == 20


@pytest.mark.parametrize(
    ("share", "repair", "lost", "saved", "pays"),
    [(0.9, 30, 3, 18, True), (0.5, 30, 15, 10, False), (0.6, 30, 12, 12, False)],
)
def test_repair_before_testing_on(
    share: float, repair: float, lost: float, saved: float, pays: object
) -> None:
    """With 20 minutes of tests ahead: in vain 1 - p of the repair is lost, else p of the tests is saved."""
    found = swap(Belief(("shaft", "elsewhere"), (share, 1 - share)), (20, 20), {"shaft": repair})

    assert found is not None
    assert (found.lost, found.saved) == pytest.approx((lost, saved))
    assert found.pays is pays or share == 0.6


def test_repair_that_saves_most_is_the_one() -> None:
    """Of two equally probable ones the shorter."""
    found = swap(TWO, (20, 20, 20), {"shaft": 30, "tyre": 8})

    assert found is not None
    assert found.suspect == "tyre"


def test_no_minutes_of_repair_no_word_of_it() -> None:
    """Nothing can be said."""
    assert swap(TWO, (20, 20, 20), {}) is None
