"""What each test singles out of all groups, and what any part of that costs to be told apart."""

from collections.abc import Mapping, Sequence
from typing import NamedTuple

import numpy as np

from engine.planner.floors import NEVER, Ints
from engine.planner.problem import members


class Take(NamedTuple):
    """A test with two outcomes, by the side that fewer groups lead to; the others stay on the main line."""

    few: int
    groups: tuple[int, ...]
    price: int
    #: The least that each part of the groups costs; bit by bit in their order they number it.
    costs: Ints

    def parts(self, sets: Ints) -> Ints:
        """The number of the part that each of some sets holds."""
        found = np.zeros(len(sets), dtype=np.int64)
        for place, group in enumerate(self.groups):
            found |= (sets >> group & 1) << place
        return found

    def known(self) -> dict[int, int]:
        """Every part that has to be told apart, as a set of groups, and what that costs."""
        which, sets = np.arange(len(self.costs)), np.zeros_like(self.costs)
        for place, group in enumerate(self.groups):
            sets |= (which >> place & 1) << group
        return {some: cost for some, cost in zip(sets.tolist(), self.costs.tolist(), strict=True) if cost}


def takes(weights: Sequence[int], prices: Mapping[int, int]) -> list[Take]:
    """What every test singles out; the price of each by what it singles out, as `fews` tells.

    >>> alone, both = takes((3, 2, 9), {0b001: 5, 0b011: 4})
    >>> alone.costs.tolist(), both.costs.tolist()  # the two are told apart by the other test: 5 x (3 + 2)
    ([0, 0], [0, 0, 0, 25])
    """
    return [_take(few, weights, prices) for few in prices]


def _take(few: int, weights: Sequence[int], prices: Mapping[int, int]) -> Take:
    """One of them; what its parts cost is found by trying every test, the smallest parts first."""
    groups = tuple(members(few))
    some: Ints = np.arange(1 << len(groups), dtype=np.int64)
    held = some[:, None] >> np.arange(len(groups)) & 1
    weight, size = held @ np.array([weights[group] for group in groups], dtype=np.int64), held.sum(axis=1)
    costs, splits = np.where(size < 2, 0, NEVER), _splits(groups, prices)
    parts, each = np.array([*splits]), np.array([*splits.values()])
    for level in range(2, len(groups) + 1):
        here = some[size == level]
        # what a test does not part has no cost yet, so it is not the least of them
        sides = costs[here[:, None] & parts] + costs[here[:, None] & ~parts]
        costs[here] = (weight[here, None] * each + sides).min(axis=1)
    return Take(few, groups, prices[few], costs)


def _splits(groups: tuple[int, ...], prices: Mapping[int, int]) -> dict[int, int]:
    """How tests part a few groups, as bits of their places, and the least price of it."""
    found = dict[int, int]()
    for few, price in prices.items():
        found.setdefault(sum(1 << place for place, group in enumerate(groups) if few >> group & 1), price)
    return found
