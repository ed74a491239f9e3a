"""A plan as a tree document: it lints clean, and it is the plan."""

from fractions import Fraction

import pytest

from engine.lint.runner import run
from engine.planner.planning import plan
from engine.proof.figures.figures import figures
from tests.engine.planner.matrices import matrix, sample, trial
from tests.engine.planner.planned import NAMED, SHIPPED, library

#: Random matrices of every kind with at least two faults to tell apart.
SEEDS = [seed for seed in range(60) if len(plan(sample(seed)).groups) < len(sample(seed).faults)]


@pytest.mark.parametrize("name", [name for name in SHIPPED.matrices if name != "rear-drive-by-feel"])
def test_a_shipped_matrix_makes_a_tree_that_lints_clean(name: str) -> None:
    """States, set-ups, cautions, fits and unsure exits are where lint wants them."""
    found = run(library(SHIPPED.matrices[name]), frozenset((NAMED,)))
    # whoever words it rehearses it
    assert [each.problem.message for each in found if each.rule != "tree-not-rehearsed"] == []


@pytest.mark.parametrize("seed", SEEDS)
def test_any_matrix_makes_a_tree_without_errors(seed: int) -> None:
    """Many outcomes, set-ups that are no states of the shop, tests that wait, faults alike."""
    found = run(library(sample(seed)), frozenset((NAMED,)))
    assert [each.problem.message for each in found if each.severity == "error"] == []


@pytest.mark.parametrize("name", ["five-faults", "rear-drive"])
def test_its_minutes_are_those_of_the_plan(name: str) -> None:
    """What `figures` says of the tree is what the planner said of the plan: expected and most."""
    held = SHIPPED.matrices[name]
    tree = library(held).trees[f"{name}-planned"]
    told = figures(tree, {}, next(iter(SHIPPED.sheets.values())).facts)
    made = plan(held)

    assert (told.expected, told.most) == (made.expected, made.worst)


def test_each_suspect_is_found_alone() -> None:
    """Every verdict convicts one suspect; a group is one."""
    held = SHIPPED.matrices["rear-drive"]
    tree = library(held).trees["rear-drive-planned"]
    told = figures(tree, {}, next(iter(SHIPPED.sheets.values())).facts)
    assert told.missed == ()
    assert all(group == (name,) for name, group in told.groups.items())


def test_the_minutes_of_repair_go_with_it() -> None:
    """The advice of a walk weighs testing on against repairing now."""
    held = SHIPPED.matrices["rear-drive"]
    suspects = library(held).trees["rear-drive-planned"].suspects
    told = {fault.id: fault.repair for fault in held.faults}
    assert len({*told.values()}) > 3
    assert {name: suspect.repair for name, suspect in suspects.items()} == told


def test_a_group_is_one_suspect() -> None:
    """Its verdict says that no test tells its faults apart."""
    tests = [trial("look", 2, {"passes": ["c"], "fails": ["a", "b"]})]
    tree = library(matrix({"a": 1, "b": 2, "c": "1/4"}, tests)).trees["by-hand-planned"]
    assert {name: suspect.weight for name, suspect in tree.suspects.items()} == {"a": 3, "c": Fraction(1, 4)}
    assert tree.suspects["a"].title == "a or b"
