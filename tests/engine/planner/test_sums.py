"""Sums that are looked up are those that are added up."""

from itertools import combinations
from random import Random

import numpy as np
import pytest

from engine.planner.sums import Beside, Each, PairSums, Parted, Sums

SIZES = [1, 2, 5, 6, 7, 8, 9, 12, 13, 17, 30, 61]


def drawn(size: int) -> tuple[list[int], list[int]]:
    """Weights of so many members, and fifty sets of them."""
    chance = Random(size)
    return [chance.randrange(1 << 40) for _ in range(size)], [chance.getrandbits(size) for _ in range(50)]


@pytest.mark.parametrize("size", SIZES)
def test_members(size: int) -> None:
    """Any set of weights, each and together, at every size of the last table."""
    weights, sets = drawn(size)
    each, sums = Each(weights), Sums(weights)
    for some in sets:
        there = [weight for k, weight in enumerate(weights) if some >> k & 1]
        assert (each(some), sums(some)) == (there, sum(there))


@pytest.mark.parametrize("size", SIZES)
def test_pairs(size: int) -> None:
    """Any set of pairs, every third of which has no weight, at every size of the last block."""
    weights, sets = drawn(size)
    pairs = {(i, j): weights[i] ^ weights[j] for i, j in combinations(range(size), 2) if (i + j) % 3}
    sums = PairSums(size, pairs)
    added = [sum(due for (i, j), due in pairs.items() if some >> i & some >> j & 1) for some in sets]
    assert [*map(sums, sets)] == added
    assert sums.of_many(np.array(sets)).tolist() == added


@pytest.mark.parametrize("size", SIZES)
def test_sums_side_by_side(size: int) -> None:
    """What any set weighs in each of seven parts, and what its pairs weigh that each part takes one of."""
    weights, sets = drawn(size)
    parts = sets[:7]
    pairs = {(i, j): weights[i] ^ weights[j] for i, j in combinations(range(size), 2) if (i + j) % 3}
    beside, parted = Beside(weights, parts), Parted(size, pairs, parts)
    for some in sets:
        there = [k for k in range(size) if some >> k & 1]
        assert beside(some) == tuple(sum(weights[k] for k in there if part >> k & 1) for part in parts)
        taken = [{k for k in there if part >> k & 1} for part in parts]
        assert parted(some) == tuple(
            sum(due for (i, j), due in pairs.items() if {i, j} <= {*there} and len({i, j} & part) == 1)
            for part in taken
        )
