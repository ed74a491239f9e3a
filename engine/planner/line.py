"""The main line of a plan, searched in breadth, where each test singles out a few groups at most.

What a few groups cost once they are singled out is soon known, whatever else was suspected. What is left to
decide is a row of tests: which groups are still suspected after one of them, after two, after three. All such
sets after so many tests stand side by side in arrays, each with the least that was paid on the way to it.
Those that cannot come to less than the best plan known are dropped, by what numbers of groups cost and what
pairs owe. A narrow pass finds a good plan, a whole one proves that none is better.
"""

from collections.abc import Iterator, Mapping, Sequence
from functools import partial
from typing import Final, NamedTuple

import numpy as np
from numpy.typing import NDArray

from engine.planner.floors import NEVER, Floors, Ints
from engine.planner.problem import fews
from engine.planner.search import Search
from engine.planner.takes import Take, takes

#: The most groups that a test may single out, and that bits of an array have room for; and the most tests.
_FEW: Final = 9
_GROUPS: Final = 60
_TESTS: Final = 100
#: Bits of a number in an array, its sign left out.
_ROOM: Final = 63
#: Prices and dues stay below this, far from where the numbers of an array run over.
_MODEST: Final = 1 << 53
#: Sets that a narrow pass keeps after each test.
_NARROW: Final = 100
#: The most tests of sets that a pass looks at in all: without dues (they make them fewer), and with dues.
_MOST: Final = (600_000, 3_000_000)


class Layer(NamedTuple):
    """The sets that are kept after so many tests, and all that come one test later, both in order."""

    sets: Ints
    paid: Ints
    after: Ints
    floors: Ints


class Walked(NamedTuple):
    """A pass: the price of the best plan known at its end, and its layers from the start on."""

    best: int
    layers: list[Layer]


def proven(search: Search, best: int) -> bool:
    """Whether the least price of the start is found this way; then it is exact, and the proof is kept.

    `best` is the price of some plan.

    :raises Stopped: when the search was told to stop; nothing is kept then.
    """
    problem, prices = search.problem, fews(search.problem)
    if not (problem.plain and search.goal == "expected" and prices and _fits(search, prices)):
        return False
    line = Line(search, takes(problem.weights, prices))
    rough = line.walked(best, _NARROW)
    whole = line.walked(rough.best, 0) if rough else None
    if not rough or not whole:
        return False
    search.exact[problem.everything] = search.low[problem.everything] = whole.best
    search.exact.update(line.known())
    for walked in (rough, whole):
        if walked.best == whole.best < best:
            search.exact.update(line.way(walked))
            best = whole.best
    search.unsaid.append(partial(line.claim, whole))
    return True


def _fits(search: Search, prices: Mapping[int, int]) -> bool:
    """Whether the sets have room in arrays, and their prices too, whatever is done."""
    weights, dues = search.problem.weights, search.bound.dues
    dearest = max(prices.values()) * sum(weights) * (len(weights) + 1)
    modest = max(dearest, sum(dues.due.values()) if dues else 0) < _MODEST
    small = len(weights) <= _GROUPS and len(prices) <= _TESTS
    return modest and small and all(few.bit_count() <= _FEW for few in prices)


class Line:
    """The row of tests of one problem."""

    def __init__(self, search: Search, singled: Sequence[Take]) -> None:
        self._search, self._takes = search, singled
        self._floors = Floors(search.problem, search.bound)
        self._most = _MOST[search.bound.dues is not None]

    def walked(self, best: int, narrow: int) -> Walked | None:
        """All sets that may be part of a plan cheaper than the best, or the most hopeful after each test.

        None where they are too many.
        """
        layers, looked = list[Layer](), 0
        sets, paid = np.array([self._search.problem.everything], dtype=np.int64), np.zeros(1, dtype=np.int64)
        while len(sets) and (looked := looked + len(sets) * len(self._takes)) < self._most:
            self._search.breathe(len(sets))
            after, spent = self._after(sets, paid)
            done = after & (after - 1) == 0
            best = min(best, int(spent[done].min(initial=NEVER)))
            after, spent = after[~done], spent[~done]
            floors = self._floors(after, best - spent)
            hopeful = np.flatnonzero(spent + floors < best)
            layers.append(Layer(sets, paid, after, floors))
            if 0 < narrow < len(hopeful):
                hopeful = np.sort(hopeful[np.argsort((spent + floors)[hopeful], kind="stable")[:narrow]])
            sets, paid = after[hopeful], spent[hopeful]
        return None if len(sets) else Walked(best, layers)

    def way(self, walked: Walked) -> dict[int, int]:
        """The sets on the row of tests that comes to the best price, and what each still costs."""
        found, target, paid = dict[int, int](), 0, walked.best
        for layer in reversed(walked.layers):
            for here, after, cost in self._spread(layer.sets):
                right = after == target if target else after & (after - 1) == 0
                hits = here[right & (layer.paid[here] + cost == paid)]
                if len(hits):
                    target, paid = int(layer.sets[hits[0]]), int(layer.paid[hits[0]])
                    found[target] = walked.best - paid
                    break
        return found

    def known(self) -> dict[int, int]:
        """What every part of what a test singles out costs."""
        return {some: cost for take in self._takes for some, cost in take.known().items()}

    def claim(self, walked: Walked) -> None:
        """Keep what every set costs at least, from the last to the first, by what comes after it."""
        low, later = self._search.low, (np.zeros(0, dtype=np.int64),) * 2
        low.update(self.known())
        for layer in reversed(walked.layers):
            floors = layer.floors.copy()
            known, least = later
            at = np.searchsorted(layer.after, known)
            floors[at] = np.maximum(floors[at], least)
            lows = np.full(len(layer.sets), NEVER, dtype=np.int64)
            for here, after, cost in self._spread(layer.sets):
                still = after & (after - 1) != 0
                cost[still] += floors[np.searchsorted(layer.after, after[still])]
                lows[here] = np.minimum(lows[here], cost)
            later = layer.sets, lows
            for state, price in zip(layer.sets.tolist(), lows.tolist(), strict=True):
                low[state] = max(price, low.get(state, 0))

    def _spread(self, sets: Ints) -> Iterator[tuple[Ints, Ints, Ints]]:
        """For each test the numbers of the sets that it parts, what it leaves of them, and what it costs."""
        weight = self._floors.weight(sets)
        for take in self._takes:
            left = sets & ~take.few
            here = np.flatnonzero((left != 0) & (left != sets))
            yield here, left[here], take.price * weight[here] + take.costs[take.parts(sets[here])]

    def _after(self, sets: Ints, paid: Ints) -> tuple[Ints, Ints]:
        """All sets that one more test leaves, in order, and the least that was paid on the way to each."""
        spread = [(after, paid[here] + cost) for here, after, cost in self._spread(sets)]
        after, spent = (np.concatenate(column) for column in zip(*spread, strict=True))
        return cheapest(after, spent)


def cheapest(sets: Ints, prices: Ints) -> tuple[Ints, Ints]:
    """Each of some sets once, in order, with the least of its prices; one set there is at least.

    >>> cheapest(np.array([4, 1, 4]), np.array([7, 5, 6]))
    (array([1, 4]), array([5, 6]))
    """
    width = int(prices.max()).bit_length()
    if int(sets.max()).bit_length() + width > _ROOM:
        order = np.lexsort((prices, sets))
        sets, prices = sets[order], prices[order]
        first = _first(sets)
        return sets[first], prices[first]
    # side by side in one number they are sorted several times as fast
    both = sets << width
    both |= prices
    both.sort()
    both = both[_first(both >> width)]
    return both >> width, both & (1 << width) - 1


def _first(ordered: Ints) -> NDArray[np.bool_]:
    """Where something stands that did not stand before it."""
    return np.concatenate(([True], ordered[1:] != ordered[:-1]))
