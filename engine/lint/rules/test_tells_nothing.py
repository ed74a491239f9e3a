"""A test that tells no fault from another.

Whatever is wrong, its outcome is equally likely: it costs minutes and nobody is the wiser. A test that others
come `after` may do so all the same, since it makes them possible.

Bad: the lamp fails on everything alike.

    faults: {shaft: {weight: 2}, axle: {weight: 1}}
    tests:
      lamp: {minutes: 1, fails: [shaft, axle]}
      turn: {minutes: 4, fails: [shaft]}

Good:

    faults: {shaft: {weight: 2}, axle: {weight: 1}}
    tests:
      lamp: {minutes: 1, chances: {shaft: 0.5, axle: 0.1}}
      turn: {minutes: 4, fails: [shaft]}
"""

from collections.abc import Iterator, Sequence

from engine.lint.finding import Found
from engine.lint.matrices import row, whole
from engine.lint.rule import Scope
from engine.model.matrix import Fault, Trial


def check(scope: Scope) -> Iterator[Found]:
    """Every test that has one row for all faults, where there are several, and that no other waits for."""
    for matrix in filter(whole, scope.matrices):
        waited = {name for test in matrix.tests for name in test.after}
        for test in matrix.tests if len(matrix.faults) > 1 else ():
            if test.id not in waited and _same(test, matrix.faults):
                message = f"`{test.id}` tells no fault from another."
                yield Found(test.place, message, "Say how the faults differ in it, or take it out.")


def _same(test: Trial, faults: Sequence[Fault]) -> bool:
    """Whether all faults make the same of it."""
    first = row(test, faults[0].id)
    return all(row(test, fault.id) == first for fault in faults)
