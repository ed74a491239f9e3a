"""The proof about the vehicle's states, against walking every path of small random libraries."""

from typing import Final

import pytest

from engine.lint.rule import Scope
from engine.lint.safety import faults
from tests.engine.lint.small_libraries import library, walked

#: How many libraries are walked path by path.
TRIED: Final = 2000


@pytest.mark.parametrize("part", range(4))
def test_proof_finds_what_walking_every_path_finds(part: int) -> None:
    """Over random libraries the proof and the walk along every single path find the same faults.

    Paths that an earlier answer or reading rules out are walked by neither.
    """
    for seed in range(part * TRIED // 4, (part + 1) * TRIED // 4):
        given = library(seed)
        proven = {(f.kind, f.place.file, f.step, f.states) for f in faults(Scope(given)) if f.path}

        assert proven == walked(given).faults, seed


@pytest.mark.parametrize("seed", range(40))
def test_every_fault_comes_with_a_walk_from_the_start(seed: int) -> None:
    """The path of a fault begins at the tree's start and ends at the step it is told of."""
    for fault in faults(Scope(library(seed))):
        if fault.path:
            assert fault.path[0].said.startswith("s0")
            assert fault.path[-1].said.rpartition("/")[2] == fault.step
            assert fault.path[-1].place == fault.place
