"""Verdicts that come back: what comes back, what is known of whom, and in which order it is told."""

from datetime import datetime, timedelta

import pytest

from engine.belief.confirmed import Ended
from engine.belief.interval import interval
from engine.belief.returns import came_back, returns
from tests.engine.belief.counted import DAY, case

SOON = DAY + timedelta(days=1)
LATER = DAY + timedelta(days=91)


def test_what_is_said_not_to_be_fixed_came_back() -> None:
    """By word, whatever the label."""
    assert came_back([case("a", fixed=False), case("b"), case("c", fixed=None)]) == {"a"}


@pytest.mark.parametrize(("days", "back"), [(0, set()), (1, {"a"}), (90, {"a"}), (91, set())])
def test_the_same_vehicle_soon_again_came_back(days: int, back: set[str]) -> None:
    """The same label with the same complaint, opened after the first and within 90 days of its verdict."""
    assert came_back([case("a", label="HP-1"), case("b", label="HP-1", day=days)]) == back


def test_days_count_from_the_verdict() -> None:
    """A case that lay open for two months is not what the vehicle came back from."""
    long = case("a", label="HP-1")._replace(concluded=DAY + timedelta(days=60))

    assert came_back([long, case("b", label="HP-1", day=140)]) == {"a"}
    assert came_back([long, case("b", label="HP-1", day=59)]) == frozenset()


@pytest.mark.parametrize("label", ["hp 118", " HP  118 ", "Hp 118"])
def test_a_label_is_known_again_however_it_is_typed(label: str) -> None:
    """Case and blanks are no other vehicle."""
    assert came_back([case("a", label="HP 118"), case("b", label=label, day=3)]) == {"a"}


@pytest.mark.parametrize(
    "other",
    [
        case("b", label="HP-2", day=3),
        case("b", label="HP-1", day=3)._replace(tree="other"),
        case("b", label="HP-1", day=3)._replace(vehicle="coupe"),
        case("b", label="HP-1", day=3)._replace(opened=None),
    ],
    ids=["label", "complaint", "vehicle", "no time"],
)
def test_another_matter_is_no_return(other: Ended) -> None:
    """Another vehicle, another complaint, or nobody knows when."""
    assert came_back([case("a", label="HP-1"), other]) == frozenset()


def test_without_a_label_nobody_is_known_again() -> None:
    """Two cases without one are two vehicles."""
    assert came_back([case("a"), case("b", day=1)]) == frozenset()


@pytest.mark.parametrize(
    ("one", "now", "counted"),
    [
        (case("a"), SOON, True),
        (case("a", fixed=False), SOON, True),
        (case("a", fixed=None, label="HP-1"), SOON, False),
        (case("a", fixed=None, label="HP-1"), LATER, True),
        (case("a", fixed=None), LATER, False),
        (case("a", fixed=None, label="HP-1")._replace(concluded=None), LATER, False),
    ],
    ids=["fixed", "not fixed", "too young", "stayed away", "no label", "no time"],
)
def test_only_cases_whose_end_is_known_are_counted(one: Ended, now: datetime, *, counted: bool) -> None:
    """Who said nothing, and could not have been known again, is no proof that it held."""
    assert [(back.cases.of, back.open) for back in returns([one], now)] == [(counted, not counted)]


def test_each_verdict_stands_with_its_interval_the_surest_to_come_back_first() -> None:
    """Three of four before one of one: of few cases little is known."""
    often = [case(f"o{k}", fixed=k == 3) for k in range(4)]
    once = case("d", fixed=False, sign=1)
    told = returns([once, *often], SOON)

    assert [(back.step, back.verdict, back.cases) for back in told] == [
        ("shaft", "The shaft", interval(3, 4)),
        ("dead", "The coupling", interval(1, 1)),
    ]


def test_a_verdict_that_refers_promises_nothing() -> None:
    """It is left out; a vehicle that comes again after it has not come back."""
    sent = case("a", fixed=None, label="HP-1", grade="refer")

    assert [back.cases for back in returns([sent, case("b", label="HP-1", day=3)], SOON)] == [interval(0, 1)]


def test_the_same_step_of_two_trees_is_two_verdicts() -> None:
    """A step's name is its tree's own."""
    told = returns([case("a"), case("b")._replace(tree="other")], SOON)

    assert [(back.tree, back.cases.of) for back in told] == [("bench", 1), ("other", 1)]
