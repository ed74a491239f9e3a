"""A matrix as the search sees it: its table in whole numbers, and what tests ask for as bits as well.

Faults that no test tells apart are one group (`engine/model/table.py`), merged before anything else: a bound
that counts them apart would ask for tests that nobody needs.

A **state** of the search is one number as well: the groups still suspected in its low bits, above them the
set-ups that stand, above those the tests done that some other test waits for.
"""

from collections.abc import Iterable, Iterator
from fractions import Fraction
from typing import NamedTuple

from engine.model.matrix import Matrix
from engine.model.table import Table, table


class Probe(NamedTuple):
    """A reliable test: its price, the groups behind each outcome, and what it asks of the vehicle."""

    name: str
    #: Minutes, scaled.
    cost: int
    #: Names of the outcomes that some group leads to, and the groups behind each.
    outcomes: tuple[str, ...]
    parts: tuple[int, ...]
    #: Set-ups that must stand, and set-ups that are lost.
    needs: int = 0
    drops: int = 0
    #: Its own bit where another test waits for it, and the bits that it waits for.
    mark: int = 0
    after: int = 0


class Problem(NamedTuple):
    """Groups of faults with weights, tests, and the price of each set-up."""

    #: Names of the faults of each group.
    groups: tuple[tuple[str, ...], ...]
    weights: tuple[int, ...]
    tests: tuple[Probe, ...]
    #: Names and scaled minutes.
    setups: tuple[tuple[str, int], ...]
    #: One minute is so many.
    scale: int

    @property
    def everything(self) -> int:
        """The state at the start: every group suspected, nothing set up, nothing done."""
        return (1 << len(self.weights)) - 1

    @property
    def plain(self) -> bool:
        """Whether every test has two outcomes at most, and asks for nothing."""
        asks = any(test.needs or test.drops or test.mark or test.after for test in self.tests)
        return not asks and all(len(test.parts) <= 2 for test in self.tests)

    def minutes(self, price: int) -> Fraction:
        """A price of the search, weights still in it, as expected minutes."""
        return Fraction(price, self.scale * sum(self.weights))


def problem(matrix: Matrix) -> Problem:
    """The problem behind a matrix of reliable tests."""
    seen = table(matrix)
    tests = tuple(_probe(seen, number) for number in range(len(matrix.tests)))
    return Problem(seen.groups, seen.weights, tests, tuple(seen.setups.items()), seen.scale)


def fews(problem: Problem) -> dict[int, int]:
    """The side of each test that fewer groups lead to, with the least price of it; the cheapest first.

    >>> tests = [Probe(f"t{price}", price, ("no", "yes"), (0b1110, 0b0001)) for price in (3, 2)]
    >>> fews(Problem((("a",), ("b",), ("c",), ("d",)), (1, 1, 1, 1), tuple(tests), (), 1))
    {1: 2}
    """
    found = dict[int, int]()
    for test in sorted(problem.tests, key=lambda test: test.cost):
        if len(test.parts) > 1:
            found.setdefault(min(test.parts, key=int.bit_count), test.cost)
    return found


def members(bits: int) -> Iterator[int]:
    """The numbers of the bits that are set.

    >>> list(members(0b10110))
    [1, 2, 4]
    """
    while bits:
        low = bits & -bits
        yield low.bit_length() - 1
        bits ^= low


def _probe(seen: Table, number: int) -> Probe:
    """One test over the groups."""
    matrix = seen.matrix
    trial, setups = matrix.tests[number], [*seen.setups]
    order = [other.id for other in matrix.tests]
    waited = sorted({order.index(name) for other in matrix.tests for name in other.after})
    return Probe(
        trial.id,
        seen.prices[trial.id],
        tuple(seen.behind[trial.id]),
        tuple(seen.behind[trial.id].values()),
        _bits(map(setups.index, trial.needs)),
        _bits(map(setups.index, trial.drops)),
        1 << waited.index(number) if number in waited else 0,
        _bits(waited.index(order.index(name)) for name in trial.after),
    )


def _bits(numbers: Iterable[int]) -> int:
    """The number with these bits set."""
    return sum(1 << number for number in set(numbers))
