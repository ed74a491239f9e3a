"""A fault without minutes of repair among others that have them.

Where the minutes of repair count in a plan, a fault that has none would count as repaired at once.

Bad:

    faults: {shaft: {weight: 2, repair: 90}, axle: {weight: 1}}
    tests:
      turn: {minutes: 4, fails: [shaft]}

Good: all of them have it, or none.

    faults: {shaft: {weight: 2, repair: 90}, axle: {weight: 1, repair: 180}}
    tests:
      turn: {minutes: 4, fails: [shaft]}
"""

from collections.abc import Iterator

from engine.lint.finding import Found
from engine.lint.rule import Scope


def check(scope: Scope) -> Iterator[Found]:
    """Every fault that lacks it, where a fault that is one (with more than 0 minutes) has it."""
    for matrix in scope.matrices:
        for fault in matrix.faults if any(fault.repair for fault in matrix.faults) else ():
            if fault.repair is None:
                message = f"`{fault.id}` has no minutes of repair, and other faults have."
                yield Found(fault.place, message, "Add `repair:` with its minutes.")
