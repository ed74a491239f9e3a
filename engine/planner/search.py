"""Branch and bound over the states of a matrix: the least minutes, or how far the proof came.

Depth first. A state is solved below a ceiling: either its exact price comes back, or a proof that it costs
at least the ceiling. Both are kept, so that no state is solved twice and every proof makes the next one
shorter. Where the first tries do not end soon, the ceiling starts at the bound and rises step by step: what
it has passed is proven, whenever the search is stopped.
"""

import sys
from collections.abc import Callable, Iterable
from functools import partial
from typing import Final, Literal

from engine.planner.bound import Bound, WorstBound
from engine.planner.moves import Move, Moves
from engine.planner.problem import Problem

#: The mean way over the weights of the faults, or the longest way.
Goal = Literal["expected", "worst"]
#: How far the ceiling rises each time.
_RISE: Final = 0.25
#: The question whether to stop is asked once in so many states.
_BREATH: Final = 64


class Stopped(Exception):  # noqa: N818  reason: it is no error
    """The search was told to stop."""


class _Again(Exception):  # noqa: N818  reason: it is no error
    """The eager try took too long."""


def _longest(prices: Iterable[int]) -> int:
    return max(prices, default=0)


class Search:
    """Exact prices and lower bounds of states, growing while it runs."""

    def __init__(
        self, problem: Problem, goal: Goal = "expected", stop: Callable[[], bool] = lambda: False
    ) -> None:
        self.problem = problem
        self.bound = WorstBound(problem) if goal == "worst" else Bound(problem)
        self.goal: Goal = goal
        #: What the prices of the states behind a move come to together.
        self.together: Callable[[Iterable[int]], int] = _longest if goal == "worst" else sum
        self.moves = Moves(problem, self.bound)
        #: Exact prices of states.
        self.exact: dict[int, int] = {}
        #: Lower bounds that are better than the bound of their groups.
        self.low: dict[int, int] = {}
        #: What adds the bounds that a certificate needs and the search does not.
        self.unsaid: list[Callable[[], None]] = []
        self.solved = 0
        self._everything = problem.everything
        self.stop = stop
        self._allowed = float("inf")
        # a way is no longer than this, and takes up to six frames a test; more would let hostile text of
        # other readers, nested deeply, run over the stack of the process
        deep = 1000 + 6 * (len(problem.weights) + len(problem.tests))
        sys.setrecursionlimit(max(sys.getrecursionlimit(), deep))

    def plain(self, state: int) -> int:
        """The lower bound that the groups of a state have from themselves."""
        return self.bound(state & self._everything)

    def paired(self, state: int) -> int:
        """The part of it that is soon found."""
        return self.bound.pairs(state & self._everything)

    def least(self, state: int) -> int:
        """The best lower bound known of a state."""
        found = self.low.get(state)
        return self.bound(state & self._everything) if found is None else found

    def _soon(self, state: int) -> int:
        """A lower bound that is soon found."""
        found = self.low.get(state)
        return self.paired(state) if found is None else found

    def eager(self, ceiling: int, states: int) -> bool:
        """Whether a try of so many states solves the start: it is exact then, or as dear as the ceiling.

        :raises Stopped: when it was told to stop; what was proven until then stays.
        """
        self._allowed = self.solved + states
        try:
            # the longest way has few prices, and far below the ceiling most moves are soon refused
            (self.prove if self.goal == "worst" else partial(self._below, self._everything))(ceiling)
        except _Again:
            return False
        finally:
            self._allowed = float("inf")
        return True

    def prove(self, ceiling: int, told: Callable[[], None] = lambda: None) -> None:
        """Raise the lower bound of the start until it is exact, or reaches the ceiling (which then is exact).

        :raises Stopped: when it was told to stop; what was proven until then stays.
        """
        start = self._everything
        while start not in self.exact and (low := self.least(start)) < ceiling:
            told()
            gap = ceiling - low
            self._below(start, ceiling if 50 * gap < ceiling else low + max(1, int(_RISE * gap)))

    def breathe(self, states: int) -> None:
        """Count so many states.

        :raises Stopped: when it was told to stop.
        """
        self.solved += states
        if self.stop():
            raise Stopped

    def again(self, move: Move, least: int) -> None:
        """Prove once more that a move costs so much, by what is known of bounds now."""
        stop, self.stop = self.stop, lambda: False
        self._after(move.price, move.states, least)
        self.stop = stop

    def _below(self, state: int, ceiling: int) -> int:
        """The exact price where it lies below the ceiling, else a lower bound that does not."""
        known = self.exact.get(state)
        if known is not None:
            return known
        low = self.least(state)
        if low >= ceiling:
            return low
        self._breathe()
        best, solved = ceiling, False
        for guess, price, states in self._order(state, ceiling):
            if guess >= best:
                break
            found = self._after(price, states, best)
            if found < best:
                best, solved = found, True
        if solved:
            self.exact[state] = best
        self.low[state] = max(low, best)
        return self.low[state]

    def _after(self, price: int, states: tuple[int, ...], ceiling: int) -> int:
        """The price of a move with all that comes after it, where that lies below the ceiling."""
        after = [self.least(state) for state in states]
        for k in self._turns(states, after):
            state = states[k]
            total = price + self.together(after)
            if total >= ceiling:
                return ceiling
            # what the others leave; on the longest way every state may take all of it
            room = ceiling - price if self.goal == "worst" else ceiling - total + after[k]
            after[k] = self._below(state, room)
        return price + self.together(after)

    def _turns(self, states: tuple[int, ...], after: list[int]) -> Iterable[int]:
        """In which order the states behind a move are solved.

        On the longest way the dearest comes first: it alone may be too dear. Else the one with the shortest
        way: it is soon solved, and what it takes leaves the others less room.
        """
        if len(states) < 2:
            return range(len(states))
        if self.goal == "worst":
            return sorted(range(len(states)), key=lambda k: -after[k])
        weight = self.bound.weight
        return sorted(range(len(states)), key=lambda k: after[k] / weight(states[k] & self._everything))

    def _order(self, state: int, ceiling: int) -> list[tuple[int, int, tuple[int, ...]]]:
        """The moves that may cost less than the ceiling, the most hopeful first."""
        least, soon, together, found = self.least, self._soon, self.together, []
        paired = self.bound.dues is not None
        for price, states in self.moves.hopeful(state, ceiling, least):
            # what takes longer to say is asked only where the rest does not decide
            if not (paired and price + together(map(soon, states)) >= ceiling):
                guess = price + together(map(least, states))
                if guess < ceiling:
                    found.append((guess, price, states))
        found.sort()
        return found

    def _breathe(self) -> None:
        """Count, and stop where that is wanted."""
        self.solved += 1
        if self.solved > self._allowed:
            raise _Again
        if not self.solved % _BREATH and self.stop():
            raise Stopped
