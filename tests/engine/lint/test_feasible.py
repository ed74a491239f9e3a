"""What can happen on a walk, against walking every path of small random libraries."""

from typing import Final

import pytest

from engine.lint.rule import Scope
from engine.lint.rules import band_gap, band_overlap, unreachable_step
from engine.model.tree import Ask, Measure
from tests.engine.lint.small_libraries import library, torn, walked

#: How many libraries are walked path by path.
TRIED: Final = 2000


def _ways(scope: Scope) -> set[tuple[str, str, int]]:
    """The ways out of questions and readings that a walk can take on some vehicle."""
    tree = scope.library.trees["tree"]
    found = set()
    for sheet in scope.sheets(tree):
        possible = scope.feasible(tree, sheet)
        for procedure, name, number in possible.ways if possible else ():
            document = scope.library.procedures[procedure] if procedure else tree
            step = document.steps.get(name)
            if isinstance(step, Ask | Measure) and number < len(
                step.answers if isinstance(step, Ask) else step.bands
            ):
                found.add((procedure or "tree", name, number))
    return found


@pytest.mark.parametrize("part", range(4))
def test_feasible_ways_are_those_that_walks_take(part: int) -> None:
    """Over random libraries exactly the answers and bands that some walk can come to are found possible."""
    told = 0
    for seed in range(part * TRIED // 4, (part + 1) * TRIED // 4):
        scope = Scope(library(seed))
        tree = scope.library.trees["tree"]
        if all(scope.feasible(tree, sheet) for sheet in scope.sheets(tree)):
            told += 1
            assert _ways(scope) == walked(scope.library).ways, seed
    assert told > TRIED // 4 // 4


@pytest.mark.parametrize("part", range(4))
def test_gaps_and_overlaps_are_those_that_walks_come_to(part: int) -> None:
    """Over random libraries with torn bands exactly the gaps and overlaps that some walk meets are told."""
    told = 0
    for seed in range(part * TRIED // 4, (part + 1) * TRIED // 4):
        scope = Scope(torn(library(seed), seed))
        entered = {document.place.file for document in scope.entered(scope.library.trees["tree"])}
        # what no wire leads to is told anyway, with all that is wrong with it
        loose = {found.place for found in unreachable_step.check(scope) if " the step " in found.message}
        found = {
            (kind, found.place.file, found.place.line)
            for kind, rule in (("gap", band_gap), ("overlap", band_overlap))
            for found in rule.check(scope)
            if found.place.file in entered and found.place not in loose
        }
        met = walked(scope.library).torn
        told += len(met)
        assert found == met, seed
    assert told > TRIED // 8
