"""No proof makes the checker believe more than the truth: what it accepts is held against the brute force."""

from collections.abc import Iterator
from fractions import Fraction
from itertools import chain, combinations
from random import Random
from typing import Any

import pytest

from engine.model.matrix import Matrix
from engine.model.moment import done
from engine.model.table import Table, among
from engine.model.table import table as read
from engine.planner.planning import plan
from engine.planner.search import Goal
from engine.proof.plan.check import check
from engine.proof.plan.reliable import bound
from engine.report.plan import told
from tests.engine.planner.brute import cheapest
from tests.engine.planner.matrices import matrix, sample, trial
from tests.engine.planner.test_planning import hard

GOALS: tuple[Goal, Goal] = "expected", "worst"
#: More than any plan of these matrices costs.
MUCH = 10**9
PARTING = trial("look", 10, {name: [name] for name in "xyz"})
THREE = matrix({"x": 1, "y": 1, "z": 1}, [PARTING])


def proof(of: Matrix, claims: list[Any], **others: Any) -> dict[str, Any]:
    """A proof of claims alone, where nothing else is said."""
    size = len(read(of).groups)
    nothing = {
        "scale": 1,
        "weights": [1] * size,
        "dues": [],
        "shares": {test.id: [] for test in of.tests},
        "kinds": [],
    }
    return {"claims": claims} | nothing | others


def believed(of: Matrix, made: dict[str, Any], *, worst: bool = False) -> bool:
    """Whether the checker accepts a proof."""
    try:
        bound(read(of), made, mean=not worst)
    except (LookupError, ValueError):
        return False
    return True


def truth(of: Matrix, claim: list[Any], *, worst: bool) -> Fraction:
    """What the state of a claim costs by the brute force, as a claim would say it."""
    seen, (groups, marks, _) = read(of), claim
    faults = frozenset(chain.from_iterable(among(seen.groups, groups)))
    tests = frozenset(test.id for test in of.tests if done(test.id) in marks)
    least = cheapest(of, worst=worst, at=(faults, frozenset(marks).intersection(seen.setups), tests))
    return least * seen.scale * (1 if worst else seen.weight(groups))


@pytest.mark.parametrize("part", range(10))
def test_a_claim_that_is_too_high_by_one_part_is_refused(part: int) -> None:
    """Each claim of 600 proofs is raised by one part: none that the truth undercuts passes."""
    for seed in range(60 * part, 60 * part + 60):
        of, worst = sample(seed), seed % 4 == 1
        made = told("by-hand", plan(of, "worst" if worst else "expected"))["certificate"]
        for claim in made["claims"]:
            claim[2] += 1
            assert truth(of, claim, worst=worst) >= claim[2] or not believed(of, made, worst=worst), seed
            claim[2] -= 1


@pytest.mark.parametrize("seed", range(60))
def test_a_plan_that_is_not_the_cheapest_is_not_proven(seed: int) -> None:
    """The bound and the claim about the start are raised together, and the checker sees it."""
    of, goal = sample(seed), GOALS[seed % 2]
    made, seen = told("by-hand", plan(of, goal)), read(of)
    made["certificate"]["claims"][0][2] += 1
    raised = made["certificate"]["claims"][0][2] / (seen.scale if goal == "worst" else seen.whole)
    assert any("may cost less" in line for line in check(of, made | {"lower_bound": raised}))


@pytest.mark.parametrize("worst", [False, True], ids=["mean", "worst"])
@pytest.mark.parametrize("seed", range(120))
def test_no_kinds_make_too_high_a_claim_hold(seed: int, *, worst: bool) -> None:
    """Groups are put into kinds at random, and the start is said to cost one part more than it does."""
    of, chance = sample(seed), Random(seed)
    whole = read(of)
    kinds = [chance.randrange(1 + seed % 4) for _ in whole.groups]
    weights = [chance.randint(0, 9) for _ in whole.groups]
    claim = [whole.start[0], [], 0]
    claim[2] = int(truth(of, claim, worst=worst)) + 1
    assert not believed(of, proof(of, [claim], kinds=kinds, weights=weights), worst=worst)


def states(seen: Table) -> Iterator[tuple[int, list[str]]]:
    """Every set of groups, with every set of marks, that of all groups and no marks first."""
    marks = sorted(seen.lasting)
    some = [[*few] for size in range(len(marks) + 1) for few in combinations(marks, size)]
    return ((groups, few) for groups in range(seen.start[0], 0, -1) for few in some)


@pytest.mark.parametrize("worst", [False, True], ids=["mean", "worst"])
@pytest.mark.parametrize("least", [1, 2], ids=["where one is left", "where two are left"])
@pytest.mark.parametrize("seed", range(40))
def test_claims_that_lean_on_each_other_are_refused(seed: int, least: int, *, worst: bool) -> None:
    """If each state is said to cost too much, each claim would follow from the others, but for the last."""
    of = sample(seed)
    seen = read(of)
    if len(seen.lasting) <= 4 and len(seen.groups) > 1:
        claims = [[groups, few, MUCH] for groups, few in states(seen) if groups.bit_count() >= least]
        assert not believed(of, proof(of, claims), worst=worst)


def test_a_dear_plan_is_not_the_cheapest_because_its_ends_are_said_to_cost() -> None:
    """A look of one minute does as well as one of nine, whatever is claimed of what comes after."""
    tests = [trial(name, price, {"a": ["a"], "b": ["b"]}) for name, price in (("look", 1), ("dear", 9))]
    of = matrix({"a": 1, "b": 2}, tests)
    made = told("by-hand", plan(of))
    made["plan"] |= {"test": "dear", "minutes": 9.0}
    made |= dict.fromkeys(("expected_minutes", "worst_minutes", "lower_bound"), 9.0)
    made["certificate"]["claims"] = [[0b11, [], 27], [0b01, [], 24], [0b10, [], 24]]
    assert check(of, made) == ["This is no plan of the matrix: from 1 on, with [], it may cost less than 24."]


def test_the_bound_is_what_is_claimed_of_the_start() -> None:
    """Without a claim about it nothing is said, though a floor would say all."""
    assert not believed(THREE, proof(THREE, [[0b011, [], 20]]))


def test_a_plan_that_may_not_be_the_cheapest_is_not_proven() -> None:
    """Stopped at once a plan is further from its bound than the word `proven` says."""
    of = hard()
    made = told("by-hand", plan(of, stop=lambda: True))
    assert not check(of, made)
    assert check(of, made | {"proven": True}) == ["proven is False, not True."]


def test_a_test_that_tells_nothing_is_no_step_unless_another_waits_for_it() -> None:
    """Raising for nothing only costs; marking opens the way to the look."""
    tests = [
        trial("idle", 1, {"done": ["a", "b"]}, needs=["raised"]),
        trial("mark", 1, {"done": ["a", "b"]}),
        trial("look", 1, {"a": ["a"], "b": ["b"]}, after=["mark"]),
    ]
    seen = read(matrix({"a": 1, "b": 1}, tests, {"raised": 5}))
    assert [step.name for step in seen.next(seen.start)] == ["mark"]


def test_dues_that_are_paid_are_believed() -> None:
    """A look at 10 minutes pays 10 of a due of 20 for each of x and y."""
    made = proof(THREE, [[0b111, [], 30]], dues=[[0, 1, 20]], shares={"look": [10]})
    assert believed(THREE, made)


@pytest.mark.parametrize(
    ("dues", "shares"),
    [
        ([[0, 1, 21]], [10]),
        ([[0, 1, 21]], [11]),
        ([[0, 1, 25], [1, 2, 0]], [5, -10]),
        ([[0, 1, 25], [2, 1, 0]], [5, 10]),
        ([[1, 0, 25], [1, 2, 0]], [20, -10]),
        ([[0, 0, 31]], []),
        ([[0, 3, 0]], [0]),
    ],
    ids=["second", "first", "first earns", "second earns", "other first earns", "itself", "of one too many"],
)
def test_dues_that_are_not_paid_are_refused(dues: list[list[int]], shares: list[int]) -> None:
    """No group pays more than 10, and none makes room for one due by another that it is said to be paid."""
    assert not believed(THREE, proof(THREE, [[0b111, [], 30]], dues=dues, shares={"look": shares}))


def test_for_the_mean_no_weights_are_chosen() -> None:
    """What the proof says of weights is not looked at where the matrix says them."""
    of = matrix({"x": 1, "y": 1, "z": 98}, [trial(name, 1, _single(name)) for name in "xyz"])
    claims = [[0b111, [], 102]]
    assert believed(of, proof(of, claims, weights=[100, 100, 1]))
    assert not believed(of, proof(of, [[0b111, [], 103]], weights=[100, 100, 1]))


def _single(name: str) -> dict[str, list[str]]:
    return {"yes": [name], "no": [other for other in "xyz" if other != name]}


def test_for_the_longest_way_weights_are_chosen_but_none_below_nothing() -> None:
    """One of three is found by two tests at the longest; a weight below nothing is refused."""
    of = matrix({"x": 1, "y": 1, "z": 98}, [trial(name, 1, _single(name)) for name in "xyz"])
    made = proof(of, [[0b111, [], 2]])
    assert [believed(of, made | {"weights": weights}, worst=True) for weights in ([1, 1, 1], [1, 1, -1])] == [
        True,
        False,
    ]


@pytest.mark.parametrize("seed", range(200))
def test_whatever_is_owed_no_more_than_the_truth_is_believed(seed: int) -> None:
    """Dues, shares and weights out of the air: the start is not believed to cost one part too much."""
    rng, of, worst = Random(seed), sample(seed), seed % 2 == 1
    seen = read(of)
    size = len(seen.groups)
    dues = [[*rng.sample(range(size), 2), rng.randint(0, 40)] for _ in range(rng.randint(0, 6)) if size > 1]
    shares = {
        test: [
            rng.randint(-2, due + 2)
            for i, j, due in dues
            if not any(part >> i & part >> j & 1 for part in behind.values())
        ]
        for test, behind in seen.behind.items()
    }
    start = [seen.start[0], [], 0]
    start[2] = int(truth(of, start, worst=worst)) + 1
    weights = [rng.randint(0, 3) for _ in range(size)]
    made = proof(of, [start], dues=dues, shares=shares, scale=rng.choice([1, 2, 20]), weights=weights)
    assert not believed(of, made, worst=worst)
