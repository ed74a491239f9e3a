"""Sums that are looked up are those that are added up."""

from itertools import combinations
from random import Random

import pytest

from engine.planner.sums import Each, PairSums, Sums

SIZES = [1, 2, 5, 6, 7, 8, 9, 12, 13, 17, 30, 61]


@pytest.mark.parametrize("size", SIZES)
def test_members(size: int) -> None:
    """Any set of weights, at every size of the last table."""
    chance = Random(size)
    weights = [chance.randrange(1 << 40) for _ in range(size)]
    sums = Sums(weights)
    for some in (chance.getrandbits(size) for _ in range(50)):
        assert sums(some) == sum(weight for k, weight in enumerate(weights) if some >> k & 1)


@pytest.mark.parametrize("size", SIZES)
def test_each_member(size: int) -> None:
    """The weights of any set one by one, in the order of its members."""
    chance = Random(size)
    weights = [chance.randrange(1 << 40) for _ in range(size)]
    each = Each(weights)
    for some in (chance.getrandbits(size) for _ in range(50)):
        assert each(some) == [weight for k, weight in enumerate(weights) if some >> k & 1]


@pytest.mark.parametrize("size", SIZES)
def test_pairs(size: int) -> None:
    """Any set of pairs, half of which have no weight, at every size of the last block."""
    chance = Random(size)
    weights = {
        pair: chance.randrange(1 << 40) for pair in combinations(range(size), 2) if chance.random() < 0.5
    }
    sums = PairSums(size, weights)
    for some in (chance.getrandbits(size) for _ in range(50)):
        assert sums(some) == sum(weight for (i, j), weight in weights.items() if some >> i & some >> j & 1)
