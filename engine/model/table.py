"""A matrix of reliable tests in whole numbers: what its document means, before anybody plans or checks.

Faults that every test finds alike are one group with the sum of their weights. Weights and minutes are
multiplied until all are whole, so that sums of them are exact. A set of groups is a number whose bits are the
groups, in the order of the matrix.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from fractions import Fraction
from math import lcm
from typing import NamedTuple, TypeVar

from engine.model.kinds import Kinds, kinds
from engine.model.matrix import Matrix, Trial
from engine.model.moment import Marks, done, steps

T = TypeVar("T")
#: Groups still suspected, and of the marks those that matter later.
State = tuple[int, Marks]


class Table(NamedTuple):
    """Groups of faults, and the price and the outcomes of each test."""

    matrix: Matrix
    #: Names of the faults of each group.
    groups: tuple[tuple[str, ...], ...]
    #: Whole parts of a weight, for each group.
    weights: tuple[int, ...]
    #: One minute is so many parts.
    scale: int
    #: Parts of a minute, for each test by its name, and for each set-up.
    prices: Mapping[str, int]
    setups: Mapping[str, int]
    #: For each test by its name, the outcomes that some group leads to, and the groups behind each as bits.
    behind: Mapping[str, Mapping[str, int]]
    #: The marks that matter later: set-ups, and tests done that another waits for.
    lasting: Marks

    @property
    def start(self) -> State:
        """Every group is suspected, nothing is set up, nothing was done."""
        return (1 << len(self.groups)) - 1, frozenset()

    @property
    def whole(self) -> int:
        """One expected minute is so many parts, times weight."""
        return self.scale * sum(self.weights)

    @property
    def ways(self) -> int:
        """The most outcomes that a test has, and no less than two."""
        return max([2, *map(len, self.behind.values())])

    def weight(self, groups: int) -> int:
        """What some groups weigh together."""
        return sum(among(self.weights, groups))

    def kinds(self, labels: Sequence[object], weights: Sequence[int]) -> Kinds:
        """The groups by kinds, one label for each, and so many parts of a weight."""
        return kinds(labels, weights, ((self.prices[name], by.values()) for name, by in self.behind.items()))

    def next(self, state: State) -> Iterator["Next"]:
        """What can come next, which is nothing where one group is left.

        A test that parts nothing and that no other waits for is left out: it only costs.
        """
        groups, marks = state
        weight = self.weight(groups) if groups & (groups - 1) else 0
        for test, setups, minutes, standing in steps(self.matrix, marks) if weight else ():
            behind, kept, price = self.behind[test.id], standing & self.lasting, int(minutes * self.scale)
            after = {name: (groups & part, kept) for name, part in behind.items() if groups & part}
            if len(after) > 1 or done(test.id) in self.lasting:
                yield Next(test.id, setups, float(minutes), price, price * weight, after)


class Next(NamedTuple):
    """A test done now."""

    name: str
    #: The set-ups to be made before it, and its minutes with theirs.
    setups: tuple[str, ...]
    minutes: float
    #: The same in whole parts, and times the weight of the groups that are suspected.
    price: int
    weighed: int
    #: The state behind each outcome.
    after: Mapping[str, State]

    def cost(self, after: Iterable[int], *, mean: bool) -> int:
        """Its price with what comes after its outcomes: of all ways, times weight; or of the longest."""
        return self.weighed + sum(after) if mean else self.price + max(after)


def table(matrix: Matrix) -> Table:
    """The table behind a matrix.

    >>> from engine.model.matrix import Fault, TrialOutcome
    >>> from engine.model.place import Place
    >>> here, half, one = Place("hum.yaml", 1, 1), Fraction(1, 2), Fraction(1)
    >>> faults = tuple(Fault(name, "", half, None, here) for name in ("tyre", "rim", "gear"))
    >>> met = (TrialOutcome("no", {"gear": one}), TrialOutcome("yes", {"tyre": one, "rim": one}))
    >>> coast = Trial("coast", "", Fraction(5, 2), met, (), (), (), here)
    >>> made = table(Matrix("hum", "", here, faults, (coast,), ()))
    >>> made.groups, made.weights, made.scale, made.prices, made.behind["coast"]
    ((('tyre', 'rim'), ('gear',)), (2, 1), 2, {'coast': 5}, {'no': 2, 'yes': 1})
    """
    groups = alike(matrix)
    unit = _whole(fault.weight for fault in matrix.faults)
    weights = {fault.id: int(fault.weight * unit) for fault in matrix.faults}
    scale = _whole([*(test.minutes for test in matrix.tests), *(setup.minutes for setup in matrix.setups)])
    return Table(
        matrix,
        groups,
        tuple(sum(weights[fault] for fault in group) for group in groups),
        scale,
        {test.id: int(test.minutes * scale) for test in matrix.tests},
        {setup.id: int(setup.minutes * scale) for setup in matrix.setups},
        {test.id: _behind(test, groups) for test in matrix.tests},
        frozenset(setup.id for setup in matrix.setups).union(
            *(map(done, test.after) for test in matrix.tests)
        ),
    )


def alike(matrix: Matrix) -> tuple[tuple[str, ...], ...]:
    """Faults that every test finds alike, together, in the order of the matrix."""
    found: dict[object, list[str]] = {}
    for fault in matrix.faults:
        row = tuple(outcome.chances.get(fault.id, 0) for test in matrix.tests for outcome in test.outcomes)
        found.setdefault(row, []).append(fault.id)
    return tuple(map(tuple, found.values()))


def among(values: Iterable[T], groups: int) -> list[T]:
    """What belongs to some groups, of what belongs to each.

    >>> among("abcd", 0b1011)
    ['a', 'b', 'd']
    """
    return [value for k, value in enumerate(values) if groups >> k & 1]


def _whole(numbers: Iterable[Fraction]) -> int:
    """The smallest factor that makes all of them whole."""
    return lcm(*(number.denominator for number in numbers))


def _behind(test: Trial, groups: Iterable[tuple[str, ...]]) -> dict[str, int]:
    """The groups behind each outcome that some group leads to."""
    parts = {
        outcome.name: sum(1 << k for k, group in enumerate(groups) if outcome.chances.get(group[0]))
        for outcome in test.outcomes
    }
    return {name: part for name, part in parts.items() if part}
