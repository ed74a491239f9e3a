"""A lower bound from pairs: whatever tells two suspects apart, both have paid for it.

Every two groups are parted once, by a test that both have taken. So give each pair a **due**, and let every
test divide the dues of the pairs that it parts between the two: the **shares**. Suppose that at no test the
shares of one group come to more than the test costs it, its price times the weight of the group. Then no
plan undercuts the dues: at every test of a plan the groups still suspected pay price times weight, which is
at least their shares, which are at least the dues of the pairs parted there. That holds for any suspects
with the dues of the pairs among them, so the dues are found once and serve every state of the search.

The largest dues are a linear program (`engine/planner/program.py`). On random matrices of 30 faults they come
to 0.90 of the least cost and more, to 0.97 and more where each test knows few faults or where units depend
on each other. Whatever the program answers is rounded down to whole numbers; only these are relied on, so
the bound is exact however rough the answer was.

Where the longest way is wanted instead of the mean one, the weights are free: no mean is longer than the
longest way, however the groups are weighed. The program then chooses the weights as well.
"""

from collections.abc import Callable, Iterator, Mapping, Sequence
from itertools import chain, combinations, islice
from typing import Final, NamedTuple

from engine.planner.problem import Problem, members

#: The sum of all dues lies near this, so that rounding takes little and any reader of JSON holds it.
_SUM: Final = 1 << 50
#: Dues below this share of the largest are left out of the proof.
_SMALL: Final = 1e-9
#: More pairs than this, counted at each test that parts them, take too long.
MOST: Final = 60_000
#: Where weights are free they are whole parts of this.
_FREE: Final = 1 << 20
#: Sums of floating point numbers may be a little more than they seem.
_JUST: Final = 1 - 1e-12

Pair = tuple[int, int]
Both = tuple[float, float]


class Dues(NamedTuple):
    """What each pair of groups owes, and how each test divides it."""

    #: A due of so many is one of price times weight.
    scale: int
    #: The weights that they hold for.
    weights: tuple[int, ...]
    due: Mapping[Pair, int]
    #: For each test, and each pair with a due that it parts, what the first of the two pays; the second
    #: pays the rest.
    shares: tuple[Mapping[Pair, int], ...]


def dues(problem: Problem, stop: Callable[[], bool] = lambda: False, *, free: bool = False) -> Dues | None:
    """The largest dues, for the weights of the problem or for weights that are free to choose.

    None where that takes too long, or where it was told to stop before there was an answer.
    """
    if not 0 < size(problem) <= MOST:
        return None
    from engine.planner.program import answer

    costs, parted = [test.cost for test in problem.tests], [[*_parted(test.parts)] for test in problem.tests]
    found = answer(problem.weights, costs, parted, stop, free=free)
    if found is None:
        return None
    weights = tuple(int(weight * _FREE) for weight in found.weights) if free else problem.weights
    unit = (_FREE if free else sum(problem.weights)) * max(costs)
    scale = max(1, int(_SUM / (found.total * unit)))
    shares = zip(*((side * unit * scale).tolist() for side in (found.first, found.second)), strict=True)
    asked = [dict(zip(pairs, islice(shares, len(pairs)), strict=True)) for pairs in parted]
    return _whole(
        scale, weights, [_cut(scale * cost, weights, of) for cost, of in zip(costs, asked, strict=True)]
    )


def size(problem: Problem) -> int:
    """How often a test parts a pair of groups: the time that dues take grows with its power of 1.5."""
    return sum(
        part.bit_count() * other.bit_count()
        for test in problem.tests
        for part, other in combinations(test.parts, 2)
    )


def _parted(parts: tuple[int, ...]) -> Iterator[Pair]:
    """The pairs whose groups lie behind different outcomes, the earlier group first."""
    for part, other in combinations(parts, 2):
        yield from ((min(i, j), max(i, j)) for i in members(part) for j in members(other))


def _whole(scale: int, weights: tuple[int, ...], paid: Sequence[Mapping[Pair, tuple[int, int]]]) -> Dues:
    """The dues that whole shares cover, and of each share what is needed."""
    due: dict[Pair, int] = {}
    for pair, both in chain.from_iterable(of.items() for of in paid):
        due[pair] = min(due.get(pair, sum(both)), sum(both))
    least = _SMALL * max(due.values())
    due = {pair: owed for pair, owed in sorted(due.items()) if owed > least}
    needed = ({pair: min(first, due[pair]) for pair, (first, _) in of.items() if pair in due} for of in paid)
    return Dues(scale, weights, due, tuple(needed))


def _cut(
    price: int, weights: tuple[int, ...], asked: Mapping[Pair, tuple[float, float]]
) -> dict[Pair, tuple[int, int]]:
    """Whole shares at one test; where those of a group come to more than the test costs it, less of each."""
    spent = [0.0] * len(weights)
    for pair, both in asked.items():
        for group, share in zip(pair, both, strict=True):
            spent[group] += share
    kept = [
        min(1.0, _JUST * price * weight / total) if total else 0.0
        for weight, total in zip(weights, spent, strict=True)
    ]
    return {
        (i, j): (int(first * kept[i]), int(second * kept[j])) for (i, j), (first, second) in asked.items()
    }
