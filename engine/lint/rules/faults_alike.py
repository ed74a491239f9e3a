"""Faults that no test tells apart.

They are one group of ambiguity: a plan ends with all of them, and the repair begins with a guess. That may
well be right, where one part holds both, or where no workshop could tell; so it is noted, and is no error.
Each group is told once, at its first fault.

Bad: every test fails on both or on neither.

    faults: {left-joint: {weight: 1}, right-joint: {weight: 1}, tyres: {weight: 3}}
    tests:
      shake: {minutes: 4, fails: [left-joint, right-joint]}

Good:

    faults: {left-joint: {weight: 1}, right-joint: {weight: 1}, tyres: {weight: 3}}
    tests:
      shake-left: {minutes: 4, fails: [left-joint]}
      shake-right: {minutes: 4, fails: [right-joint]}
"""

from collections.abc import Iterator

from engine.lint.finding import Found
from engine.lint.matrices import Row, listed, row, whole
from engine.lint.rule import Scope
from engine.model.matrix import Fault


def check(scope: Scope) -> Iterator[Found]:
    """Every group of two or more faults with the same row in every test."""
    for matrix in filter(whole, scope.matrices):
        groups: dict[tuple[Row, ...], list[Fault]] = {}
        for fault in matrix.faults:
            groups.setdefault(tuple(row(test, fault.id) for test in matrix.tests), []).append(fault)
        for alike in groups.values():
            if len(alike) > 1:
                message = f"No test tells {listed(fault.id for fault in alike)} apart."
                yield Found(alike[0].place, message, "Add a test that does, or plan to repair them together.")
