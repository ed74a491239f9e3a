"""A test that another one makes useless.

Both tell the same faults apart, and the other takes no more minutes, needs, drops and waits for nothing that
this one does not: no plan gains by it. Of two that are quite alike the second is told. Tests with `chances`
are left in peace, for doing both makes surer, and so is a test that others come `after`.

Bad: draining tells what the lamp tells in less time.

    faults: {gear: {weight: 2}, axle: {weight: 1}}
    tests:
      lamp: {minutes: 2, fails: [gear]}
      drain: {minutes: 14, fails: [gear]}

Good: the lamp wants the vehicle raised.

    faults: {gear: {weight: 2}, axle: {weight: 1}}
    setups: {raised: {minutes: 12}}
    tests:
      lamp: {minutes: 2, needs: [raised], fails: [gear]}
      drain: {minutes: 14, fails: [gear]}
"""

from collections.abc import Iterator, Sequence

from engine.lint.finding import Found
from engine.lint.matrices import whole
from engine.lint.rule import Scope
from engine.model.matrix import Matrix, Trial

Parts = frozenset[frozenset[str]]


def check(scope: Scope) -> Iterator[Found]:
    """Every such test, with the first one that outdoes it."""
    for matrix in filter(whole, scope.matrices):
        waited = {name for test in matrix.tests for name in test.after}
        for same in _telling_the_same(matrix):
            for test in same:
                other = next((each for each in same if _outdoes(each, test, same)), None)
                if other is not None and test.id not in waited:
                    message = f"`{other.id}` tells the same as `{test.id}` and asks for no more."
                    yield Found(test.place, message, "Take it out, or say what else it tells.")


def _telling_the_same(matrix: Matrix) -> list[list[Trial]]:
    """Reliable tests by what they tell apart; those that tell nothing are told by another rule."""
    groups: dict[Parts, list[Trial]] = {}
    for test in matrix.tests:
        parts = frozenset(frozenset(outcome.chances) for outcome in test.outcomes if outcome.chances)
        if test.reliable and len(parts) > 1:
            groups.setdefault(parts, []).append(test)
    return [same for same in groups.values() if len(same) > 1]


def _outdoes(one: Trial, other: Trial, order: Sequence[Trial]) -> bool:
    """Whether nobody would do the other where he can do this one."""
    if one.id == other.id or not _no_dearer(one, other):
        return False
    return not _no_dearer(other, one) or order.index(one) < order.index(other)


def _no_dearer(one: Trial, other: Trial) -> bool:
    pairs = ((one.needs, other.needs), (one.drops, other.drops), (one.after, other.after))
    return one.minutes <= other.minutes and all(set(here) <= set(there) for here, there in pairs)
