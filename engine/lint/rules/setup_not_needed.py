"""A set-up that no test needs.

It is never paid, so its minutes count for nothing; most likely a test forgot to name it, and looks cheaper
than it is.

Bad: the hoist is there, and turning the shaft is said to need none.

    faults: {shaft: {weight: 2}, axle: {weight: 1}}
    setups: {raised: {minutes: 12}}
    tests:
      turn: {minutes: 4, fails: [shaft]}

Good:

    faults: {shaft: {weight: 2}, axle: {weight: 1}}
    setups: {raised: {minutes: 12}}
    tests:
      turn: {minutes: 4, needs: [raised], fails: [shaft]}
"""

from collections.abc import Iterator

from engine.lint.finding import Found
from engine.lint.rule import Scope


def check(scope: Scope) -> Iterator[Found]:
    """Every set-up that stands in no `needs`; nothing where a `needs` names one that is not there."""
    for matrix in scope.matrices:
        needed = {name for test in matrix.tests for name in test.needs}
        for setup in matrix.setups if needed <= {setup.id for setup in matrix.setups} else ():
            if setup.id not in needed:
                message = f"No test needs the set-up `{setup.id}`."
                yield Found(setup.place, message, "Let a test need it, or take it out.")
