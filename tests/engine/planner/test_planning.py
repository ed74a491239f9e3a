"""What a trainer may expect of a plan: set-ups, precedence, groups, the longest way, and being stopped."""

from collections.abc import Iterator
from fractions import Fraction
from itertools import count
from random import Random

import pytest

from benchmarks.planning import made
from engine.model.matrix import Matrix
from engine.planner.planning import Progress, plan
from engine.planner.problem import problem
from engine.planner.search import Search
from engine.planner.tree import Leaf, Node
from engine.proof.plan.check import check
from engine.report.plan import told
from tests.engine.planner.matrices import matrix, table, trial


def test_a_setup_is_paid_once() -> None:
    """Raising takes 12 minutes, then come two tests of 1 minute: 14 for two of three faults, 13 for one."""
    tests = [trial("look", 1, {"a": ["a"], "rest": ["b", "c"]}, needs=["raised"])]
    tests.append(trial("turn", 1, {"b": ["b"], "rest": ["a", "c"]}, needs=["raised"]))
    found = plan(matrix({"a": 1, "b": 1, "c": 1}, tests, {"raised": 12}))
    assert found.expected == Fraction(13 + 14 + 14, 3)
    assert isinstance(found.plan, Node)
    assert found.plan.setups == ("raised",)


def test_a_dropped_setup_is_paid_again() -> None:
    """A road test between two tests on the hoist has the vehicle raised twice, if it must come second."""
    tests = [trial("look", 1, {"a": ["a"], "rest": ["b", "c", "d"]}, needs=["raised"])]
    tests.append(trial("drive", 1, {"b": ["b"], "rest": ["a", "c", "d"]}, drops=["raised"], after=["look"]))
    tests.append(trial("turn", 1, {"c": ["c"], "rest": ["a", "b", "d"]}, needs=["raised"], after=["drive"]))
    found = plan(matrix({"a": 1, "b": 1, "c": 1, "d": 1}, tests, {"raised": 10}))
    assert found.worst == 11 + 1 + 11


def test_a_test_that_tells_nothing_is_done_where_another_waits_for_it() -> None:
    """Marking the flanges tells nothing, but the shaft is not parted before."""
    tests = [
        trial("mark", 3, {"done": ["a", "b"]}),
        trial("turn", 2, {"a": ["a"], "b": ["b"]}, after=["mark"]),
    ]
    assert plan(matrix({"a": 1, "b": 1}, tests)).expected == 5


def test_groups_are_named() -> None:
    """Faults that no test tells apart end together."""
    found = plan(table({"a": 1, "b": 1, "c": 1}, {"a": "1", "b": "1", "c": "0"}, [4]))
    assert found.groups == (("a", "b"),)
    assert isinstance(found.plan, Node)
    assert Leaf(("a", "b")) in found.plan.after.values()


def test_nothing_to_tell_apart_costs_nothing() -> None:
    """One fault needs no test."""
    found = plan(table({"a": 1}, {"a": "1"}, [4]))
    assert found.plan == Leaf(("a",))
    assert [found.expected, found.worst, found.proven] == [0, 0, True]


def test_the_longest_way_may_be_kept_short() -> None:
    """A rare fault behind a long chain: the mean goes for the common one first, the other goal halves."""
    faults = {f"f{k}": 100 if k == 0 else 1 for k in range(8)}
    singles = {f: "".join("01"[k == j] for j in range(7)) for k, f in enumerate(faults)}
    halves = {f: "".join(str(k >> bit & 1) for bit in range(3)) for k, f in enumerate(faults)}
    found = table(faults, {f: singles[f] + halves[f] for f in faults}, [1] * 10)
    assert [plan(found, "worst").worst, plan(found, "expected").worst] == [3, 4]


def test_progress_is_told_and_the_bound_only_rises(monkeypatch: pytest.MonkeyPatch) -> None:
    """Each report has a best plan no better than its bound, and no bound below the one before."""
    monkeypatch.setattr("engine.planner.planning.dues", lambda *_, **__: None)
    monkeypatch.setattr("engine.planner.planning._ROUNDS", ((1, 100),))
    seen: list[Progress] = []
    plan(hard(), told=seen.append)
    assert len({p.bound for p in seen}) > 3
    assert all(progress.bound <= progress.best for progress in seen)
    assert [p.bound for p in seen] == sorted(p.bound for p in seen)


@pytest.mark.parametrize("breaths", [0, 1, 5, 30, 100, 400, 4000, 5100])
def test_it_may_be_stopped_at_any_moment(breaths: int) -> None:
    """What it has then is a whole plan whose price and bound hold before the checker."""
    found = plan(hard(), stop=after(breaths))
    assert found.bound <= found.expected
    assert not check(hard(), told("by-hand", found))


def test_more_time_never_makes_it_worse() -> None:
    """The gap between plan and bound closes."""
    made = [plan(hard(), stop=after(breaths)) for breaths in (0, 30, 30_000)]
    gaps = [found.expected - found.bound for found in made]
    assert gaps == sorted(gaps, reverse=True)
    assert gaps[0] > gaps[-1]


def test_equal_plans_come_out_each_time() -> None:
    """The same matrix gives the same plan, proof included."""
    assert told("by-hand", plan(hard(14))) == told("by-hand", plan(hard(14)))


def after(breaths: int) -> "_Stop":
    """Told to stop after being asked so often."""
    return _Stop(breaths)


class _Stop:
    def __init__(self, breaths: int) -> None:
        self._left: Iterator[int] = count(breaths, -1)

    def __call__(self) -> bool:
        return next(self._left) <= 0


def test_the_stack_is_not_opened_wide(monkeypatch: pytest.MonkeyPatch) -> None:
    """A way of 300 steps needs a few thousand frames; a hundred thousand would let other readers crash."""
    limits: list[int] = []
    monkeypatch.setattr("engine.planner.search.sys.setrecursionlimit", limits.append)
    Search(problem(hard(150)))
    assert max(limits) <= 3000


def test_a_way_of_a_hundred_tests_is_planned_and_confirmed() -> None:
    """Every fault has a test of its own, and the last ones are told apart after all others."""
    faults = {f"f{k}": 2 ** (100 - k) for k in range(101)}
    long = table(
        faults, {f: "".join("01"[k == j] for j in range(100)) for k, f in enumerate(faults)}, [1] * 100
    )
    found = plan(long)
    assert found.worst == 100
    assert not check(long, told("long", found))


@pytest.mark.parametrize("kind", ["random", "sparse"])
@pytest.mark.parametrize("unequal", [False, True], ids=["one price", "prices apart"])
def test_weights_of_twenty_digits_more_are_planned_alike(kind: str, *, unequal: bool) -> None:
    """How weights are written changes nothing: no sum is too long for what it is kept in."""
    small = made(24, kind, unequal=unequal, seed=3)
    large = small._replace(faults=tuple(f._replace(weight=f.weight * 10**20) for f in small.faults))
    odd = large.faults[0]._replace(weight=large.faults[0].weight + 1)
    large = large._replace(faults=(odd, *large.faults[1:]))  # no common divisor makes them short again
    found = plan(large)
    assert found.proven
    assert float(found.expected) == pytest.approx(float(plan(small).expected), rel=1e-12)
    assert not check(large, told("large", found))


def hard(size: int = 26) -> Matrix:
    """Few faults a test and prices far apart: the bounds say little at the start."""
    rng = Random(5)
    faults = {f"f{k}": rng.randint(1, 9) for k in range(size)}
    known = [set(rng.sample([*faults], rng.randint(1, 4))) for _ in range(size)]
    rows = {f: "".join(str(int(f in test)) for test in known) for f in faults}
    return table(faults, rows, [rng.choice([2, 5, 11, 30, 70]) for _ in range(size)])
