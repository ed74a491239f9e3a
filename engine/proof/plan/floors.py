"""A floor under the price of parting groups of faults, written a second time from what it says.

`engine/planner/bound.py` tells why it holds. There it is made to be quick; here it is made to be read.
"""

from collections.abc import Iterator, Sequence
from heapq import heapify, heappop, heappush


class Floors:
    """The floor of a set of groups (bits), where a test is a price and the groups behind each outcome.

    >>> rare = [(1, (0b110, 0b001)), (1, (0b101, 0b010)), (4, (0b011, 0b100))]
    >>> floors = Floors([4, 3, 3], rare)
    >>> floors(0b111)  # 10 for x, 6 for y or z
    16
    """

    def __init__(self, weights: Sequence[int], tests: Sequence[tuple[int, Sequence[int]]]) -> None:
        self._weights, self._tests = weights, sorted(tests, key=lambda test: test[0])
        self._ways = max((len(parts) for _, parts in tests), default=2)
        self._trees, self._known = dict[int, int](), dict[int, int]()

    def __call__(self, groups: int) -> int:
        """Nothing is left to part where one group is left."""
        if groups not in self._known:
            self._known[groups] = self.layers(groups) if groups & (groups - 1) else 0
        return self._known[groups]

    def tree(self, groups: int) -> int:
        """The least sum of weight times number of tests (Huffman 1952)."""
        if groups not in self._trees:
            self._trees[groups] = huffman([self._weights[k] for k in bits(groups)], self._ways)
        return self._trees[groups]

    def layers(self, groups: int) -> int:
        """At each height of the prices, the groups that cheaper tests leave together pay for their tree."""
        total, height, classes = 0, 0, [groups]
        for price, parts in self._tests:
            total += (price - height) * sum(map(self.tree, classes)) if price > height else 0
            pieces = [known & part for known in classes for part in parts]
            height, classes = price, [piece for piece in pieces if piece & (piece - 1)]
        return total


def huffman(weights: Sequence[int], ways: int) -> int:
    """The least sum of weight times number of tests with at most so many outcomes.

    >>> huffman([70, 1, 2, 10, 5, 12], 2)
    159
    """
    heap, total = [*weights, *([0] * ((1 - len(weights)) % (ways - 1)))], 0
    heapify(heap)
    while len(heap) > 1:
        joined = sum(heappop(heap) for _ in range(ways))
        total += joined
        heappush(heap, joined)
    return total


def bits(number: int) -> Iterator[int]:
    """The numbers of the bits that are set.

    >>> list(bits(0b10110))
    [1, 2, 4]
    """
    return (k for k in range(number.bit_length()) if number >> k & 1)
