"""A matrix of reliable tests in whole numbers, read a second time for the checker."""

from collections.abc import Mapping
from fractions import Fraction
from math import lcm
from typing import NamedTuple

from engine.model.matrix import Matrix


class Table(NamedTuple):
    """Groups of faults alike in every test, with their weights; and the tests, as they come."""

    groups: tuple[tuple[str, ...], ...]
    weights: tuple[int, ...]
    #: Whole parts of a minute.
    scale: int
    #: Whole price, and the groups behind each outcome as bits.
    tests: tuple[tuple[int, tuple[int, ...]], ...]
    #: The same of one test by its name.
    outcomes: Mapping[str, Mapping[str, int]]

    @property
    def everything(self) -> int:
        """All groups."""
        return (1 << len(self.groups)) - 1


def table(matrix: Matrix) -> Table:
    """Merge and scale."""
    rows = dict[object, list[str]]()
    for fault in matrix.faults:
        row = tuple(outcome.chances.get(fault.id, 0) for test in matrix.tests for outcome in test.outcomes)
        rows.setdefault(row, []).append(fault.id)
    minutes = [test.minutes for test in matrix.tests] + [setup.minutes for setup in matrix.setups]
    scale = lcm(*(price.denominator for price in minutes))
    outcomes = {
        test.id: {outcome.name: _behind(outcome.chances, [*rows.values()]) for outcome in test.outcomes}
        for test in matrix.tests
    }
    return Table(
        tuple(map(tuple, rows.values())),
        _weights(matrix, [*rows.values()]),
        scale,
        tuple(
            (int(test.minutes * scale), tuple(filter(None, outcomes[test.id].values())))
            for test in matrix.tests
        ),
        outcomes,
    )


def _behind(chances: Mapping[str, Fraction], groups: list[list[str]]) -> int:
    """The groups that lead to an outcome."""
    return sum(1 << k for k, group in enumerate(groups) if chances.get(group[0]))


def _weights(matrix: Matrix, groups: list[list[str]]) -> tuple[int, ...]:
    """The weight of each group in whole parts."""
    unit = lcm(*(fault.weight.denominator for fault in matrix.faults))
    weights = {fault.id: int(fault.weight * unit) for fault in matrix.faults}
    return tuple(sum(weights[name] for name in group) for group in groups)
