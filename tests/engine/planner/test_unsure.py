"""Tests that may err: the look ahead against every policy, in exact fractions."""

from collections.abc import Iterator
from fractions import Fraction
from itertools import permutations
from random import Random

import pytest

from engine.loading import folders
from engine.loading.library import gather
from engine.model.matrix import Matrix, Trial, TrialOutcome
from engine.planner.planning import Planned, UnpricedError, plan
from engine.planner.tree import Mend, Node
from engine.proof.plan.check import check
from engine.report.plan import told
from tests.engine.planner.matrices import PLACE, matrix, trial

Weights = tuple[Fraction, ...]


def erring(name: str, minutes: object, fails: dict[str, object], **asks: tuple[str, ...]) -> Trial:
    """A test with the chance that it fails under each fault."""
    chances = {fault: Fraction(str(chance)) for fault, chance in fails.items()}
    outcomes = (
        TrialOutcome("passes", {fault: 1 - chance for fault, chance in chances.items()}),
        TrialOutcome("fails", chances),
    )
    empty: dict[str, tuple[str, ...]] = {"needs": (), "drops": (), "after": ()}
    return Trial(name, "", Fraction(str(minutes)), outcomes, **(empty | asks), place=PLACE)


def repaired(made: Matrix, minutes: dict[str, object]) -> Matrix:
    """The matrix with the minutes of each repair."""
    faults = (fault._replace(repair=Fraction(str(minutes[fault.id]))) for fault in made.faults)
    return made._replace(faults=tuple(faults))


def sample(seed: int) -> Matrix:
    """Up to four faults and four tests, some reliable, some set-ups and some that wait."""
    rng, chances = Random(seed), [0, "0.1", "0.5", "0.9", 1]
    faults = [f"f{k}" for k in range(rng.randint(1, 4))]
    tests = [
        erring(
            f"t{k}",
            rng.choice([1, 2, 5]),
            {f: rng.choice(chances if k or f != "f0" else ["0.25"]) for f in faults},
            needs=("raised",) if rng.random() < 0.3 else (),
            drops=("raised",) if rng.random() < 0.2 else (),
            after=("t0",) if k and rng.random() < 0.2 else (),
        )
        for k in range(rng.randint(1, 4))
    ]
    made = matrix({fault: rng.choice([1, 2, 5]) for fault in faults}, tests, {"raised": 3})
    return repaired(made, {fault: rng.choice([0, 5, 20, 60]) for fault in faults})


def brute(made: Matrix) -> Fraction:
    """The least minutes of tests and repairs over every policy and every order of repairs."""
    repair = [fault.repair or Fraction(0) for fault in made.faults]

    def stopped(weights: Weights) -> Fraction:
        return min(
            sum((repair[k] * sum(weights[j] for j in order[n:]) for n, k in enumerate(order)), Fraction(0))
            for order in permutations([k for k, weight in enumerate(weights) if weight])
        )

    def after(test: Trial, weights: Weights) -> Iterator[Weights]:
        for outcome in test.outcomes:
            left = [w * outcome.chances.get(f.id, 0) for f, w in zip(made.faults, weights, strict=True)]
            if any(left):
                yield tuple(map(Fraction, left))

    def least(weights: Weights, done: frozenset[str], up: frozenset[str]) -> Fraction:
        best = stopped(weights)
        for test in made.tests:
            if test.id not in done and done.issuperset(test.after):
                price = test.minutes + (0 if up.issuperset(test.needs) else 3)
                then = done | {test.id}, (up | set(test.needs)) - set(test.drops)
                best = min(best, price * sum(weights) + sum(least(w, *then) for w in after(test, weights)))
        return best

    weights = tuple(fault.weight for fault in made.faults)
    return least(weights, frozenset(), frozenset()) / sum(weights)


@pytest.mark.parametrize("part", range(10))
def test_no_policy_is_cheaper(part: int) -> None:
    """Two hundred random matrices: price and bound are those of the brute force; the checker agrees."""
    for seed in range(20 * part, 20 * part + 20):
        made = sample(seed)
        found = plan(made)
        assert float(found.expected) == pytest.approx(float(brute(made)), rel=1e-9), seed
        assert found.proven, seed
        assert check(made, told("by-hand", found)) == [], seed


def stopped_after(made: Matrix, asked: int) -> Planned:
    """The plan where it was told to stop after being asked so often."""
    left = iter(range(asked, -1_000_000, -1))
    return plan(made, stop=lambda: next(left) <= 0)


@pytest.mark.parametrize("asked", [1, 3, 10, 40])
def test_whenever_it_is_stopped_the_bound_holds(asked: int) -> None:
    """Looked less far ahead, the plan is no cheaper, the bound no higher, and both are confirmed."""
    made = gather(folders.shipped()).matrices["rear-drive-by-feel"]
    found, whole = stopped_after(made, asked), plan(made)
    assert found.bound <= whole.bound <= whole.expected <= found.expected
    assert check(made, told("by-hand", found)) == []


def test_an_outcome_that_cannot_be_met_any_more_is_left_out() -> None:
    """After the first look nothing is as the second could find it for that fault; the checker agrees."""
    tests = [
        trial("first", 1, {"a": ["a"], "rest": ["b", "c"]}),
        trial("second", 1, {"a": ["a"], "b": ["b"], "c": ["c"]}, after=["first"]),
        erring("feel", 90, {"a": "0.9", "b": "0.1", "c": "0.1"}),
    ]
    made = repaired(matrix({"a": 1, "b": 1, "c": 1}, tests), {"a": 60, "b": 60, "c": 60})
    found = plan(made)
    assert isinstance(found.plan, Node)
    assert isinstance(after := found.plan.after["rest"], Node)
    assert [*after.after] == ["b", "c"]
    assert check(made, told("by-hand", found)) == []


def test_it_does_not_test_where_repairing_is_cheaper() -> None:
    """A look of 9 minutes before a repair of 5 is never worth it."""
    tests = [erring("look", 9, {"a": "0.9", "b": "0.1"})]
    made = repaired(matrix({"a": 1, "b": 1}, tests), {"a": 5, "b": 5})
    found = plan(made)
    assert found.plan == Mend((("a", 0.5), ("b", 0.5)))
    assert found.expected == Fraction(15, 2)


def test_it_tests_where_that_pays() -> None:
    """One minute saves a wrong repair of an hour in nine cases of ten."""
    tests = [erring("look", 1, {"a": "0.9", "b": "0.1"})]
    found = plan(repaired(matrix({"a": 1, "b": 1}, tests), {"a": 60, "b": 60}))
    assert isinstance(found.plan, Node)
    assert float(found.expected) == pytest.approx(1 + 60 + 0.1 * 60)


def test_without_minutes_of_repair_nothing_says_when_to_stop() -> None:
    """It is refused, not guessed."""
    tests = [erring("look", 1, {"a": "0.9", "b": "0.1"})]
    with pytest.raises(UnpricedError, match="those of each repair"):
        plan(matrix({"a": 1, "b": 1}, tests))


@pytest.mark.parametrize(
    ("key", "value"), [("expected_minutes", 1.0), ("lower_bound", 1e6), ("worst_minutes", 1.0), ("proven", 0)]
)
def test_a_tampered_plan_fails(key: str, value: float) -> None:
    """Figures that are others are named."""
    made = sample(7)
    said = told("by-hand", plan(made)) | {key: value}
    assert [line.split()[0] for line in check(made, said)] == [key]
