"""What members of any set weigh, each and together, and what its pairs do, looked up many bits at a time.

A set is the bits of a number.
"""

from collections.abc import Mapping, Sequence
from functools import cached_property
from itertools import chain, combinations
from operator import getitem
from struct import Struct
from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

#: A table of 256 sums is soon made, and four of them serve thirty weights.
_CHUNK: Final = 8
#: Of pairs a table has the square of that many sums: thirty members take ten of 4,096, and five of 64.
_BLOCK: Final = 6
#: The same where the sums are long.
_NARROW: Final = 4
#: Sums side by side in one number have so many bits each.
_FIELD: Final = 64


class Sums:
    """What the members of a set weigh together.

    >>> Sums((5, 3, 2))(0b101)
    7
    """

    def __init__(self, weights: Sequence[int]) -> None:
        self._tables = [_table(weights[k : k + _CHUNK]) for k in range(0, len(weights), _CHUNK)]
        self._bytes = len(self._tables)

    def __call__(self, members: int) -> int:
        """The sum of one set."""
        return sum(map(getitem, self._tables, members.to_bytes(self._bytes, "little")))


class Each:
    """What each member of a set weighs, in the order of the members.

    >>> Each((5, 3, 2))(0b101)
    [5, 2]
    """

    def __init__(self, weights: Sequence[int]) -> None:
        self._tables = [_chosen(weights[k : k + _CHUNK]) for k in range(0, len(weights), _CHUNK)]
        self._bytes = len(self._tables)

    def __call__(self, members: int) -> list[int]:
        """The weights of one set."""
        return [*chain.from_iterable(map(getitem, self._tables, members.to_bytes(self._bytes, "little")))]


class Beside:
    """What the members of a set weigh together in each of many parts; one sum serves all of them.

    >>> Beside((5, 3, 2), (0b011, 0b110))(0b101)
    (5, 2)
    """

    def __init__(self, weights: Sequence[int], parts: Sequence[int]) -> None:
        self._each = Each([_spread(weight, k, parts) for k, weight in enumerate(weights)])
        self._fields = Struct(f"<{len(parts)}Q")

    def __call__(self, members: int) -> tuple[int, ...]:
        """The sums of one set, part by part; each of them fits into eight bytes."""
        side_by_side = sum(self._each(members))
        return self._fields.unpack(side_by_side.to_bytes(self._fields.size, "little"))


def _spread(weight: int, member: int, parts: Sequence[int]) -> int:
    """A weight in the field of every part that has the member."""
    return sum(weight << _FIELD * k for k, part in enumerate(parts) if part >> member & 1)


def _chosen(weights: Sequence[int]) -> list[tuple[int, ...]]:
    """The weights of every subset."""
    table: list[tuple[int, ...]] = [()]
    for weight in weights:
        table += [(*known, weight) for known in table]
    return table


class PairSums:
    """What the pairs of members of a set weigh together; of a pair the earlier member comes first.

    >>> PairSums(3, {(0, 1): 5, (0, 2): 3, (1, 2): 1})(0b101)
    3
    """

    def __init__(self, size: int, weights: Mapping[tuple[int, int], int], block: int = _BLOCK) -> None:
        def among(first: int, second: int) -> list[list[int]]:
            rows = range(first, min(first + block, size))
            columns = range(second, min(second + block, size))
            return [[weights.get((i, j), 0) for j in columns] for i in rows]

        starts = range(0, size, block)
        self._block, self._mask = block, (1 << block) - 1
        self._starts = list(enumerate(starts))
        self._within = [_within(among(start, start)) for start in starts]
        self._across = [
            (u, v, _across(among(starts[u], starts[v]), 1 << block))
            for u, v in combinations(range(len(starts)), 2)
        ]

    def __call__(self, members: int) -> int:
        """The sum of one set."""
        found, blocks = 0, [0] * len(self._starts)
        for k, start in self._starts:
            blocks[k] = block = members >> start & self._mask
            found += self._within[k][block]
        width = self._block
        for first, second, table in self._across:
            found += table[blocks[first] << width | blocks[second]]
        return found

    def of_many(self, sets: "NDArray[np.int64]") -> "NDArray[np.int64]":
        """The sums of many sets; all pairs together weigh less than 2^63."""
        within, across = self._arrays
        blocks = [sets >> start & self._mask for _, start in self._starts]
        found = sets * 0
        for table, block in zip(within, blocks, strict=True):
            found += table[block]
        for (first, second, _), table in zip(self._across, across, strict=True):
            found += table[blocks[first] << self._block | blocks[second]]
        return found

    @cached_property
    def _arrays(self) -> "tuple[list[NDArray[np.int64]], list[NDArray[np.int64]]]":
        import numpy as np

        across = (table for _, _, table in self._across)
        within, between = (
            [np.array(table, dtype=np.int64) for table in some] for some in (self._within, across)
        )
        return within, between


class Parted:
    """What the pairs weigh together that each of many parts takes from a set one of, and one not.

    >>> Parted(3, {(0, 1): 5, (0, 2): 3, (1, 2): 1}, (0b001, 0b011))(0b111)
    (8, 4)
    """

    def __init__(self, size: int, weights: Mapping[tuple[int, int], int], parts: Sequence[int]) -> None:
        spread = {
            (i, j): sum(weight << _FIELD * k for k, part in enumerate(parts) if (part >> i ^ part >> j) & 1)
            for (i, j), weight in weights.items()
        }
        self._pairs = PairSums(size, spread, _NARROW)
        self._fields = Struct(f"<{len(parts)}Q")

    def __call__(self, members: int) -> tuple[int, ...]:
        """The sums of one set, part by part; each of them fits into eight bytes."""
        return self._fields.unpack(self._pairs(members).to_bytes(self._fields.size, "little"))


def _within(weights: Sequence[Sequence[int]]) -> list[int]:
    """The sum of the pairs inside every subset of one block."""
    rows = [_table(row) for row in weights]
    table = [0] * (1 << len(rows))
    for subset in range(1, len(table)):
        low = (subset & -subset).bit_length() - 1
        table[subset] = table[subset & (subset - 1)] + rows[low][subset]
    return table


def _across(weights: Sequence[Sequence[int]], width: int) -> list[int]:
    """The sum of the pairs between every subset of one block and every subset of a later one."""
    rows = [_table(row) for row in weights]
    table = [[0] * len(rows[0])]
    for subset in range(1, 1 << len(rows)):
        rest, row = table[subset & (subset - 1)], rows[(subset & -subset).bit_length() - 1]
        table.append([a + b for a, b in zip(rest, row, strict=True)])
    return [found for line in table for found in (*line, *([0] * (width - len(line))))]


def _table(weights: Sequence[int]) -> list[int]:
    """The sum of every subset."""
    table = [0] * (1 << len(weights))
    for subset in range(1, len(table)):
        low = subset & -subset
        table[subset] = table[subset ^ low] + weights[low.bit_length() - 1]
    return table
