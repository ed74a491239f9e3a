"""The bound by pairs: never above the least cost, exact however short the game was, and near the truth."""

from fractions import Fraction
from itertools import combinations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import linprog

from benchmarks.planning import made
from engine.model import table as whole_numbers
from engine.model.matrix import Matrix
from engine.planner.bound import Bound
from engine.planner.dues import Dues, dues
from engine.planner.planning import plan
from engine.planner.problem import Problem, members, problem
from engine.planner.sums import PairSums
from engine.proof.plan.reliable import layers
from engine.report.plan import told
from tests.engine.planner.brute import cheapest
from tests.engine.planner.matrices import sample, table

#: As many as a plan begins with.
MOVES = 200
SINGLES = table({"x": 5, "y": 3, "z": 2}, {"x": "100", "y": "010", "z": "001"}, [1, 1, 1])


def found(of: Matrix, *, free: bool = False) -> Dues:
    """Dues, where there are any to be found."""
    owed = dues(problem(of), MOVES, free=free)
    assert owed
    return owed


def confirm(of: Matrix, owed: Dues) -> None:
    """Have the checker see that every test pays the dues.

    :raises ValueError: where one does not.
    """
    weights = [owed.scale * weight for weight in owed.weights]
    shares = {
        test.id: [paid[pair] for pair in owed.due if pair in paid]
        for test, paid in zip(of.tests, owed.shares, strict=True)
    }
    dues_told = [(*pair, due) for pair, due in owed.due.items()]
    assert [*layers(whole_numbers.table(of), weights, dues_told, shares)]


def test_three_that_are_tested_one_by_one_owe_five_each_pair() -> None:
    """By hand: the tests cost 10 each and part two pairs each, so all pairs owe 15, and 15 is the least."""
    owed = found(SINGLES)
    assert [due / owed.scale for due in owed.due.values()] == pytest.approx([5, 5, 5], rel=1e-2)
    assert plan(SINGLES).expected * 10 == 15


@pytest.mark.parametrize("seed", range(60))
def test_no_set_of_faults_owes_more_than_it_costs(seed: int) -> None:
    """Of a random matrix every set of faults, against the brute force on these faults alone."""
    of = sample(seed)
    owed = dues(problem(of), MOVES)
    whole = problem(of)
    if owed is None:
        assert len(whole.groups) == 1
        return
    for size in range(2, len(whole.groups) + 1):
        for chosen in combinations(range(len(whole.groups)), size):
            some = sum(1 << k for k in chosen)
            weight = sum(whole.weights[k] for k in chosen)
            price = Fraction(PairSums(len(owed.weights), owed.due)(some), owed.scale * whole.scale * weight)
            assert price <= cheapest(only(of, whole, some))


def only(of: Matrix, whole: Problem, groups: int) -> Matrix:
    """The matrix with the faults of some groups alone."""
    names = {name for k in members(groups) for name in whole.groups[k]}
    tests = tuple(
        test._replace(
            outcomes=tuple(
                outcome._replace(chances={f: c for f, c in outcome.chances.items() if f in names})
                for outcome in test.outcomes
            )
        )
        for test in of.tests
    )
    return of._replace(faults=tuple(fault for fault in of.faults if fault.id in names), tests=tests)


@pytest.mark.parametrize("seed", range(60))
def test_with_free_weights_they_stay_below_the_longest_way(seed: int) -> None:
    """The mean over whatever weights the game chose is no longer than the longest way."""
    of = sample(seed)
    owed = dues(problem(of), MOVES, free=True)
    if owed and (weight := sum(owed.weights)):
        mean = Fraction(sum(owed.due.values()), owed.scale * weight * problem(of).scale)
        assert mean <= cheapest(of, worst=True)


@given(st.integers(0, 200), st.integers(1, 40), st.sampled_from(["the weights given", "any weights"]))
def test_however_short_the_game_what_is_kept_is_paid(seed: int, moves: int, weights: str) -> None:
    """After any number of moves every test has its dues paid; the checker agrees."""
    of, free = sample(seed), weights == "any weights"
    owed = dues(problem(of), moves, free=free)
    if owed:
        confirm(of, owed)


def test_weights_and_prices_far_apart_are_paid_to_the_last_part() -> None:
    """Weights from one to a million millions, prices from one to a million."""
    of = table(
        {"a": 1, "b": 10**6, "c": 10**12, "d": 3},
        {"a": "1001", "b": "0101", "c": "0010", "d": "0111"},
        [1, 10**6, 7, 1000],
    )
    owed = found(of)
    confirm(of, owed)


@pytest.mark.parametrize("kind", ["random", "sparse", "dependency"])
@pytest.mark.parametrize("seed", range(3))
def test_they_come_near_to_what_a_linear_program_finds(kind: str, seed: int) -> None:
    """Between 0.97 of the largest dues, by HiGHS in scipy (Huangfu and Hall 2018), and all of them."""
    whole = problem(made(14, kind, unequal=True, seed=seed))
    owed = dues(whole, MOVES)
    assert owed
    assert 0.97 < sum(owed.due.values()) / owed.scale / largest(whole) < 1 + 1e-7


def largest(of: Problem) -> float:
    """Of each pair at each test two shares, which pay its due and together take no more than there is."""
    pairs = list(combinations(range(len(of.weights)), 2))
    rows: list[dict[int, float]] = []
    limits: list[float] = []
    known = len(pairs)
    for test in of.tests:
        spent: list[dict[int, float]] = [{} for _ in of.weights]
        for number, (i, j) in enumerate(pairs):
            if any(part >> i & part >> j & 1 for part in test.parts):
                continue
            rows.append({number: 1, known: -1, known + 1: -1})
            limits.append(0)
            spent[i][known], spent[j][known + 1] = 1, 1
            known += 2
        rows += spent
        limits += [float(test.cost * weight) for weight in of.weights]
    matrix = np.zeros((len(rows), known))
    for number, row in enumerate(rows):
        matrix[number, list(row)] = list(row.values())
    gains = np.append(-np.ones(len(pairs)), np.zeros(known - len(pairs)))
    return -float(linprog(gains, matrix, limits).fun)


@pytest.mark.parametrize("kind", ["sparse", "dependency"])
@pytest.mark.parametrize("seed", range(3))
def test_they_say_nearly_all_where_tests_know_few_faults(kind: str, seed: int) -> None:
    """At least 0.95 of the least cost at the start, where the layers alone come to 0.7."""
    of = made(20, kind, unequal=True, seed=seed)
    owed, whole = found(of), problem(of)
    share = (
        Fraction(sum(owed.due.values()), owed.scale * whole.scale * sum(whole.weights)) / plan(of).expected
    )
    assert 0.95 < share <= 1


def test_what_is_less_than_was_known_is_not_learnt() -> None:
    """Dues of one move after those of two hundred leave the bound as it was."""
    of = problem(made(14, "sparse", unequal=True, seed=1))
    bound, (more, less) = Bound(of), (dues(of, moves) for moves in (MOVES, 1))
    assert more
    assert less
    assert less.mean < more.mean
    bound.learn(more)
    known = bound.pairs(of.everything)
    bound.learn(less)
    assert (bound.pairs(of.everything), bound.dues) == (known, more)


def test_stopped_at_once_they_hold() -> None:
    """The game is asked whether to stop at every move; what there is then is paid."""
    of = made(30, "sparse", unequal=True, seed=1)
    owed = dues(problem(of), MOVES, lambda: True)
    assert owed
    confirm(of, owed)


def test_too_many_pairs_are_not_asked_for() -> None:
    """A matrix of 100 faults and 100 tests that half of them fail would take minutes."""
    assert dues(problem(made(100, "random", unequal=True, seed=0)), MOVES) is None


def test_the_plan_tells_them_with_its_proof() -> None:
    """The proof of a plan that rests on dues brings them."""
    proof = told("made", plan(made(30, "sparse", unequal=True, seed=3)))["certificate"]
    assert len(proof["dues"]) > 50
    assert len(proof["claims"]) < 50
