"""The bound by pairs: never above the least cost, exact however rough the solver was, and near the truth."""

from fractions import Fraction
from itertools import combinations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchmarks.planning import made
from engine.model.matrix import Matrix
from engine.planner.dues import Dues, dues
from engine.planner.planning import plan
from engine.planner.problem import Problem, members, problem
from engine.planner.program import Answer
from engine.planner.solver import Floats, Program
from engine.planner.sums import PairSums
from engine.proof.plan.owed import Owed as Checked
from engine.proof.plan.table import table as checked_table
from engine.report.plan import told
from tests.engine.planner.brute import cheapest
from tests.engine.planner.matrices import sample, table

SINGLES = table({"x": 5, "y": 3, "z": 2}, {"x": "100", "y": "010", "z": "001"}, [1, 1, 1])


def found(of: Matrix, *, free: bool = False) -> Dues:
    """Dues, where there are any to be found."""
    owed = dues(problem(of), free=free)
    assert owed
    return owed


def as_told(owed: Dues) -> dict[str, object]:
    """As a plan tells it."""
    return {
        "scale": owed.scale,
        "weights": [*owed.weights],
        "due": [[*pair, due] for pair, due in owed.due.items()],
        "shares": [[shares[pair] for pair in owed.due if pair in shares] for shares in owed.shares],
    }


def test_three_that_are_tested_one_by_one_owe_five_each_pair() -> None:
    """By hand: the tests cost 10 each and part two pairs each, so all pairs owe 15, and 15 is the least."""
    owed = found(SINGLES)
    assert [round(due / owed.scale, 3) for due in owed.due.values()] == [5, 5, 5]
    assert plan(SINGLES).expected * 10 == 15


@pytest.mark.parametrize("seed", range(60))
def test_no_set_of_faults_owes_more_than_it_costs(seed: int) -> None:
    """Of a random matrix every set of faults, against the brute force on these faults alone."""
    of = sample(seed)
    owed = dues(problem(of))
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
    """The mean over whatever weights the solver chose is no longer than the longest way."""
    of = sample(seed)
    owed = dues(problem(of), free=True)
    if owed and (weight := sum(owed.weights)):
        mean = Fraction(sum(owed.due.values()), owed.scale * weight * problem(of).scale)
        assert mean <= cheapest(of, worst=True)


@given(st.data())
def test_however_rough_the_answer_what_is_kept_is_paid(data: st.DataObject) -> None:
    """Shares out of the air are cut until every test has them paid; the checker agrees."""
    of = sample(data.draw(st.integers(0, 200)))

    def anything(_: object, __: object, parted: list[list[object]], *___: object, **____: object) -> Answer:
        size = sum(map(len, parted))
        shares = st.lists(st.floats(0, 2), min_size=size, max_size=size)
        first, second = (np.array(data.draw(shares)) for _ in range(2))
        return Answer(data.draw(st.floats(0.01, 10)), first, second, np.array([0.0]))

    with pytest.MonkeyPatch.context() as patched:
        patched.setattr("engine.planner.program.answer", anything)
        owed = dues(problem(of))
    if owed:
        Checked(as_told(owed), checked_table(of).tests, owed.weights)


@pytest.mark.parametrize("odd", [float("nan"), float("inf"), -1.0])
def test_an_answer_with_odd_numbers_owes_no_more(odd: float, monkeypatch: pytest.MonkeyPatch) -> None:
    """A share that the solver did not find counts as nothing."""

    def solved(program: Program, *_: object) -> Floats:
        values = np.ones(len(program.costs))
        values[-1] = odd
        return values

    monkeypatch.setattr("engine.planner.program.solved", solved)
    owed = found(SINGLES)
    Checked(as_told(owed), checked_table(SINGLES).tests, owed.weights)
    assert sum(owed.due.values()) <= 15 * owed.scale


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


def test_stopped_at_once_there_are_none_or_they_hold() -> None:
    """The solver is asked whether to stop; what it has then is cut until it is paid."""
    of = made(30, "sparse", unequal=True, seed=1)
    owed = dues(problem(of), lambda: True)
    if owed:
        Checked(as_told(owed), checked_table(of).tests, owed.weights)


def test_too_many_pairs_are_not_asked_for() -> None:
    """A matrix of 100 faults and 100 tests that half of them fail would take minutes."""
    assert dues(problem(made(100, "random", unequal=True, seed=0))) is None


def test_the_solver_prints_nothing(capfd: pytest.CaptureFixture[str]) -> None:
    """What stands on the screen is the plan alone."""
    found(SINGLES)
    assert capfd.readouterr() == ("", "")


def test_the_plan_tells_them_with_its_proof() -> None:
    """The proof of a plan that rests on dues brings them."""
    proof = told("made", plan(made(30, "sparse", unequal=True, seed=3)))["certificate"]
    assert len(proof["dues"]["due"]) > 50
    assert len(proof["claims"]) < 50
