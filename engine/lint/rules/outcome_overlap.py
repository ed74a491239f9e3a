"""A fault that leads to two outcomes of a test.

A test with outcomes of its own is one to be relied on: every fault leads to one of them. Where a fault may
lead to either, the test is not that sure, and says so with `chances`.

Bad:

    faults: {shaft: {weight: 2}, axle: {weight: 1}}
    tests:
      turn: {minutes: 4, outcomes: {the-shaft-turns: [axle, shaft], nothing-turns: [shaft]}}

Good:

    faults: {shaft: {weight: 2}, axle: {weight: 1}}
    tests:
      turn: {minutes: 4, chances: {shaft: 0.5, axle: 0}}
"""

from collections.abc import Iterator

from engine.lint.finding import Found
from engine.lint.matrices import listed
from engine.lint.rule import Scope


def check(scope: Scope) -> Iterator[Found]:
    """Every fault with the outcomes of one test that it leads to for certain."""
    for matrix in scope.matrices:
        for test in matrix.tests:
            for fault in matrix.faults:
                sure = [outcome.name for outcome in test.outcomes if outcome.chances.get(fault.id) == 1]
                if len(sure) > 1:
                    message = f"`{fault.id}` leads to {listed(sure)} of `{test.id}`."
                    yield Found(test.place, message, "Keep it in one of them.")
