"""The rules of matrices against other judges: the planner's brute force, and a library of graphs."""

import re
from collections.abc import Iterator
from fractions import Fraction
from typing import Final

import networkx as nx
import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.lint.registry import RULES
from engine.lint.rule import Scope
from engine.loading.library import Library, gather
from engine.model.matrix import Matrix, Trial, TrialOutcome
from engine.model.place import Place
from engine.planner.planning import plan
from tests.engine.planner.brute import cheapest
from tests.engine.planner.matrices import matrix, sample

_EMPTY: Final[Library] = gather([])
_CHECKS: Final = {rule.slug: rule.check for rule in RULES}
#: Small random matrices, of which one in three has tests that come after others, and one in two set-ups.
SEEDS: Final = range(300)


def told(rule: str, held: Matrix) -> list[str]:
    """What one rule says of a matrix."""
    scope = Scope(_EMPTY._replace(matrices={held.id: held}))
    return [found.message for found in _CHECKS[rule](scope)]


def without(held: Matrix, names: set[str]) -> Matrix:
    """The matrix without some of its tests."""
    return held._replace(tests=tuple(test for test in held.tests if test.id not in names))


def useless(held: Matrix) -> set[str]:
    """The tests that two rules call useless."""
    outdone = {re.findall("`(.*?)`", message)[1] for message in told("test-never-chosen", held)}
    return outdone | {re.findall("`(.*?)`", message)[0] for message in told("test-tells-nothing", held)}


def test_a_useless_test_is_useless() -> None:
    """The cheapest plan costs the same without the tests that are told, for every order of the others."""
    held = [sample(seed) for seed in SEEDS]
    cut = [(each, useless(each)) for each in held if useless(each)]

    assert len(cut) >= len(held) // 10
    assert [each for each, names in cut if cheapest(each) != cheapest(without(each, names))] == []


def test_faults_alike_are_the_groups_of_the_plan() -> None:
    """What is noted is what a plan ends with."""
    held = [sample(seed) for seed in SEEDS]
    noted = [
        {frozenset(re.findall("`(.*?)`", message)) for message in told("faults-alike", each)} for each in held
    ]

    assert any(noted)
    assert noted == [set(map(frozenset, plan(each).groups)) for each in held]


def waiting(after: list[set[int]]) -> Matrix:
    """A matrix of which only the order of its tests matters."""
    tests = [
        Trial(f"t{number}", "", Fraction(1), (TrialOutcome("passes", {}), TrialOutcome("fails", {})), (), (),
              tuple(f"t{k}" for k in sorted(names)), Place("by-hand.yaml", number + 1, 1))
        for number, names in enumerate(after)
    ]  # fmt: skip
    return matrix({"shaft": 1}, tests)


@given(
    st.integers(1, 7).flatmap(
        lambda n: st.lists(st.sets(st.integers(0, n - 1), max_size=2), min_size=n, max_size=n)
    )
)
def test_circles_are_circles_and_none_is_missed(after: list[set[int]]) -> None:
    """Each step of what is shown is in the document, and cutting what is shown leaves nothing to be shown."""
    graph = nx.DiGraph([(f"t{test}", f"t{before}") for test, names in enumerate(after) for before in names])
    for shown in circles(waiting(after)):
        assert all(graph.has_edge(one, other) for one, other in shown)
        assert shown[-1][1] == shown[0][0]
        graph.remove_nodes_from([one for one, _ in shown])

    assert nx.is_directed_acyclic_graph(graph)


def circles(held: Matrix) -> Iterator[list[tuple[str, str]]]:
    """The circles that are told, as pairs of a test and the one before it."""
    for found in _CHECKS["tests-in-a-circle"](Scope(_EMPTY._replace(matrices={held.id: held}))):
        pairs = [stop.said.split(" comes after ") for stop in found.path]
        assert found.place == min(stop.place for stop in found.path)
        yield [(one, other) for one, other in pairs]


@pytest.mark.parametrize(
    "rule", ["faults-alike", "fault-not-seen", "test-tells-nothing", "test-never-chosen"]
)
def test_a_slip_in_a_name_is_told_once(rule: str) -> None:
    """Where a test names a fault that is not there, nothing is said of what the test tells."""
    slip = TrialOutcome("passes", {}), TrialOutcome("fails", {"shat": Fraction(1)})
    tests = [Trial(name, "", Fraction(1), slip, (), (), (), Place("a", 1, 1)) for name in ("look", "turn")]

    assert told(rule, matrix({"shaft": 1, "axle": 1}, tests)) == []
