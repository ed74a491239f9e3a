"""A lower bound from numbers: of each kind of group only how many are suspected is looked at.

Where groups weigh alike and each test knows few of them, what is least hangs on how many tests have no group
in common; what pairs owe says nothing of that. So a few groups are hubs (`engine/planner/hubs.py`): the
cheapest tests, where they take many groups at once, use them up. What no cheap test knows waits for a dear
one, and what none knows is only found when nothing else is left. Groups of one weight, one least price and
hubs or not are of one kind (`engine/model/kinds.py`); where these are too many kinds, of fewer.

The numbers of all kinds stand side by side in one, a byte for each kind. Its highest bit stays free, so that
one subtraction tells whether there are enough of every kind.
"""

from collections.abc import Callable, Iterator, Mapping, Sequence
from itertools import product
from math import prod
from operator import mul
from typing import TYPE_CHECKING, Final

from engine.model.kinds import MOST
from engine.planner.entropy import Split
from engine.planner.hubs import hubs
from engine.planner.problem import Problem, fews
from engine.planner.sums import Beside, Sums

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

#: The side of each test that fewer groups lead to, with its price; the cheapest first.
Tests = Mapping[int, int]
#: Numbers that can be taken at once, with the price.
Takes = Mapping[int, int]
#: What tells the kind of each group.
Kinds = Sequence[tuple[int, ...]]
#: More ways to split all numbers that there may be take longer than they spare.
_WAYS: Final = 150_000
#: Kinds that stand side by side, and bits for the number of each.
_KINDS: Final = 8
_FIELD: Final = 8


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
    tests, weights = fews(problem), problem.weights
    if len({*weights}) > _KINDS:
        return None
    for schemes in _schemes(weights, tests):
        if found := [*filter(None, (_fitting(kinds, tests) for kinds in schemes))]:
            return max(found, key=lambda bound: bound(problem.everything))
    return None


def _schemes(weights: Sequence[int], tests: Tests) -> Iterator[list[Kinds]]:
    """What tells kinds, the finest first; where these are too many, the next. The best of one list is taken.

    Beside the weight of each group the price of the cheapest test that knows it, and whether it is a hub; one
    of the two, and whether any test knows it; hubs of one weight only; and none.
    """
    often, cheapest = max(weights, key=weights.count), min(tests.values(), default=0)
    some = hubs([few for few, price in tests.items() if price == cheapest], len(weights))
    least = [next((price for few, price in tests.items() if few >> k & 1), 0) for k in range(len(weights))]
    each = [
        (weight, price, some >> k & 1) for k, (weight, price) in enumerate(zip(weights, least, strict=True))
    ]
    yield [each]
    by_hub = [(weight, int(price > 0), hub) for weight, price, hub in each]
    yield [[(weight, price) for weight, price, _ in each], by_hub]
    yield [[(weight, known, int(hub and weight == often)) for weight, known, hub in by_hub]]
    yield [[(weight, known) for weight, known, _ in by_hub]]


def _fitting(kinds: Kinds, tests: Tests) -> Numbers | None:
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
