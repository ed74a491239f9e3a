"""A lower bound from numbers: of each kind of group only how many are suspected is looked at.

Where groups weigh alike and each test knows few of them, what is least hangs on how many tests have no group
in common; what pairs owe says nothing of that. So a few groups are **hubs**: every test that knows two groups
and more knows one of them, so that tests which take many groups at once use up the hubs. And what no test
knows is only found when nothing else is left. Hubs, these and the others, by weight, are the kinds
(`engine/model/kinds.py`) whose numbers are gone through.

The numbers of all kinds stand side by side in one, a byte for each kind. Its highest bit stays free, so that
one subtraction tells whether there are enough of every kind.
"""

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from functools import reduce
from itertools import product
from math import prod
from operator import mul, or_
from random import Random
from typing import TYPE_CHECKING, Final

from engine.model.kinds import MOST
from engine.planner.entropy import Split
from engine.planner.problem import Problem, fews, members
from engine.planner.sums import Beside, Sums

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

#: The side of each test that fewer groups lead to, with its price; the cheapest first.
Tests = Mapping[int, int]
#: Numbers that can be taken at once, with the price.
Takes = Mapping[int, int]
#: More ways to split all numbers that there may be take longer than they spare.
_WAYS: Final = 150_000
#: Kinds that stand side by side, and bits for the number of each.
_KINDS: Final = 8
_FIELD: Final = 8
#: So many times hubs are chosen; the fewest are taken.
_TRIES: Final = 10


class Numbers:
    """What some groups must still cost together at least, by their numbers; weights are in it."""

    def __init__(self, labels: tuple[int, ...], weights: Sequence[int], tests: Tests, takes: Takes) -> None:
        #: The kind of each group.
        self.labels = labels
        self._kinds, self._takes = weights, takes
        self._few, self._prices = [*tests], [*tests.values()]
        ones = [1 << _FIELD * label for label in labels]
        self._numbers, self._behind = Sums(ones), Beside(ones, self._few)
        self._weight = Sums([weights[label] for label in labels])
        self._free = sum(1 << _FIELD * kind + _FIELD - 1 for kind in range(len(weights)))
        self._known: dict[int, int] = {}

    def __call__(self, groups: int) -> int:
        """The bound of a set of groups."""
        return self._least(self._numbers(groups))

    def of_many(self, sets: "NDArray[np.int64]") -> "NDArray[np.int64]":
        """The bound of every one of many sets."""
        import numpy as np

        numbers = np.zeros(len(sets), dtype=np.int64)
        for kind in range(len(self._kinds)):
            of_it = sum(1 << group for group, label in enumerate(self.labels) if label == kind)
            numbers |= np.bitwise_count(sets & of_it).astype(np.int64) << _FIELD * kind
        each = np.unique(numbers)  # they are few, so to look them up is quicker than to sort all
        return np.array([*map(self._least, each.tolist())], dtype=np.int64)[np.searchsorted(each, numbers)]

    def splits(self, groups: int, ceiling: int, _: Callable[[int], int]) -> Iterator[Split]:
        """Every split of a set that may cost less than the ceiling, once."""
        whole, weight, least = self._numbers(groups), self._weight(groups), self._least
        after, seen = dict[int, int](), set[int]()
        for part, price, taken in zip(self._few, self._prices, self._behind(groups), strict=True):
            if taken and taken != whole:
                if taken not in after:
                    after[taken] = least(taken) + least(whole - taken)
                side, paid = groups & part, price * weight
                if paid + after[taken] < ceiling and side not in seen:
                    seen |= {side, groups ^ side}
                    yield paid, side, groups ^ side

    def _least(self, numbers: int) -> int:
        known = self._known.get(numbers)
        if known is None:
            known = self._known[numbers] = self._found(numbers)
        return known

    def _found(self, numbers: int) -> int:
        """The cheapest way to take some from so many."""
        counts = numbers.to_bytes(_KINDS, "little")
        if sum(counts) < 2:
            return 0
        least, free, lifted = self._least, self._free, numbers | self._free
        weight: int = sum(map(mul, counts, self._kinds))
        return min(
            price * weight + least(taken) + least(numbers - taken)
            for taken, price in self._takes.items()
            if (lifted - taken) & free == free and taken != numbers
        )


def numbers(problem: Problem) -> Numbers | None:
    """The bound for a problem whose tests are plain; None where it takes too long.

    >>> from engine.planner.problem import Probe
    >>> pairs = [0b000011, 0b000101, 0b001001, 0b010001, 0b100001]
    >>> tests = [Probe(f"t{two}", 1, ("no", "yes"), (0b111111 ^ two, two)) for two in pairs]
    >>> bound = numbers(Problem(tuple((name,) for name in "abcdef"), (1,) * 6, tuple(tests), (), 1))
    >>> bound.labels  # every test knows the first group
    (1, 0, 0, 0, 0, 0)
    >>> bound(0b111111)  # a and another: 6 + 2; the others one by one: 4 + 3 + 2
    17
    """
    tests = fews(problem)
    if len({*problem.weights}) > _KINDS:
        return None
    found = (_fitting(kinds, tests) for kinds in _schemes(problem.weights, [*tests]))
    return next(filter(None, found), None)


def _schemes(weights: Sequence[int], sets: Sequence[int]) -> Iterator[list[tuple[int, ...]]]:
    """Kinds of groups, the finest first: by weight and hubs; with hubs of one weight only; with none."""
    chances = map(Random, range(_TRIES))
    hubs = min((_hubs(sets, len(weights), chance) for chance in chances), key=int.bit_count)
    often = max(weights, key=weights.count)
    chief = sum(1 << k for k, weight in enumerate(weights) if weight == often)
    known = reduce(or_, sets, 0)
    for some in (hubs, hubs & chief, 0):
        yield [(weight, known >> k & 1, some >> k & 1) for k, weight in enumerate(weights)]


def _fitting(kinds: Sequence[tuple[int, ...]], tests: Tests) -> Numbers | None:
    """The bound by these kinds, if it is soon found."""
    each = sorted({*kinds})
    labels = tuple(map(each.index, kinds))
    many = [labels.count(kind) for kind in range(len(each))]
    states = prod(count + 1 for count in many)
    if len(each) > _KINDS or states > MOST or max(many) >> _FIELD - 1:
        return None
    takes = _taken(tests, labels, _WAYS // states)
    return Numbers(labels, [weight for weight, *_ in each], tests, takes) if takes else None


def _taken(tests: Tests, labels: Sequence[int], most: int) -> Takes:
    """What can be taken at once, and the least price of it; nothing where that is more than so much."""
    found = dict[int, int]()
    for few, price in tests.items():
        there = [label for k, label in enumerate(labels) if few >> k & 1]
        for taken in product(*(range(there.count(kind) + 1) for kind in range(_KINDS))):
            found.setdefault(int.from_bytes(taken, "little"), price)
            if len(found) > most:
                return {}
    found.pop(0, None)
    return found


def _hubs(sets: Iterable[int], groups: int, rng: Random) -> int:
    """Few groups of which every set of two and more has one; which of those in most sets, is left to chance.

    >>> _hubs([0b0011, 0b0110, 0b1000], 4, Random(0))
    2
    """
    left, hubs = [some for some in sets if some & (some - 1)], 0
    every = left
    while left:
        hub = max(range(groups), key=lambda group: (sum(some >> group & 1 for some in left), rng.random()))
        hubs |= 1 << hub
        left = [some for some in left if not some >> hub & 1]
    for hub in members(hubs):
        if all(hubs & some & ~(1 << hub) for some in every):
            hubs ^= 1 << hub
    return hubs
