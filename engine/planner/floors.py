"""What many sets of groups cost at least, all of them at once, in arrays.

The same bounds as in `engine/planner/bound.py`, but for layers of prices: of these only the lowest is looked
at. Weights, prices and dues are whole numbers, and so are the floors; a set is a number with a bit for each
group.
"""

from collections.abc import Callable
from functools import partial
from typing import Final

import numpy as np
from numpy.typing import NDArray

from engine.planner.bound import Bound
from engine.planner.problem import Problem
from engine.planner.sums import PairSums

Ints = NDArray[np.int64]
#: What each of many sets costs at least.
Floor = Callable[[Ints], Ints]

#: No price comes near this.
NEVER: Final = 1 << 61
#: So many sets are looked at together, that what is found on the way stays at hand.
_TOGETHER: Final = 1 << 13


class Floors:
    """The floors of the sets of one problem."""

    def __init__(self, problem: Problem, bound: Bound) -> None:
        self._weights: Ints = np.array(problem.weights, dtype=np.int64)
        self._cheapest = min(test.cost for test in problem.tests)
        self._scale = bound.dues.scale if bound.dues else 1
        pairs: list[Floor] = [partial(self.paired, bound.owed)] if bound.owed else []
        #: What is soonest found comes first; where numbers are looked at they say more than layers.
        self._each = [bound.numbers.of_many, *pairs] if bound.numbers else [*pairs, self.parted]

    def __call__(self, sets: Ints, enough: Ints) -> Ints:
        """What each set costs at least; one that comes to what is enough for it is looked at no further."""
        found = np.zeros(len(sets), dtype=np.int64)
        for floor in self._each:
            left = np.flatnonzero(found < enough)
            found[left] = np.maximum(found[left], floor(sets[left]))
        return found

    def weight(self, sets: Ints) -> Ints:
        """What each set weighs."""
        return self._held(sets) @ self._weights

    def paired(self, owed: PairSums, sets: Ints) -> Ints:
        """What the pairs of each set owe."""
        found = np.zeros(len(sets), dtype=np.int64)
        for first in range(0, len(sets), _TOGETHER):
            some = slice(first, first + _TOGETHER)
            found[some] = -(-owed.of_many(sets[some]) // self._scale)
        return found

    def parted(self, sets: Ints) -> Ints:
        """What each set costs at least if any test could part it anyhow."""
        found = np.zeros(len(sets), dtype=np.int64)
        for first in range(0, len(sets), _TOGETHER):
            held = self._held(sets[first : first + _TOGETHER])
            most = int(held.sum(axis=1).max())
            weights = np.sort(np.where(held, self._weights, NEVER), axis=1)[:, :most]
            found[first : first + _TOGETHER] = self._cheapest * huffman_rows(weights)
        return found

    def _held(self, sets: Ints) -> NDArray[np.uint8]:
        """For each set which groups it holds, 0 or 1."""
        octets = sets.astype("<i8")[:, None].view(np.uint8)
        return np.unpackbits(octets, axis=1, count=len(self._weights), bitorder="little")


def huffman_rows(weights: Ints) -> Ints:
    """Huffman's sum of every row of one weight and more; each row is in order, and filled up with `NEVER`.

    What is merged comes in order as well, so the two lightest always stand at the head of one of two queues
    (J. van Leeuwen, 3rd International Colloquium on Automata, Languages and Programming, 1976, 382-410; from
    memory).

    >>> huffman_rows(np.array([[1, 2, 5, 10, 12, 70], [1, 1, 1, 1, NEVER, NEVER]])).tolist()
    [159, 8]
    """
    rows, size = weights.shape
    merged = np.full((rows, size + 1), NEVER, dtype=np.int64)
    single = np.column_stack((weights, np.full((rows, 2), NEVER, dtype=np.int64)))
    row, heads = np.arange(rows), np.zeros((2, rows), dtype=np.int64)
    total = np.zeros(rows, dtype=np.int64)

    def lightest() -> Ints:
        left, right = single[row, heads[0]], merged[row, heads[1]]
        heads[0] += left <= right
        heads[1] += left > right
        least: Ints = np.minimum(left, right)
        return least

    for step in range(size - 1):
        one, other = lightest(), lightest()
        two = other < NEVER
        merged[:, step] = np.where(two, one + other, one)
        total += np.where(two, one + other, 0)
    return total
