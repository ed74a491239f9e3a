"""Every thickness that a stack of shims can come to, kept as bits of whole numbers so that none is missed.

A drawer of two hundred sizes has hundreds of millions of stacks of four, and only a few thousand totals.
"""

from collections.abc import Iterator
from fractions import Fraction
from math import ceil, floor, gcd, lcm
from typing import Final

#: More steps than this from nothing to the thickest stack are finer than any micrometer.
FINEST: Final = 200_000


class Totals:
    """What up to `most` shims come to, no more than `each` of one size, up to a little above `high`.

    ValueError where the sizes have no common step that is coarse enough.

    >>> drawer = Totals([Fraction(1, 2), Fraction(3, 5)], most=2, each=2, high=Fraction(1))
    >>> [float(total) for total in drawer.nearest(2, Fraction(1), Fraction(2), Fraction(11, 10))]
    [1.1, 1.2]
    """

    def __init__(self, sizes: list[Fraction], most: int, each: int, high: Fraction) -> None:
        scale = lcm(*(size.denominator for size in sizes))
        #: The thickness that every total is a multiple of.
        self.step = Fraction(gcd(*(int(size * scale) for size in sizes)), scale)
        self._sizes = sorted((int(size / self.step) for size in sizes), reverse=True)
        self._each = each
        last = floor(max(high, Fraction(0)) / self.step) + self._sizes[0]
        if last > FINEST:
            raise ValueError("The sizes have no common step that can be measured.")
        #: Bit t of [i][n]: whether n shims of the sizes from the i-th on come to t steps.
        self._bits = [[1] + [0] * most]
        kept = (1 << (last + 1)) - 1
        for size in reversed(self._sizes):
            self._bits.append([_joined(self._bits[-1], size, n, each) & kept for n in range(most + 1)])
        self._bits.reverse()

    def nearest(self, count: int, low: Fraction, high: Fraction, target: Fraction) -> Iterator[Fraction]:
        """The totals of `count` shims from `low` to `high` next to the target: at most one either side."""
        first, last = max(ceil(low / self.step), 0), floor(high / self.step)
        if last < first:
            return
        fit = self._bits[0][count] >> first & ((1 << (last - first + 1)) - 1)
        middle = min(max(floor(target / self.step) - first, -1), last - first)
        below, above = fit & ((1 << (middle + 1)) - 1), fit >> (middle + 1)
        if below:
            yield (first + below.bit_length() - 1) * self.step
        if above:
            yield (first + middle + 1 + (above & -above).bit_length() - 1) * self.step

    def stack(self, count: int, total: Fraction) -> tuple[Fraction, ...]:
        """The shims of a total that there is, with the thickest foremost."""
        left, shims = int(total / self.step), []
        for place, size in enumerate(self._sizes, 1):
            for used in range(min(self._each, count), -1, -1):
                rest = left - used * size
                if rest >= 0 and self._bits[place][count - used] >> rest & 1:
                    shims += [size * self.step] * used
                    left, count = rest, count - used
                    break
        return tuple(shims)


def _joined(without: list[int], size: int, count: int, each: int) -> int:
    """Totals of `count` shims once there are `each` more of a size."""
    bits = 0
    for used in range(min(each, count) + 1):
        bits |= without[count - used] << used * size
    return bits
