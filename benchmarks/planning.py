"""The planner: how many matrices it proves in the time, and how it compares with a plain memo.

Kinds: `random` has tests that half of the faults fail (three in ten where costs differ), `dependency` a
graph of units each of which depends on up to two before it, a test failing for all that its unit depends
on, `sparse` tests that one to four faults fail. Weights are exponential, unequal costs `round(10 *
lognormal + 1)`. Seconds are of the processor, so that what else runs does not count.
"""

import random
import statistics
import time
from collections.abc import Callable, Sequence
from fractions import Fraction
from functools import partial
from typing import NamedTuple

from engine.model.matrix import Fault, Matrix, Trial, TrialOutcome
from engine.model.place import Place
from engine.planner.near import Near, sharpest
from engine.planner.planning import Planned, plan
from engine.planner.problem import problem
from engine.planner.search import Search

_PLACE = Place("made", 1, 1)


class _Case(NamedTuple):
    """A row: size, kind, whether costs differ, how many instances, and the seconds that each may take."""

    size: int
    kind: str
    costs: str
    instances: int
    limit: float
    target: str


_CASES = (
    _Case(30, "random", "equal", 10, 5, "all in 0.5 s"),
    _Case(30, "random", "unequal", 10, 5, "all in 0.5 s"),
    _Case(30, "dependency", "unequal", 10, 5, "all in 0.5 s"),
    _Case(30, "sparse", "unequal", 10, 5, "all in 0.5 s"),
    _Case(100, "random", "equal", 5, 10, "all in 5 s"),
    _Case(100, "random", "unequal", 5, 20, ""),
    _Case(60, "dependency", "unequal", 6, 30, "3 % in 30 s"),
)


def made(size: int, kind: str, *, unequal: bool, seed: int) -> Matrix:
    """A random matrix of a kind."""
    rng = random.Random(seed)
    weights = [max(1, round(rng.expovariate(1) * 1000)) for _ in range(size)]
    masks = {"random": _random, "dependency": _dependency, "sparse": _sparse}[kind](size, rng, unequal)
    costs = [round(10 * rng.lognormvariate(0, 1) + 1) if unequal else 1 for _ in range(size)]
    return written(weights, masks, costs)


def written(weights: Sequence[int], masks: Sequence[int], costs: Sequence[int]) -> Matrix:
    """A matrix: the weight of each fault; for each test the faults that fail it (bits), and its minutes."""
    faults = tuple(
        Fault(f"f{k}", f"f{k}", Fraction(weight), None, _PLACE) for k, weight in enumerate(weights)
    )
    tests = (_trial(k, mask, costs[k], len(weights)) for k, mask in enumerate(masks))
    return Matrix("made", "Made", _PLACE, faults, tuple(tests), ())


def _trial(number: int, mask: int, cost: int, size: int) -> Trial:
    behind = [[f"f{k}" for k in range(size) if (mask >> k & 1) == side] for side in (0, 1)]
    outcomes = tuple(
        TrialOutcome(name, dict.fromkeys(faults, Fraction(1)))
        for name, faults in zip(("passes", "fails"), behind, strict=True)
    )
    return Trial(f"t{number}", "", Fraction(cost), outcomes, (), (), (), _PLACE)


def _random(size: int, rng: random.Random, unequal: object) -> list[int]:
    return by_chance(size, rng, 0.3 if unequal else 0.5)


def by_chance(size: int, rng: random.Random, share: float) -> list[int]:
    """Each fault fails each test with this probability."""
    return [sum(1 << k for k in range(size) if rng.random() < share) for _ in range(size)]


def _dependency(size: int, rng: random.Random, _: object) -> list[int]:
    return dependency(size, rng)


def dependency(size: int, rng: random.Random) -> list[int]:
    """Units that depend on up to two before them; a test fails for all that its unit depends on."""
    masks: list[int] = []
    for unit in range(size):
        mask = 1 << unit
        for _ in range(rng.randint(1, 2) if unit > 1 else min(unit, 1)):
            mask |= masks[rng.randrange(unit)]
        masks.append(mask)
    return masks


def _sparse(size: int, rng: random.Random, _: object) -> list[int]:
    return few(size, rng, 1, 4)


def few(size: int, rng: random.Random, least: int, most: int) -> list[int]:
    """So many faults fail each test."""
    return [sum(1 << k for k in rng.sample(range(size), rng.randint(least, most))) for _ in range(size)]


def proofs() -> str:
    """How many of each kind are proven, how quickly, and how near the others come."""
    lines = [
        "### Plans proven, with the gap that is left where they are not",
        "",
        "| faults x tests | kind | costs | proven | median s | longest s | largest gap | target |",
        "|---|---|---|--:|--:|--:|--:|---|",
    ]
    for case in _CASES:
        told = [_taken(case, seed) for seed in range(case.instances)]
        seconds = [taken for _, taken in told]
        gaps = [float((found.expected - found.bound) / found.expected) for found, _ in told]
        proven = sum(found.proven for found, _ in told)
        lines.append(
            f"| {case.size}x{case.size} | {case.kind} | {case.costs} "
            f"| {proven}/{case.instances} | {statistics.median(seconds):.2f} | {max(seconds):.2f} "
            f"| {max(gaps):.1%} | {case.target} |"
        )
    return "\n".join(lines) + "\n"


def _taken(case: _Case, seed: int) -> tuple[Planned, float]:
    matrix = made(case.size, case.kind, unequal=case.costs == "unequal", seed=seed)
    began = time.process_time()
    found = plan(matrix, stop=lambda: time.process_time() - began > case.limit)
    return found, time.process_time() - began


def against_memo() -> str:
    """Seconds of a plain memo over sets of faults, as multiples of the planner's."""
    lines = [
        "### The planner against a plain memo over sets of faults: five matrices of each kind",
        "",
        "| faults x tests | kind | memo s | planner s | memo / planner |",
        "|---|---|--:|--:|--:|",
    ]
    for size, kind in (
        (12, "random"),
        (16, "random"),
        (12, "dependency"),
        (16, "dependency"),
        (12, "sparse"),
    ):
        matrices = [made(size, kind, unequal=True, seed=seed) for seed in range(5)]
        memo = _timed(partial(list, map(_memo, matrices)))
        ours = _timed(partial(list, map(plan, matrices)))
        lines.append(f"| {size}x{size} | {kind} | {memo:.3f} | {ours:.3f} | {memo / ours:.1f} |")
    return "\n".join(lines) + "\n"


def _memo(matrix: Matrix) -> int:
    """The least price by trying every test in every state, each state once."""
    seen = problem(matrix)
    known: dict[int, int] = {}

    def least(groups: int) -> int:
        if not groups & (groups - 1):
            return 0
        if groups not in known:
            weight = sum(w for k, w in enumerate(seen.weights) if groups >> k & 1)
            known[groups] = min(
                test.cost * weight + sum(least(groups & part) for part in test.parts)
                for test in seen.tests
                if all(groups & part != groups for part in test.parts)
            )
        return known[groups]

    return least(seen.everything)


def fallback(count: int) -> str:
    """How far the plan without a proof is from the known optimum."""
    lines = [
        f"### Where the proof is left out: {count} matrices of each kind, 20 to 25 faults and tests",
        "",
        "| kind | costs | most bits a minute: mean, worst | tried out with care: mean, worst | target |",
        "|---|---|--:|--:|---|",
    ]
    for kind, unequal in (
        ("random", False),
        ("random", True),
        ("dependency", False),
        ("dependency", True),
        ("sparse", True),
    ):
        off = [_off(made(20 + seed % 6, kind, unequal=unequal, seed=seed)) for seed in range(count)]
        quick, careful = ([pair[k] for pair in off] for k in (0, 1))
        costs = "unequal" if unequal else "equal"
        lines.append(
            f"| {kind} | {costs} | {statistics.mean(quick):.2%}, {max(quick):.2%} "
            f"| {statistics.mean(careful):.2%}, {max(careful):.2%} | <= 3 % |"
        )
    return "\n".join(lines) + "\n"


def _off(matrix: Matrix) -> tuple[float, float]:
    least = plan(matrix)
    assert least.proven
    near = Near(Search(problem(matrix)))
    start = near.problem.everything
    prices = (near.problem.minutes(price) for price in (near.quick(start), near.careful(start)))
    quick, careful = (float(price / least.expected) - 1 for price in prices)
    return quick, careful


def next_test() -> str:
    """The most telling test of a large matrix."""
    seen = problem(made(500, "random", unequal=True, seed=1))
    seconds = min(_timed(lambda: sharpest(seen, seen.everything)) for _ in range(5))
    return (
        "### The next test of a matrix of 500 faults and 500 tests, by bits a minute: best of 5\n\n"
        f"| what | ms | target |\n|---|--:|---|\n| sharpest | {seconds * 1e3:.1f} | <= 50 |\n"
    )


def _timed(work: Callable[[], object]) -> float:
    began = time.process_time()
    work()
    return time.process_time() - began
