"""A fault on which no test fails.

Where such a fault is to blame, every test passes: the technician finds nothing, as on a sound vehicle. A
state in which nothing is wrong belongs into a matrix all the same; `repair: 0` says that it is one.

Bad: no test fails on the worn seal.

    faults: {shaft: {weight: 2}, seal: {weight: 1}}
    tests:
      turn: {minutes: 4, fails: [shaft]}

Good:

    faults: {shaft: {weight: 2, repair: 90}, sound: {weight: 1, repair: 0}}
    tests:
      turn: {minutes: 4, fails: [shaft]}
"""

from collections.abc import Iterable, Iterator

from engine.lint.finding import Found
from engine.lint.matrices import binary, whole
from engine.lint.rule import Scope
from engine.model.matrix import Trial


def check(scope: Scope) -> Iterator[Found]:
    """Every fault that leaves all tests as they would be without it."""
    for matrix in filter(whole, scope.matrices):
        seen = {name for test in matrix.tests for name in _seen(test)}
        for fault in matrix.faults:
            if fault.repair != 0 and fault.id not in seen:
                cure = "Add a test that does, or say `repair: 0` where nothing is wrong."
                yield Found(fault.place, f"No test fails on `{fault.id}`.", cure)


def _seen(test: Trial) -> Iterable[str]:
    """The faults that a test may fail on; one with outcomes of its own sees them all."""
    seeing = test.outcomes[1:] if binary(test) else test.outcomes
    return (name for outcome in seeing for name in outcome.chances)
