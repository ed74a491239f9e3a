"""A lower bound from pairs: whatever tells two suspects apart, both have paid for it.

Every two groups are parted once, by a test that both have taken. So give each pair a **due**, and let every
test divide the dues of the pairs that it parts between the two: the **shares**. Suppose that at no test the
shares of one group come to more than the test costs it, its price times the weight of the group. Then no
plan undercuts the dues: at every test of a plan the groups still suspected pay price times weight, which is
at least their shares, which are at least the dues of the pairs parted there. That holds for any suspects
with the dues of the pairs among them, so the dues are found once and serve every state of the search.

The largest dues are found by a game (`engine/planner/game.py`). On random matrices of 30 faults they come to
0.90 of the least cost and more, to 0.97 and more where each test knows few faults or where units depend on
each other. Whatever the game answers is rounded down to whole numbers; only these are relied on, so the
bound is exact however rough the answer was.

Where the longest way is wanted instead of the mean one, the weights are free: no mean is longer than the
longest way, however the groups are weighed. The game then moves the weights as well.
"""

from collections.abc import Callable, Iterator, Mapping
from fractions import Fraction
from itertools import combinations
from operator import add
from typing import TYPE_CHECKING, Final, NamedTuple

from engine.planner.entropy import Split
from engine.planner.problem import Probe, Problem, members
from engine.planner.sums import PairSums, Parted, Sums

if TYPE_CHECKING:
    from engine.planner.game import Board, Shares

#: The sum of all dues lies near this, so that rounding takes little and any reader of JSON holds it.
_SUM: Final = 1 << 50
#: Dues below this share of the largest are left out of the proof.
_SMALL: Final = 1e-9
#: More pairs than this, counted at each test that parts them, take too long.
MOST: Final = 60_000

Pair = tuple[int, int]


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

    @property
    def mean(self) -> Fraction:
        """What all pairs owe together, over the weights."""
        return Fraction(sum(self.due.values()), self.scale * sum(self.weights))


class Paying:
    """Tests with two outcomes, by what the pairs that they part owe; all pairs together less than 2^63."""

    def __init__(self, problem: Problem, dues: Dues, owed: PairSums) -> None:
        tests = sorted((test for test in problem.tests if len(test.parts) > 1), key=lambda test: test.cost)
        self._parts, self._prices = [test.parts[0] for test in tests], [test.cost for test in tests]
        self._weight, self._scale = Sums(problem.weights), dues.scale
        self._owed = owed
        self._parted = Parted(len(problem.weights), dues.due, self._parts)

    def splits(self, groups: int, ceiling: int, _: Callable[[int], int]) -> Iterator[Split]:
        """Every split of a set that may cost less than the ceiling, once."""
        weight, owed, scale, seen = self._weight(groups), self._owed(groups), self._scale, set[int]()
        for part, price, parted in zip(self._parts, self._prices, self._parted(groups), strict=True):
            paid = price * weight
            if owed - parted < (ceiling - paid) * scale:
                side = groups & part
                if side and side != groups and side not in seen:
                    seen |= {side, groups ^ side}
                    yield paid, side, groups ^ side


def dues(
    problem: Problem, moves: int, stop: Callable[[], bool] = lambda: False, *, free: bool = False
) -> Dues | None:
    """The largest dues, nearly, for the weights of the problem or for weights that are free to choose.

    None where that takes too long.
    """
    if not 0 < size(problem) <= MOST:
        return None
    from engine.planner.game import FREE, board, played

    groups, costs = len(problem.weights), [test.cost for test in problem.tests]
    on = board(problem.weights, costs, [_behind(test, groups) for test in problem.tests])
    found = played(on, moves, stop, free=free)
    weights = tuple(int(weight * FREE) for weight in found.weights) if free else problem.weights
    return _whole(on, found, weights, (FREE if free else sum(weights)) * max(costs))


def size(problem: Problem) -> int:
    """How often a test parts a pair of groups: the time that dues take grows with it."""
    return sum(
        part.bit_count() * other.bit_count()
        for test in problem.tests
        for part, other in combinations(test.parts, 2)
    )


def _behind(test: Probe, groups: int) -> list[int]:
    """The outcome that each group leads to."""
    found = [0] * groups
    for number, part in enumerate(test.parts):
        for group in members(part):
            found[group] = number
    return found


def _whole(on: "Board", found: "Shares", weights: tuple[int, ...], unit: int) -> Dues:
    """The dues that whole shares cover, and of each share what is needed."""
    scale = max(1, int(_SUM / (found.total * unit)))
    first, second = (
        [int(part * unit * scale) for part in side.tolist()] for side in (found.first, found.second)
    )
    pairs = list(zip(on.first.tolist(), on.second.tolist(), strict=True))
    due = dict[Pair, int]()
    for pair, both in zip(pairs, map(add, first, second), strict=True):
        due[pair] = min(due.get(pair, both), both)
    least = _SMALL * max(due.values())
    due = {pair: owed for pair, owed in sorted(due.items()) if owed > least}
    shares = [dict[Pair, int]() for _ in on.prices]
    for test, pair, share in zip(on.test.tolist(), pairs, first, strict=True):
        if pair in due:
            shares[test][pair] = min(share, due[pair])
    return Dues(scale, weights, due, tuple(shares))
