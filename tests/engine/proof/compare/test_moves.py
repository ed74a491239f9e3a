"""Moved verdicts, held against every technician there can be."""

import pytest

from engine.proof.compare.compare import Version, compare
from tests.engine.proof.compare.random_pairs import moved, pair

_SEEDS = range(0, 600, 100)


def compared(seed: int) -> set[tuple[str, str, str]]:
    """(vehicle, verdict before, verdict now) as the comparison says."""
    old, new = pair(seed)
    names = frozenset(("tree tree",))
    ended = compare(Version(old, names), Version(new, names)).moved
    return {(vehicle, each.moved.old, each.moved.new) for each in ended for vehicle in each.vehicles}


@pytest.mark.parametrize("first", _SEEDS, ids=str)
def test_moved_verdicts_are_those_of_every_technician(first: int) -> None:
    """On 100 random pairs each: who answers each question in one way, by every way that there is."""
    wrong = [seed for seed in range(first, first + 100) if compared(seed) != moved(*pair(seed))]

    assert wrong == []


def test_the_random_pairs_show_much() -> None:
    """Among them verdicts that moved to others and to none, and pairs where none moved."""
    found = [compared(seed) for seed in range(200)]

    assert sum(not each for each in found) > 20
    assert sum(any(now for _, _, now in each) for each in found) > 50
    assert sum(any(not now for _, _, now in each) for each in found) > 10
