"""Tests that wait for each other.

`after` names the tests that must have been done before. Where they wait for each other in a circle, none of
them can ever be the first, and no plan can use them.

Bad:

    faults: {shaft: {weight: 2}, axle: {weight: 1}}
    tests:
      look: {minutes: 3, after: [turn], fails: [shaft]}
      turn: {minutes: 4, after: [look], fails: [axle]}

Good:

    faults: {shaft: {weight: 2}, axle: {weight: 1}}
    tests:
      look: {minutes: 3, fails: [shaft]}
      turn: {minutes: 4, after: [look], fails: [axle]}
"""

from collections.abc import Iterator, Mapping

from engine.lint.finding import Found
from engine.lint.rule import Scope
from engine.model.matrix import Trial
from engine.model.stop import Stop


def check(scope: Scope) -> Iterator[Found]:
    """Every circle, once, at the first of its tests in the document."""
    for matrix in scope.matrices:
        tests = {test.id: test for test in matrix.tests}
        for circle in _circles(tests):
            first = min(tests[name].place for name in circle)
            stops = tuple(
                Stop(f"{name} comes after {before}", tests[name].place)
                for name, before in zip(circle, (*circle[1:], circle[0]), strict=True)
            )
            message = f"`{circle[0]}` waits for itself."
            yield Found(first, message, "Take one of the tests out of an `after`.", stops)


def _circles(tests: Mapping[str, Trial]) -> Iterator[list[str]]:
    """Circles that have no test in common, until none is left."""
    left = _waiting(tests, set(tests))
    while left:
        circle = _circle(tests, left)
        yield circle
        left = _waiting(tests, left.difference(circle))


def _waiting(tests: Mapping[str, Trial], left: set[str]) -> set[str]:
    """Those of some tests that wait for one another for ever."""
    while free := {name for name in left if left.isdisjoint(tests[name].after)}:
        left = left - free
    return left


def _circle(tests: Mapping[str, Trial], waiting: set[str]) -> list[str]:
    """One circle among tests each of which waits for one of the others, begun at its first test."""
    path = [min(waiting, key=lambda name: tests[name].place)]
    while (before := next(name for name in tests[path[-1]].after if name in waiting)) not in path:
        path.append(before)
    circle = path[path.index(before) :]
    start = circle.index(min(circle, key=lambda name: tests[name].place))
    return circle[start:] + circle[:start]
