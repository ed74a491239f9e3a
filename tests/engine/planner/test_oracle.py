"""The planner against every order of tests, in exact fractions: 10,000 random matrices, no difference."""

import pytest

from engine.planner.planning import plan
from engine.planner.search import Goal
from engine.proof.plan.check import check
from engine.report.plan import told
from tests.engine.planner.brute import cheapest
from tests.engine.planner.matrices import sample

#: 100 parts of 100 matrices, so that they can be shared among the cores.
PARTS = range(100)


@pytest.mark.parametrize("part", PARTS)
def test_the_plan_is_the_cheapest_and_proves_it(part: int, monkeypatch: pytest.MonkeyPatch) -> None:
    """Price and bound are those of the brute force; what the plan says of itself holds before the checker.

    Small matrices need no dues of pairs; in every other part they are asked for all the same, few and then
    more, so that what was proven by the first must hold by the last.
    """
    if part % 2:
        monkeypatch.setattr("engine.planner.planning._glance", lambda *_: 0)
        monkeypatch.setattr("engine.planner.planning._ROUNDS", ((5, 2), (20, 20_000)))
    for seed in range(100 * part, 100 * part + 100):
        goal: Goal = "worst" if seed % 4 == 1 else "expected"
        matrix = sample(seed)
        found, least = plan(matrix, goal), cheapest(matrix, worst=goal == "worst")
        assert (found.worst if goal == "worst" else found.expected, found.bound) == (least, least), seed
        assert not check(matrix, told("by-hand", found)), seed


def test_the_samples_are_of_every_kind() -> None:
    """Faults alike, tests of three outcomes, set-ups that are dropped, tests that wait: many of each."""
    seen = [sample(seed) for seed in range(500)]
    kinds = {
        "alike": sum(bool(plan(matrix).groups) for matrix in seen),
        "three": sum(any(len(test.outcomes) == 3 for test in matrix.tests) for matrix in seen),
        "dropped": sum(any(test.drops for test in matrix.tests) for matrix in seen),
        "waiting": sum(any(test.after for test in matrix.tests) for matrix in seen),
    }
    assert min(kinds.values()) > 50, kinds
