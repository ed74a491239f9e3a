"""The oracle: every order of tests, in exact fractions, from the definition alone."""

from collections.abc import Callable, Iterable, Mapping
from fractions import Fraction
from functools import cache

from engine.model.matrix import Matrix, Trial

Faults = frozenset[str]
#: Faults suspected, set-ups that stand, tests done.
State = tuple[Faults, Faults, Faults]


def cheapest(
    matrix: Matrix, *, worst: bool = False, first: str | None = None, at: State | None = None
) -> Fraction:
    """The least minutes (mean over the weights, or of the longest way) until no test tells the rest apart.

    With `first`, the test that has to be done first; with `at`, from there on and not from the start.
    """
    weights = {fault.id: fault.weight for fault in matrix.faults}
    setups = {setup.id: setup.minutes for setup in matrix.setups}
    rows = {test.id: {f: o.name for o in test.outcomes for f in o.chances} for test in matrix.tests}

    def share(faults: Iterable[str]) -> Fraction:
        return sum((weights[fault] for fault in faults), Fraction(0))

    def paid(
        test: Trial, faults: Faults, up: Faults, done: Faults, then: Callable[..., Fraction]
    ) -> Fraction:
        price = test.minutes + sum((setups[name] for name in test.needs if name not in up), Fraction(0))
        after = (up | set(test.needs)) - set(test.drops), done | {test.id}
        parts = [then(part, *after) for part in _parts(faults, rows[test.id])]
        return price + max(parts) if worst else price * share(faults) + sum(parts, Fraction(0))

    @cache
    def least(faults: Faults, up: Faults, done: Faults) -> Fraction:
        if all(len(_parts(faults, row)) == 1 for row in rows.values()):
            return Fraction(0)
        open_to = [test for test in matrix.tests if test.id not in done and done.issuperset(test.after)]
        return min(paid(test, faults, up, done, least) for test in open_to)

    start = at or (frozenset(weights), frozenset[str](), frozenset[str]())
    forced = [test for test in matrix.tests if test.id == first]
    price = paid(forced[0], *start, least) if forced else least(*start)
    return price if worst else price / share(start[0])


def _parts(faults: Faults, row: Mapping[str, str]) -> list[Faults]:
    """The faults behind each outcome."""
    found: dict[str, set[str]] = {}
    for fault in faults:
        found.setdefault(row[fault], set()).add(fault)
    return [frozenset(part) for part in found.values()]
