"""A fault that leads to no outcome of a test.

A test with outcomes of its own must say of every fault what then comes of it: exactly one of them. Where a
fault is left out, nobody knows what the technician would see, and no plan can be made.

Bad: nothing is said of the tyres.

    faults: {shaft: {weight: 2}, axle: {weight: 1}, tyres: {weight: 3}}
    tests:
      turn: {minutes: 4, outcomes: {the-shaft-turns: [axle], nothing-turns: [shaft]}}

Good:

    faults: {shaft: {weight: 2}, axle: {weight: 1}, tyres: {weight: 3}}
    tests:
      turn: {minutes: 4, outcomes: {the-shaft-turns: [axle, tyres], nothing-turns: [shaft]}}
"""

from collections.abc import Iterator

from engine.lint.finding import Found
from engine.lint.matrices import listed, row
from engine.lint.rule import Scope


def check(scope: Scope) -> Iterator[Found]:
    """Every test with the faults that it leaves out."""
    for matrix in scope.matrices:
        for test in matrix.tests:
            lost = [fault.id for fault in matrix.faults if not any(row(test, fault.id))]
            if lost:
                leads = "leads" if len(lost) == 1 else "lead"
                message = f"{listed(lost)} {leads} to no outcome of `{test.id}`."
                yield Found(test.place, message, "Add each to the outcome that it leads to.")
