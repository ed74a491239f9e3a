"""A good plan where the proof does not end: what is proven is used, the rest is tried out.

The quick plan asks for the most bits a minute (information gain). It may be off by a tenth. So at every
state the most hopeful moves are played to their end, each with the same care (a rollout of rollouts), and
the best of them is kept: first one move a state, then two, and more while that is soon done.
"""

from collections.abc import Callable, Mapping
from math import log2
from typing import Final

from engine.planner.moves import Move
from engine.planner.problem import Probe, Problem
from engine.planner.search import Search
from engine.planner.sums import Sums

#: So many moves of a state are played to the end with care, at most, and while fewer states than this were
#: met.
_WIDEST: Final = 5
_SOON: Final = 10_000


class Near:
    """Prices of states that some plan reaches, never below the least."""

    def __init__(self, search: Search, stop: Callable[[], bool] = lambda: False) -> None:
        self._search = search
        self.problem = search.problem
        self.moves = search.moves
        self._stop = stop
        self._quick: dict[int, int] = {}
        #: The prices found with care, for each width; the widest last.
        self._careful: list[dict[int, int]] = []
        self._everything = search.problem.everything

    def quick(self, state: int) -> int:
        """The price by the most bits a minute."""
        found = self._known(state, self._quick)
        if found is None:
            found = self._quick[state] = self._played(self._sharpest(state), self.quick)
        return found

    def careful(self, state: int, widest: int = _WIDEST) -> int:
        """The price with the most hopeful moves played to the end, so many or as there is time for."""
        for width in range(1, widest + 1):
            if len(self._quick) > _SOON or self._stop():
                break
            self._careful.append({})
            self._tried(state, width)
        return self._least(state) or self.quick(state)

    def best(self, state: int) -> Move:
        """The move of the best plan known; the sharpest where none is."""
        tried = [
            (price, move.test, move)
            for move in self.moves(state)
            if (price := self._priced(move)) is not None
        ]
        return min(tried)[2] if tried else self._sharpest(state)

    def _priced(self, move: Move) -> int | None:
        """The price of a move where all that comes after it is known."""
        after = [price for state in move.states if (price := self._least(state)) is not None]
        return move.price + self._search.together(after) if len(after) == len(move.states) else None

    def _known(self, state: int, among: Mapping[int, int]) -> int | None:
        """A price that is known already, proven rather than tried."""
        groups = state & self._everything
        return 0 if not groups & (groups - 1) else self._search.exact.get(state, among.get(state))

    def _least(self, state: int) -> int | None:
        """The least price known, however it was found."""
        found = (self._known(state, among) for among in (self._quick, *self._careful))
        return min((price for price in found if price is not None), default=None)

    def _tried(self, state: int, width: int) -> int:
        """The best of the quick price and of the hopeful moves."""
        known = self._careful[-1]
        found = self._known(state, known)
        if found is None:
            if self._stop():
                return self.quick(state)
            moves = sorted((self._played(move, self.quick), move.test, move) for move in self.moves(state))
            hopeful = (
                self._played(move, lambda after: self._tried(after, width)) for _, _, move in moves[:width]
            )
            found = known[state] = min(moves[0][0], *hopeful)
        return found

    def _played(self, move: Move, value: Callable[[int], int]) -> int:
        """The price of a move, if what comes after has this value."""
        return move.price + self._search.together(map(value, move.states))

    def _sharpest(self, state: int) -> Move:
        """The move with the most bits a minute."""
        groups, weight = state & self._everything, self._search.bound.weight
        tests = self.problem.tests
        return max(self.moves(state), key=lambda m: (_bits(tests[m.test], groups, weight) / m.price, -m.test))


def sharpest(problem: Problem, groups: int) -> int:
    """The number of the test that tells most a minute while these groups are suspected, set-ups left aside.

    >>> tenth, half = (Probe(f"t{bit}", 2, ("no", "yes"), (0b111 ^ bit, bit)) for bit in (0b010, 0b100))
    >>> sharpest(Problem((("a",), ("b",), ("c",)), (4, 1, 5), (tenth, half), (), 1), 0b111)
    1
    """
    weight, tests = Sums(problem.weights), problem.tests
    return max(range(len(tests)), key=lambda k: (_bits(tests[k], groups, weight) / tests[k].cost, -k))


def _bits(test: Probe, groups: int, weight: Callable[[int], int]) -> float:
    """How much a test tells, in bits times weight; one that only opens the way to another tells a little."""
    parts = [groups & part for part in test.parts]
    shares = [weight(part) for part in parts if part]
    whole = sum(shares)
    return -sum(share * log2(share / whole) for share in shares) if len(shares) > 1 else 1e-9
