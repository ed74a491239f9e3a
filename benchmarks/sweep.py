"""Every kind of matrix of thirty faults that we could think of, with all kinds of weights and prices.

Half, three, two or one in ten of the faults fail each test; units that depend on each other, a tree of them,
or parts in a row; and tests that few faults fail, one to four of them or always as many, drawn by chance or
the same pattern all around a ring. Each with equal weights, exponential ones, and some a thousand times as
likely as others; and so with prices, two of which may be near each other.
"""

import random
import statistics
import time
from collections.abc import Callable, Mapping
from itertools import product
from typing import Final

from benchmarks.planning import by_chance, dependency, few, written
from engine.model.matrix import Matrix
from engine.planner.planning import plan

_SIZE: Final = 30
#: What a plan may take, and when it is stopped.
_TARGET: Final = 0.5
_LIMIT: Final = 10.0
#: Where weights and prices are all equal there is one pair of them, and so many more of each.
_EQUAL: Final = 5

Draw = Callable[[random.Random], int]
_WEIGHTS: Final[Mapping[str, Draw]] = {
    "equal": lambda _: 1,
    "1 to 10": lambda rng: rng.randint(1, 10),
    "exponential": lambda rng: max(1, round(rng.expovariate(1) * 1000)),
    "lognormal(0, 2)": lambda rng: max(1, round(rng.lognormvariate(0, 2) * 1000)),
}
_PRICES: Final[Mapping[str, Draw]] = {
    "equal": lambda _: 1,
    "1 or 2": lambda rng: rng.randint(1, 2),
    "4 or 5": lambda rng: rng.randint(4, 5),
    "1 to 5": lambda rng: rng.randint(1, 5),
    "lognormal(0, 1)": lambda rng: round(10 * rng.lognormvariate(0, 1) + 1),
    "lognormal(0, 2)": lambda rng: round(10 * rng.lognormvariate(0, 2) + 1),
}


def _by_chance(share: float) -> Callable[[random.Random], list[int]]:
    return lambda rng: by_chance(_SIZE, rng, share)


def _few(least: int, most: int) -> Callable[[random.Random], list[int]]:
    return lambda rng: few(_SIZE, rng, least, most)


def _tree(rng: random.Random) -> list[int]:
    """A test of each part fails for the part and all below it."""
    above = [0, *(rng.randrange(k) for k in range(1, _SIZE))]
    masks = [1 << k for k in range(_SIZE)]
    for k in range(_SIZE - 1, 0, -1):
        masks[above[k]] |= masks[k]
    return masks


def _row(rng: random.Random) -> list[int]:
    """Each test looks at a stretch of a row of parts."""
    ends = ((rng.randint(0, _SIZE // 2), rng.randint(1, _SIZE)) for _ in range(_SIZE))
    return [((1 << last) - 1) >> first << first or 1 for first, last in ends]


def _ring(*steps: int) -> Callable[[random.Random], list[int]]:
    """The first test knows these faults, each other test the next ones."""
    return lambda _: [sum(1 << (first + step) % _SIZE for step in steps) for first in range(_SIZE)]


_KINDS: Final[Mapping[str, Callable[[random.Random], list[int]]]] = {
    "half of the faults fail": _by_chance(0.5),
    "three in ten fail": _by_chance(0.3),
    "two in ten fail": _by_chance(0.2),
    "one in ten fails": _by_chance(0.1),
    "dependency": lambda rng: dependency(_SIZE, rng),
    "tree": _tree,
    "stretches of a row": _row,
    "six faults a test": _few(6, 6),
    "one to four faults a test": _few(1, 4),
    "four faults a test": _few(4, 4),
    "three faults a test": _few(3, 3),
    "two faults a test": _few(2, 2),
    "a ring of pairs": _ring(0, 1),
    "a ring of triples": _ring(0, 1, 3),
    "a ring of fives": _ring(0, 1, 3, 7, 12),
}


def made(kind: str, weights: str, prices: str, seed: int) -> Matrix:
    """One of them."""
    rng = random.Random(f"{kind}, {weights}, {prices}, {seed}")
    drawn = [_WEIGHTS[weights](rng) for _ in range(_SIZE)]
    return written(drawn, _KINDS[kind](rng), [_PRICES[prices](rng) for _ in range(_SIZE)])


def measure(seeds: int) -> str:
    """How many of each kind are proven in the time; where all is equal, in rows of their own."""
    pairs = len(_WEIGHTS) * len(_PRICES)
    lines = [
        f"### Matrices of 30x30: {pairs} weights and prices of each kind, {seeds} of each",
        "",
        f"| kind | proven in {_TARGET} s | proven in {_LIMIT:.0f} s | median s | longest s | largest gap |",
        "|---|--:|--:|--:|--:|--:|",
    ]
    plan(made("tree", "equal", "equal", 0))  # what is loaded once
    for kind in _KINDS:
        lots = {"": [pair for pair in product(_WEIGHTS, _PRICES) if pair != ("equal", "equal")]}
        for name, some in (lots | {", weights and prices all equal": [("equal", "equal")]}).items():
            many = seeds if name == "" else _EQUAL * seeds
            told = [_taken(made(kind, *pair, seed)) for pair in some for seed in range(many)]
            lines.append(f"| {kind}{name} {_row_of(told)}")
    return "\n".join(lines) + "\n"


def _taken(matrix: Matrix) -> tuple[float, float]:
    """Seconds of the processor, and the gap that is left; the soonest of three, where the first takes long.

    What else the machine does only adds to the seconds, by half and more.
    """
    told = _once(matrix)
    return min(told, _once(matrix), _once(matrix)) if _TARGET < told[0] < _LIMIT else told


def _once(matrix: Matrix) -> tuple[float, float]:
    began = time.process_time()
    found = plan(matrix, stop=lambda: time.process_time() - began > _LIMIT)
    return time.process_time() - began, float((found.expected - found.bound) / found.expected)


def _row_of(told: list[tuple[float, float]]) -> str:
    seconds = [taken for taken, _ in told]
    soon = sum(taken <= _TARGET and not gap for taken, gap in told)
    proven = sum(not gap for _, gap in told)
    return (
        f"| {soon}/{len(told)} | {proven}/{len(told)} | {statistics.median(seconds):.2f} "
        f"| {max(seconds):.2f} | {max(gap for _, gap in told):.1%} |"
    )
