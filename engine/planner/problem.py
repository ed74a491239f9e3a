"""A matrix as the search sees it: whole numbers, and sets of faults as the bits of a number.

Faults that no test tells apart are one group with the sum of their weights, merged before anything else: a
bound that counts them apart would ask for tests that nobody needs. Weights and minutes are scaled to whole
numbers, so that every sum of the search is exact.

A **state** of the search is one number as well: the groups still suspected in its low bits, above them the
set-ups that stand, above those the tests done that some other test waits for.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from fractions import Fraction
from math import lcm
from typing import NamedTuple

from engine.model.matrix import Matrix, Trial


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

    def minutes(self, price: int) -> Fraction:
        """A price of the search, weights still in it, as expected minutes."""
        return Fraction(price, self.scale * sum(self.weights))


def problem(matrix: Matrix) -> Problem:
    """The problem behind a matrix of reliable tests."""
    rows = {fault.id: tuple(_outcome(trial, fault.id) for trial in matrix.tests) for fault in matrix.faults}
    groups = alike(matrix)
    whole = _whole({fault.id: fault.weight for fault in matrix.faults})[0]
    setups = {f"setup {setup.id}": setup.minutes for setup in matrix.setups}
    prices, scale = _whole({**setups, **{trial.id: trial.minutes for trial in matrix.tests}})
    tests = tuple(
        _probe(matrix, k, [rows[group[0]][k] for group in groups], prices) for k in range(len(matrix.tests))
    )
    return Problem(
        groups,
        tuple(sum(whole[fault] for fault in group) for group in groups),
        tests,
        tuple((setup.id, prices[f"setup {setup.id}"]) for setup in matrix.setups),
        scale,
    )


def members(bits: int) -> Iterator[int]:
    """The numbers of the bits that are set.

    >>> list(members(0b10110))
    [1, 2, 4]
    """
    while bits:
        low = bits & -bits
        yield low.bit_length() - 1
        bits ^= low


def _outcome(trial: Trial, fault: str) -> int:
    """Which outcome a fault leads to."""
    return next(k for k, outcome in enumerate(trial.outcomes) if outcome.chances.get(fault, 0) == 1)


def alike(matrix: Matrix) -> tuple[tuple[str, ...], ...]:
    """Faults that every test finds alike, together, in the order of the matrix."""
    found: dict[object, list[str]] = {}
    for fault in matrix.faults:
        row = tuple(outcome.chances.get(fault.id, 0) for trial in matrix.tests for outcome in trial.outcomes)
        found.setdefault(row, []).append(fault.id)
    return tuple(map(tuple, found.values()))


def _whole(numbers: Mapping[str, Fraction]) -> tuple[dict[str, int], int]:
    """The numbers times the smallest factor that makes all of them whole, and that factor."""
    factor = lcm(*(number.denominator for number in numbers.values()))
    return {name: int(number * factor) for name, number in numbers.items()}, factor


def _probe(matrix: Matrix, number: int, column: Sequence[int], prices: Mapping[str, int]) -> Probe:
    """One test over the groups."""
    trial = matrix.tests[number]
    setups = [setup.id for setup in matrix.setups]
    order = [other.id for other in matrix.tests]
    waited = sorted({order.index(name) for other in matrix.tests for name in other.after})
    seen = sorted(set(column))
    return Probe(
        trial.id,
        prices[trial.id],
        tuple(trial.outcomes[k].name for k in seen),
        tuple(_bits(group for group, outcome in enumerate(column) if outcome == k) for k in seen),
        _bits(map(setups.index, trial.needs)),
        _bits(map(setups.index, trial.drops)),
        1 << waited.index(number) if number in waited else 0,
        _bits(waited.index(order.index(name)) for name in trial.after),
    )


def _bits(numbers: Iterable[int]) -> int:
    """The number with these bits set."""
    return sum(1 << number for number in set(numbers))
