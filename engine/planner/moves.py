"""What can be done next in a state of the search, and where each outcome leads."""

from collections.abc import Callable, Iterator
from typing import NamedTuple

from engine.planner.bound import Bound
from engine.planner.problem import Probe, Problem, members

#: Price and states of a move.
Hopeful = tuple[int, tuple[int, ...]]


class Move(NamedTuple):
    """A test done now: its price as often as it counts, and the states that still have to be parted."""

    price: int
    states: tuple[int, ...]
    #: The number of the test in the problem.
    test: int


class Moves:
    """The moves of every state that was asked for.

    Of two tests that lead to the same states the cheaper is kept. A test that parts nothing is a move only
    where another test waits for it.
    """

    def __init__(self, problem: Problem, bound: Bound) -> None:
        self._problem = problem
        self._bound = bound
        self._size = len(problem.weights)
        self._everything = problem.everything
        self._standing = (1 << len(problem.setups)) - 1
        self._tests = sorted(enumerate(problem.tests), key=lambda numbered: numbered[1].cost)
        self._alone = not any(test.needs or test.drops or test.mark or test.after for test in problem.tests)
        self._twofold = all(len(test.parts) <= 2 for test in problem.tests)
        self._known: dict[int, list[Move]] = {}

    def __call__(self, state: int) -> list[Move]:
        """All moves of a state, as they come."""
        found = self._known.get(state)
        if found is None:
            found = self._known[state] = self._plainly(state) if self._alone else self._carefully(state)
        return found

    def hopeful(self, state: int, ceiling: int, least: Callable[[int], int]) -> Iterator[Hopeful]:
        """The moves that a glance does not rule out; the others cost no less than the ceiling."""
        if self._bound.glance is None:
            yield from ((move.price, move.states) for move in self(state) if move.price < ceiling)
            return
        for price, *sides in self._bound.glance.splits(state, ceiling, least):
            yield price, tuple([side for side in sides if side & (side - 1)])

    def after(self, state: int, number: int) -> tuple[int, ...]:
        """The state behind each outcome of a test; 0 where nobody is behind it."""
        test, groups = self._problem.tests[number], state & self._everything
        above = self._above(state, test)
        return tuple((groups & part) | above if groups & part else 0 for part in test.parts)

    def _plainly(self, groups: int) -> list[Move]:
        """Without set-ups and precedence a state is the set of its groups."""
        times, seen, found = self._bound.times(groups), set(), []
        most = (1 << groups.bit_count() - 1) - 1 if self._twofold else 0
        for number, test in self._tests:
            pieces = _pieces(groups, test.parts)
            if len(pieces) < 2 or pieces in seen:
                continue
            seen.add(pieces)
            left = tuple(piece for piece in pieces if piece & (piece - 1))
            found.append(Move(test.cost * times, left, number))
            if len(found) == most:
                break  # a few groups are soon parted in every way there is
        return found

    def _carefully(self, state: int) -> list[Move]:
        """With set-ups to be paid, and with tests that wait for others."""
        groups, best = state & self._everything, dict[tuple[int, ...], Move]()
        times, done = self._bound.times(groups), state >> self._size + len(self._problem.setups)
        for number, test in self._tests:
            pieces = [piece for part in test.parts if (piece := groups & part)]
            if test.after & ~done or (len(pieces) < 2 and not test.mark & ~done):
                continue
            above = self._above(state, test)
            left = tuple(sorted(piece | above for piece in pieces if piece & (piece - 1)))
            price = self._price(state, test) * times
            if left not in best or price < best[left].price:
                best[left] = Move(price, left, number)
        return list(best.values())

    def _price(self, state: int, test: Probe) -> int:
        """What the test costs here: its own minutes, and those of the set-ups that do not stand."""
        missing = test.needs & ~(state >> self._size & self._standing)
        return test.cost + sum(self._problem.setups[k][1] for k in members(missing))

    def _above(self, state: int, test: Probe) -> int:
        """What stands above the groups once the test is done."""
        above, setups = state >> self._size, len(self._problem.setups)
        standing = (above & self._standing | test.needs) & ~test.drops
        return (standing | (above >> setups | test.mark) << setups) << self._size


def _pieces(groups: int, parts: tuple[int, ...]) -> tuple[int, ...]:
    """What a test makes of a set, in order; of two outcomes the second has what the first leaves.

    >>> _pieces(0b110, (0b011, 0b100)), _pieces(0b111, (0b100, 0b010, 0b001))
    ((2, 4), (1, 2, 4))
    """
    if len(parts) != 2:
        return tuple(sorted(piece for part in parts if (piece := groups & part)))
    first = groups & parts[0]
    second = groups ^ first
    return () if not first or not second else (first, second) if first < second else (second, first)
