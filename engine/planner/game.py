"""The game whose value is the largest dues: one shares out pay at the tests, one picks tests for the pairs.

One player says of each group, at every test that it takes, how its pay (price times weight) is shared among
the pairs that are parted there. The other picks for each pair the tests by which it is to be parted, where
the two pay little for it. What each pair then has from its worst test is its due. All dues together are
largest in the middle of the game, where neither gains by moving on (a linear program and its dual).

Both move at once, time after time, and multiply what was good for them (Freund and Schapire, Games and
Economic Behavior 29:79-103, 1999), each guessing that the other's next move is like the last (Rakhlin and
Sridharan, Advances in Neural Information Processing Systems 26, 2013; both sources from memory). The mean of
the shares comes to 0.97 of the value and more within a hundred moves. Whatever shares come out, the dues that
they pay are dues; more moves only make them larger.

Where the longest way is wanted, the weights are free, and the first player moves them in the same manner.
"""

from collections.abc import Callable, Sequence
from typing import Final, NamedTuple

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Numbers = NDArray[np.int64]

#: How strongly each player follows what was good. Stronger is quicker at first and unsteady in the end.
_SHARE: Final = 1.5
_PICK: Final = 0.5
_WEIGH: Final = 0.5
#: More than this, a test that pays a pair more than the worst one is no worse for the second player.
_CLIP: Final = 1.2
#: What was dropped is never quite gone, so that it can come back.
_LEAST: Final = 1e-30
#: Once in so many moves the dues are measured by which pays are compared.
_MEASURED: Final = 5
#: What is below so small a part of the largest is as good as this.
_FAINT: Final = 1e-9
#: Where weights are free they are whole parts of this.
FREE: Final = 1 << 20
#: Sums of floating point numbers may be a little more than they seem.
_JUST: Final = 1 - 1e-9


class Board(NamedTuple):
    """For every pair of every test that parts it: the test, both groups, and which pair it is."""

    #: In parts of the whole weight, and of the highest price.
    weights: Floats
    prices: Floats
    test: Numbers
    first: Numbers
    second: Numbers
    pair: Numbers
    #: How many pairs there are.
    pairs: int


class Shares(NamedTuple):
    """What both groups of each pair of each test pay, and the weights that it holds for."""

    first: Floats
    second: Floats
    weights: Floats
    #: All dues that they pay.
    total: float


def board(weights: Sequence[int], costs: Sequence[int], behind: Sequence[Sequence[int]]) -> Board:
    """What is given: weights, prices, and of each test the outcome that each group leads to.

    >>> board([3, 1], [2], [[0, 1]]).pairs
    1
    """
    outcome = np.array(behind)
    test, first, second = np.nonzero(np.triu(outcome[:, :, None] != outcome[:, None, :], 1))
    codes, pair = np.unique(first * len(weights) + second, return_inverse=True)
    whole, highest = sum(weights), max(costs)
    shown = np.array([weight / whole for weight in weights]), np.array([cost / highest for cost in costs])
    return Board(*shown, test, first, second, pair, len(codes))


def played(on: Board, moves: int, stop: Callable[[], bool] = lambda: False, *, free: bool = False) -> Shares:
    """The mean of the shares over so many moves, or until it was told to stop; later moves count for more.

    >>> made = played(board([3, 1], [2], [[0, 1]]), 1)  # both pay all they have
    >>> made.first.round(3), made.second.round(3)
    (array([0.75]), array([0.25]))
    """
    sharer, picker = _Sharer(on, free=free), _Picker(on)
    paid, weighed = np.zeros(2 * len(on.test)), np.zeros(len(on.weights))
    for move in range(1, moves + 1):
        now = sharer.paid()
        paid, weighed = paid + move * now, weighed + move * sharer.weights
        if stop():
            break
        guess = picker.guess()
        picker.move(now, measure=move % _MEASURED == 1)
        sharer.move(now, np.tile(guess, 2))
    return _settled(on, paid / weighed.sum(), weighed / weighed.sum(), free=free)


class _Sharer:
    """The first player: how each group shares its pay at each test, and where they are free the weights."""

    def __init__(self, on: Board, *, free: bool) -> None:
        self.weights, self._free = on.weights, free
        self._member, test = np.concatenate([on.first, on.second]), np.tile(on.test, 2)
        self._price, self._row = on.prices[test], test * len(on.weights) + self._member
        self._share = _parted(np.ones(len(test)), self._row)

    def paid(self) -> Floats:
        """What the first of each pair pays at each test, and then what the second does."""
        paid: Floats = self._price * self.weights[self._member] * self._share
        return paid

    def move(self, paid: Floats, picks: Floats) -> None:
        """More to what will be picked."""
        self._share = _parted(self._share * np.exp(_SHARE * picks), self._row)
        if self._free:
            gains = np.zeros(len(self.weights))
            np.add.at(gains, self._member, paid * picks)
            # more weight to where a part of it gains more than the mean
            moved = self.weights * np.exp(_WEIGH * gains / np.maximum(self.weights, _LEAST) / gains.sum())
            kept: Floats = np.maximum(moved / moved.sum(), _FAINT)
            self.weights = kept / kept.sum()


class _Picker:
    """The second player: by which tests each pair is to be parted, in parts of 1."""

    def __init__(self, on: Board) -> None:
        self._pair = on.pair
        self._before = self._pick = _parted(np.ones(len(on.test)), on.pair)
        self._pay, self._inverse = np.zeros(len(on.test)), np.zeros(0)

    def guess(self) -> Floats:
        """What is likely to be picked next."""
        return 2 * self._pick - self._before

    def move(self, paid: Floats, *, measure: bool) -> None:
        """More to where less is paid, in parts of what the pair has from the tests picked."""
        both = paid[: len(self._pick)] + paid[len(self._pick) :]
        if measure:
            due = np.bincount(self._pair, self._pick * both)
            self._inverse = 1 / np.maximum(due, _FAINT * due.max())[self._pair]
        last, self._pay = self._pay, np.minimum(both * self._inverse, _CLIP)
        moved = self._pick * np.exp(_PICK * (last - 2 * self._pay))
        self._before, self._pick = self._pick, _parted(moved, self._pair)


def _settled(on: Board, paid: Floats, weights: Floats, *, free: bool) -> Shares:
    """The shares with weights in whole parts, a little below all that there is, and none above its due."""
    member, pair = np.concatenate([on.first, on.second]), np.tile(on.pair, 2)
    whole = np.floor(weights * FREE) / FREE if free else on.weights
    paid = paid * (_JUST * whole / weights)[member]
    due = np.full(on.pairs, np.inf)
    np.minimum.at(due, on.pair, sum(np.split(paid, 2)))
    first, second = np.split(np.minimum(paid, due[pair]), 2)
    return Shares(first, second, whole, float(due.sum()))


def _parted(amounts: Floats, by: Numbers) -> Floats:
    """The same, so that those with the same number come to 1 together."""
    parts: Floats = np.maximum(amounts / np.bincount(by, amounts)[by], _LEAST)
    return parts
