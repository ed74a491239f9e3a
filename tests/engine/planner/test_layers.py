"""The bound in layers, against the checker's own and against the sum height by height."""

from random import Random

import pytest

from benchmarks.planning import few, written
from engine.model import table as whole_numbers
from engine.planner.layers import Layers
from engine.planner.problem import Problem, members, problem
from engine.proof.plan.reliable import huffman, layers
from tests.engine.planner.matrices import sample


def sets(of: Problem, seed: int) -> list[int]:
    """All groups, and some random sets of them."""
    rng = Random(seed)
    return [of.everything, *(rng.getrandbits(len(of.weights)) for _ in range(20))]


def left_together(of: Problem, groups: int, height: int) -> list[int]:
    """The classes that the tests below or at a height leave of a set."""
    classes = [groups]
    for test in of.tests:
        if test.cost <= height:
            classes = [piece for old in classes for part in test.parts if (piece := old & part)]
    return classes


def by_height(of: Problem, groups: int) -> int:
    """Huffman's sum of each class at each height."""
    ways = max(2, *(len(test.parts) for test in of.tests))
    return sum(
        huffman(sorted(of.weights[k] for k in members(left)), ways)
        for height in range(max(test.cost for test in of.tests))
        for left in left_together(of, groups, height)
    )


@pytest.mark.parametrize("seed", range(200))
def test_layers_are_summed_height_by_height(seed: int) -> None:
    """Of a random matrix: at every height Huffman's sum of each class that cheaper tests leave together."""
    of = problem(sample(seed))
    assert [*map(Layers(of), sets(of, seed))] == [by_height(of, groups) for groups in sets(of, seed)]


@pytest.mark.parametrize("seed", range(20))
def test_layers_of_many_classes(seed: int) -> None:
    """The same of twelve faults, one to three of which fail each test at a price of its own."""
    rng = Random(seed)
    of = problem(written([rng.randint(1, 9) for _ in range(12)], few(12, rng, 1, 3), [*range(1, 13)]))
    assert [*map(Layers(of), sets(of, seed))] == [by_height(of, groups) for groups in sets(of, seed)]


@pytest.mark.parametrize("seed", range(200))
def test_layers_are_those_of_the_checker(seed: int) -> None:
    """Of a random matrix: the checker, which has none of the planner's code, comes to the same sum."""
    seen = whole_numbers.table(sample(seed))
    of, nothing = problem(sample(seed)), dict.fromkeys(seen.prices, ())
    classes = [*layers(seen, [*seen.weights], [], nothing)]
    bound, ways = Layers(of), max(2, *(len(test.parts) for test in of.tests))
    for groups in sets(of, seed):
        kept = ((rise, sorted(seen.weights[k] for k in members(groups & old))) for rise, old in classes)
        assert bound(groups) == sum(rise * huffman(left, ways) for rise, left in kept)
