"""A matrix seen less sharply: of each kind of group one knows how many are suspected, but not which.

Seen so, a test may send any groups of a kind behind any of its outcomes, up to as many as it has there.
Whatever can be done with the groups can be done with their numbers, and costs no more: what is least here is
never more than what is least there. And there are far fewer states, so that it is soon found.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import product
from math import prod
from operator import mul
from typing import Final

#: How many groups of each kind.
Counts = tuple[int, ...]
#: More states than this take too long to go through.
MOST: Final = 20_000


@dataclass(frozen=True, eq=False, slots=True)
class Kinds:
    """The kinds of groups, as bits; what the lightest of each weighs; and what each test can do."""

    masks: tuple[int, ...]
    weights: tuple[int, ...]
    #: A price, and how many of each kind are behind each outcome but the fullest.
    tests: frozenset[tuple[int, tuple[Counts, ...]]]

    def told(self, groups: int) -> Counts:
        """How many of each kind are among some groups; one of no kind is left out."""
        return tuple([(groups & mask).bit_count() for mask in self.masks])

    def next(self, left: Counts) -> Iterator[tuple[int, list[Counts]]]:
        """All that a test can do with so many: price times weight, and how many are behind its outcomes."""
        weight = sum(map(mul, left, self.weights))
        for price, behind in self.tests:
            for taken in product(*(_up_to(left, most) for most in behind)):
                rest = tuple(count - sum(gone) for count, *gone in zip(left, *taken, strict=True))
                after = [some for some in (*taken, rest) if any(some)]
                if len(after) > 1 and min(rest) >= 0:
                    yield price * weight, after


def kinds(
    labels: Sequence[object], weights: Sequence[int], tests: Iterable[tuple[int, Iterable[int]]]
) -> Kinds:
    """The kinds of groups that bear the same label; tests are prices and the groups behind each outcome.

    Where there are fewer labels than groups, the last groups are of no kind.

    :raises ValueError: where there are too many states, or more labels than groups.

    >>> seen = kinds("hull", (4, 2, 1, 1), [(5, (0b0110, 0b1001))])  # behind "no": u and an l
    >>> seen.told(0b1101), seen.weights
    ((1, 0, 2), (4, 2, 1))
    >>> [*seen.next((0, 1, 1))]  # a u and an l weigh 3: either alone, or the one that is left
    [(15, [(0, 0, 1), (0, 1, 0)]), (15, [(0, 1, 0), (0, 0, 1)])]
    """
    if len(labels) > len(weights):
        raise ValueError(f"{len(labels)} kinds are told of {len(weights)} groups")
    bits = dict.fromkeys(labels, 0)
    for group, label in zip(range(len(weights)), labels, strict=False):
        bits[label] |= 1 << group
    masks = tuple(bits.values())
    if prod(mask.bit_count() + 1 for mask in masks) > MOST:
        raise ValueError(f"{len(masks)} kinds of groups are too many to count")
    lightest = (min(weight for k, weight in enumerate(weights) if mask >> k & 1) for mask in masks)
    told = Kinds(masks, tuple(lightest), frozenset())
    return Kinds(masks, told.weights, frozenset((price, _fewest(told, parts)) for price, parts in tests))


def _fewest(seen: Kinds, parts: Iterable[int]) -> tuple[Counts, ...]:
    """How many are behind each outcome but the fullest."""
    return tuple(sorted(map(seen.told, parts), key=sum)[:-1])


def _up_to(left: Counts, most: Counts) -> Iterator[Counts]:
    """Every number of each kind that is there, and may be."""
    return product(*(range(min(pair) + 1) for pair in zip(left, most, strict=True)))
