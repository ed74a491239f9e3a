"""What confirmed cases say of a tree: weights and signs beside the author's, and what is proposed."""

import re
from fractions import Fraction

import pytest

from engine.belief.interval import enough
from engine.belief.learned import learned, proposed, signs_proposed
from tests.engine.belief.counted import HELD, TREE, case
from tests.engine.interview.given import library


def test_weights_are_counted_beside_the_authors() -> None:
    """Bearing 1, shaft 5, coupling 3 as authored, something else as the lightest; counted 0, 2, 1, 1."""
    causes = ("shaft", "shaft", "coupling", "elsewhere")
    told = learned(HELD, [case(f"c{k}", cause=cause) for k, cause in enumerate(causes)]).weights

    assert [(one.suspect, one.authored, one.cases.found, one.cases.of) for one in told] == [
        ("bearing", 0.1, 0, 4),
        ("shaft", 0.5, 2, 4),
        ("coupling", 0.3, 1, 4),
        ("elsewhere", 0.1, 1, 4),
    ]
    assert [one.cases.mean for one in told] == pytest.approx([0.5 / 6, 2.5 / 6, 1.5 / 6, 1.5 / 6])


def test_a_weight_that_the_tree_gives_to_something_else_counts() -> None:
    """Ten against nine of the suspects."""
    heavy = library(TREE.replace("start: first", "elsewhere: 10\nstart: first")).trees["bench"]

    assert learned(heavy, []).weights[-1].authored == pytest.approx(10 / 19)


def test_a_cause_that_nobody_knows_and_one_that_is_gone_count_apart() -> None:
    """Neither is counted; cases of another tree are none of this one."""
    other = case("d", cause="shaft")._replace(tree="other")
    told = learned(HELD, [case("a", cause="belt"), case("b"), case("c", cause="shaft"), other])

    assert (told.gone, told.unknown, told.confirmed) == (1, 1, 1)


def test_proposed_weights_are_together_as_heavy_as_the_authors() -> None:
    """Nine for the suspects and one for something else, in proportion to the means."""
    causes = ["shaft"] * 6 + ["bearing"]
    found = proposed(HELD, learned(HELD, [case(f"c{k}", cause=cause) for k, cause in enumerate(causes)]))

    assert {name: float(weight) for name, weight in found.items()} == pytest.approx(
        {"bearing": 15 / 9, "shaft": 65 / 9, "coupling": 5 / 9, "elsewhere": 5 / 9}, rel=0.01
    )
    assert float(sum(found.values())) == pytest.approx(10, abs=0.02)


@pytest.mark.parametrize("short", [1, 0])
def test_signs_wait_for_enough_cases(short: int) -> None:
    """From five of a suspect for each answer on."""
    cases = [case(f"c{k}", cause="shaft", sign=int(not k)) for k in range(enough(2) - short)]
    told = [(one.number, one.cases.found, one.authored) for one in learned(HELD, cases).signs]

    assert told == ([] if short else [(0, 9, 0.9), (1, 1, 0.1)])


def test_a_step_without_fits_has_no_signs() -> None:
    """Its author says that it tells nothing."""
    plain = library(re.sub(r", fits: {[^}]*}", "", TREE)).trees["bench"]
    cases = [case(f"c{k}", cause="shaft") for k in range(enough(2))]

    assert learned(plain, cases).signs == ()


def test_proposed_signs_add_up_and_rule_nothing_out() -> None:
    """Two hundred shafts that all whined: 99 and 1 of 100, not 100 and 0."""
    told = learned(HELD, [case(f"c{k}", cause="shaft") for k in range(200)])

    assert signs_proposed(told) == {("first", "shaft"): (Fraction(99, 100), Fraction(1, 100))}
