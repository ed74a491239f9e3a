"""The sum of weights over any set, looked up so many bits at a time."""

from collections.abc import Sequence
from typing import Final

#: A table of 256 sums is soon made, and four of them serve thirty weights.
_CHUNK: Final = 8


class Sums:
    """What the members of a set weigh together; a set is the bits of a number.

    >>> Sums((5, 3, 2))(0b101)
    7
    """

    def __init__(self, weights: Sequence[int]) -> None:
        self._tables = [_table(weights[k : k + _CHUNK]) for k in range(0, len(weights), _CHUNK)]

    def __call__(self, members: int) -> int:
        """The sum of one set."""
        found = 0
        for table in self._tables:
            found += table[members & (len(table) - 1)]
            members >>= _CHUNK
        return found


def _table(weights: Sequence[int]) -> list[int]:
    """The sum of every subset."""
    table = [0] * (1 << len(weights))
    for subset in range(1, len(table)):
        low = subset & -subset
        table[subset] = table[subset ^ low] + weights[low.bit_length() - 1]
    return table
