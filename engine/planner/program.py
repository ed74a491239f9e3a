"""The linear program behind the dues of pairs.

Unknown are the due of every pair and, for every test and every pair that it parts, the shares of both; all
are zero or more. The dues together are to be as large as can be. A due is no more than its two shares at
each test that parts the pair; the shares of a group at a test come to no more than the price of the test
times the weight of the group. Where the weights are free they are unknown as well, and sum to 1.

Loading this takes a moment, since it loads the solver.
"""

from collections.abc import Callable, Sequence
from typing import NamedTuple

import numpy as np

from engine.planner.solver import Floats, Numbers, Program, solved


class Answer(NamedTuple):
    """Near the best, not exact; all in parts of the whole weight times the highest price."""

    #: All dues together.
    total: float
    #: The shares of both, for each pair of each test as they were given.
    first: Floats
    second: Floats
    #: In parts of the whole weight.
    weights: Floats


def answer(
    weights: Sequence[int],
    costs: Sequence[int],
    parted: Sequence[Sequence[tuple[int, int]]],
    stop: Callable[[], bool] = lambda: False,
    *,
    free: bool = False,
) -> Answer | None:
    """The largest dues, nearly, from what each group weighs, what each test costs and which pairs it parts.

    None where it was told to stop before there was an answer.

    >>> made = answer([3, 1], [2], [[(0, 1)]])  # the one test takes the whole weight times its price
    >>> made and round(made.total, 3)
    1.0
    """
    asked = _asked(weights, costs, parted)
    found = solved(_freed(asked, _program(asked)) if free else _program(asked), stop)
    if len(found) == 0 or not (total := float(found[: asked.pairs].sum())) > 0:
        return None
    shares = np.maximum(np.nan_to_num(found[asked.pairs :], posinf=0), 0)
    first, second, chosen = np.split(shares, [len(asked.test), 2 * len(asked.test)])
    return Answer(total, first, second, chosen if free else asked.weights)


class _Asked(NamedTuple):
    """What is given, and for every pair of every test: its test, both groups, and which pair it is."""

    weights: Floats
    prices: Floats
    test: Numbers
    first: Numbers
    second: Numbers
    pair: Numbers
    #: How many pairs there are.
    pairs: int


def _asked(
    weights: Sequence[int], costs: Sequence[int], parted: Sequence[Sequence[tuple[int, int]]]
) -> _Asked:
    """In parts of the whole weight and of the highest price."""
    first, second = np.array([pair for pairs in parted for pair in pairs]).T
    codes, pair = np.unique(first * len(weights) + second, return_inverse=True)
    test = np.repeat(np.arange(len(parted)), [len(pairs) for pairs in parted])
    prices = np.array(costs, float) / max(costs)
    return _Asked(np.array(weights, float) / sum(weights), prices, test, first, second, pair, len(codes))


def _program(asked: _Asked) -> Program:
    """Unknown: dues, shares of the first, of the second. Rows: dues under shares, shares under prices."""
    size, groups = len(asked.test), len(asked.weights)
    each, spent = np.arange(size), size + asked.test * groups
    first, second = asked.pairs + each, asked.pairs + size + each
    return Program(
        np.append(-np.ones(asked.pairs), np.zeros(2 * size)),
        np.append(np.zeros(size), np.outer(asked.prices, asked.weights)),
        np.concatenate([each, each, each, spent + asked.first, spent + asked.second]),
        np.concatenate([asked.pair, first, second, first, second]),
        np.concatenate([np.ones(size), -np.ones(2 * size), np.ones(2 * size)]),
    )


def _freed(asked: _Asked, program: Program) -> Program:
    """The same with unknown weights: they take the place of the limits, and a last row has their sum."""
    groups, size = len(asked.weights), len(asked.test)
    spent, known = np.arange(len(asked.prices) * groups), len(program.costs)
    last = np.full(groups, len(program.limits))
    return Program(
        np.append(program.costs, np.zeros(groups)),
        np.append(np.zeros(len(program.limits)), 1.0),
        np.concatenate([program.rows, size + spent, last]),
        np.concatenate([program.columns, known + spent % groups, known + np.arange(groups)]),
        np.concatenate([program.values, -asked.prices[spent // groups], np.ones(groups)]),
    )
