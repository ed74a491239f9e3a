"""The ways to split a set that may still cost little, told at a glance from the entropy of the weights.

No tree of tests with two outcomes costs less than weight times entropy (C. E. Shannon, Bell Syst. Tech. J.
27:379-423, 1948). Split in two, a set of weight w leaves sides that cost a log a + (w - a) log (w - a) less
the sum of the same over its members: the nearer to halves, the less. So the weight of a side tells most often
that Huffman need not be asked; and where it does not, what Huffman says of the side with fewer members does.
"""

from bisect import bisect
from collections.abc import Callable, Iterator, Sequence
from math import ceil, log2
from typing import Final

from engine.planner.sums import Beside, Sums

#: Price and sides of a test done now.
Split = tuple[int, int, int]
#: Floating point numbers may be off by so much of the whole, and are by far less.
_OFF: Final = 1e-9
#: What members come to is added up in whole parts.
_FINE: Final = 1 << 20


class Entropy:
    """Tests of one price, each by the groups behind one of two outcomes; the groups have weights.

    >>> tests = Entropy((4, 4, 2, 2), (0b0011, 0b1000), 1)
    >>> [*tests.splits(0b1111, 27, lambda side: 0)]  # 12, then 8 + 4; a light one alone: 12, then 15
    [(12, 3, 12)]
    """

    def __init__(self, weights: Sequence[int], parts: Sequence[int], price: int) -> None:
        weights = [price * weight for weight in weights]
        self._weight = Sums(weights)
        self._members = Sums([ceil(_bits(weight) * _FINE) for weight in weights])
        self._parts = parts
        self._behind = Beside(weights, parts)

    def splits(self, groups: int, ceiling: int, least: Callable[[int], int]) -> Iterator[Split]:
        """Every split of a set that may cost less than the ceiling, once; a side costs `least` at least."""
        whole, members = self._weight(groups), self._members(groups) / _FINE
        most = ceiling - whole + _OFF * _bits(whole)
        for side, weight in self._sides(groups, whole, most + members).items():
            if least(side) + _bits(whole - weight) - members + self._members(side) / _FINE < most:
                yield whole, side, groups ^ side

    def _sides(self, groups: int, whole: int, most: float) -> dict[int, int]:
        """Of every split that is near enough to halves the side with fewer members, and its weight."""
        halves = range(1, whole // 2 + 1)
        lightest = 1 + bisect(halves, -most, key=lambda one: -_bits(one) - _bits(whole - one))
        found, size = dict[int, int](), groups.bit_count()
        for part, weight in zip(self._parts, self._behind(groups), strict=True):
            if lightest <= weight <= whole - lightest:
                side = groups & part
                other = groups ^ side
                if 2 * side.bit_count() < size or (2 * side.bit_count() == size and side < other):
                    found[side] = weight
                else:
                    found[other] = whole - weight
        return found


def _bits(weight: float) -> float:
    return weight * log2(weight)
