"""The main line of a plan where each test singles out few groups: what is found in breadth is the least."""

from collections.abc import Callable, Sequence
from random import Random
from typing import Final

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchmarks.planning import few, written
from engine.model.matrix import Matrix
from engine.planner import line
from engine.planner.dues import dues
from engine.planner.floors import NEVER, Floors, huffman_rows
from engine.planner.huffman import binary
from engine.planner.line import proven
from engine.planner.near import Near
from engine.planner.numbers import numbers
from engine.planner.planning import plan
from engine.planner.problem import Problem, problem
from engine.planner.search import Search, Stopped
from engine.proof.plan.check import check
from engine.report.plan import told
from tests.engine.planner.test_glance import exact

SEEDS: Final = range(30)
BOUNDS: Final = ("nothing", "pairs", "numbers", "both")


def drawn(seed: int) -> Problem:
    """A small matrix whose tests single out up to five groups; weights and prices are alike or not."""
    chance = Random(seed)
    size = chance.randint(4, 11)
    weights = [chance.choice((1, 2, 3) if seed % 2 else (1, 7, 40)) for _ in range(size)]
    prices = [chance.randint(1, 4) if seed % 3 else 2 for _ in range(size)]
    return problem(written(weights, few(size, chance, 1, min(6, size)), prices))


def searched(of: Problem, known: str, stop: Callable[[], bool] = lambda: False) -> Search:
    """A search to which some bounds are known."""
    search = Search(of, stop=stop)
    owed, counted = dues(of, 50), numbers(of)
    if owed and known in ("pairs", "both"):
        search.bound.learn(owed)
    if counted and known in ("numbers", "both"):
        search.bound.count(counted)
    return search


def quick(search: Search) -> int:
    """The price of the quick plan."""
    return Near(search).quick(search.problem.everything)


@pytest.mark.parametrize("known", BOUNDS)
@pytest.mark.parametrize("seed", SEEDS)
def test_the_least_price_is_found(seed: int, known: str) -> None:
    """As if every test were tried in every set; and it is proven, whatever bounds are known."""
    of = drawn(seed)
    search = searched(of, known)
    assert proven(search, quick(search))
    assert search.exact[of.everything] == search.least(of.everything) == exact(of)(of.everything)


@pytest.mark.parametrize("seed", SEEDS)
def test_what_is_kept_is_true(seed: int) -> None:
    """Of every set that was looked at, the exact price is exact, and the least no more than it."""
    of = drawn(seed)
    search = searched(of, "pairs")
    proven(search, quick(search))
    price = exact(of)
    assert {state: price(state) for state in search.exact} == search.exact
    assert [state for state, low in search.low.items() if low > price(state)] == []


@pytest.mark.parametrize("known", BOUNDS)
@pytest.mark.parametrize("seed", range(10))
def test_floors_are_those_of_the_bounds(seed: int, known: str) -> None:
    """What pairs owe, what numbers say and Huffman's sum, of many sets at once as of each alone."""
    of, chance = drawn(seed), Random(seed)
    bound = searched(of, known).bound
    sets = [chance.randrange(1, of.everything + 1) for _ in range(50)]
    floors, many = Floors(of, bound), np.array(sets)
    cheapest, count = min(test.cost for test in of.tests), bound.numbers
    lights = [[w for k, w in enumerate(of.weights) if one >> k & 1] for one in sets]
    assert floors.weight(many).tolist() == [bound.weight(one) for one in sets]
    alone = [
        max(bound.pairs(one), count(one) if count else cheapest * binary(ws))
        for one, ws in zip(sets, lights, strict=True)
    ]
    assert floors(many, np.full(50, NEVER)).tolist() == alone


@pytest.mark.parametrize("known", BOUNDS)
@pytest.mark.parametrize("seed", range(10))
def test_a_floor_that_is_enough_is_looked_at_no_further(seed: int, known: str) -> None:
    """It may stay below the largest of the bounds, but never below what was enough."""
    of, chance = drawn(seed), Random(seed)
    floors = Floors(of, searched(of, known).bound)
    many = np.array([chance.randrange(1, of.everything + 1) for _ in range(50)])
    whole = floors(many, np.full(50, NEVER))
    enough = np.array([chance.randint(0, int(most)) for most in whole])
    soon = floors(many, enough)
    assert ((enough <= soon) & (soon <= whole)).all()


@given(st.lists(st.lists(st.integers(1, 99), min_size=1, max_size=9), min_size=1))
def test_the_sums_of_rows_are_huffmans(rows: list[list[int]]) -> None:
    """However many weights each row has, and many of them equal."""
    size = max(map(len, rows))
    filled = [[*sorted(row), *[NEVER] * (size - len(row))] for row in rows]
    assert huffman_rows(np.array(filled)).tolist() == [binary([*row]) for row in rows]


@pytest.mark.parametrize("weights", [range(1, 23), [1] * 22, [3, 5] * 11], ids=["all", "one", "two"])
def test_a_proof_found_in_breadth_holds(weights: Sequence[int], monkeypatch: pytest.MonkeyPatch) -> None:
    """The checker goes through all that was claimed of 22 faults, three of which fail each test."""
    monkeypatch.setattr("engine.planner.search.Search.eager", lambda *_: False)
    of = written([*weights], few(22, Random(3), 3, 3), [2] * 22)
    found = plan(of)
    assert found.proven
    assert len(found.certificate().claims) > 50
    assert not check(of, told("made", found))


@pytest.mark.parametrize("several", [5, 7, 9])
def test_a_proof_tells_what_singled_out_faults_cost(several: int, monkeypatch: pytest.MonkeyPatch) -> None:
    """So many of 22 faults fail each test, and others tell them apart; the checker goes through all of it."""
    monkeypatch.setattr("engine.planner.search.Search.eager", lambda *_: False)
    of = written(range(1, 23), few(22, Random(several), several, several), [2, 3] * 11)
    found = plan(of)
    assert found.proven
    assert not check(of, told("made", found))


def test_a_better_plan_than_the_quick_one_is_found() -> None:
    """The narrow pass and the whole one look further than the most bits a minute, and often find less."""
    found = [
        (start, search.exact[search.problem.everything])
        for search in (searched(drawn(seed), "pairs") for seed in SEEDS)
        for start in [quick(search)]
        if proven(search, start)
    ]
    assert sum(least < start for start, least in found) >= 3


def singling(few_of: int, size: int = 24, tests: int = 24, dearest: int = 1, heaviest: int = 1) -> Matrix:
    """Tests that single out so many groups each."""
    chance = Random(5)
    masks = [few(size, chance, few_of, few_of)[0] for _ in range(tests)]
    return written([*range(1, size), heaviest], masks, [dearest, *[1] * (tests - 1)])


@pytest.mark.parametrize(
    "of",
    [
        singling(10),
        singling(3, size=75, tests=99),
        singling(3, tests=150),
        singling(3, dearest=10**13),
        singling(3, heaviest=10**18),
    ],
    ids=["ten", "75 groups", "150 tests", "dear", "heavy"],
)
def test_what_has_no_room_in_arrays_is_left_to_others(of: Matrix) -> None:
    """Many groups or tests, many that are singled out, and prices that would run over: nothing is kept."""
    search = searched(problem(of), "nothing")
    assert not proven(search, quick(search))
    assert search.problem.everything not in search.exact


def test_where_it_would_take_too_long_nothing_is_kept(monkeypatch: pytest.MonkeyPatch) -> None:
    """A thousand tests of sets are soon looked at."""
    monkeypatch.setattr(line, "_MOST", (1_000, 1_000))
    search = searched(problem(singling(3)), "nothing")
    assert not proven(search, quick(search))
    assert search.problem.everything not in search.exact


@pytest.mark.parametrize("seed", range(6))
def test_a_price_that_nobody_pays_does_no_harm(seed: int, monkeypatch: pytest.MonkeyPatch) -> None:
    """Each fault has its test of a minute, so that the one of a billion years is never made."""
    chance = Random(seed)
    weights = [chance.randint(1000, 9999) for _ in range(12)]
    of = written(
        weights, [*(1 << k for k in range(12)), 0b111], [*[1] * 12, 10**15 + chance.randint(0, 10**15)]
    )
    one_by_one = sorted(weights, reverse=True)
    least = sum(weight * min(k + 1, 11) for k, weight in enumerate(one_by_one))
    monkeypatch.setattr("engine.planner.planning._GLANCE", 0)
    found = plan(of)
    assert found.proven
    assert found.expected * sum(weights) == least


def test_whoever_stops_it_keeps_what_was_known() -> None:
    """It may be stopped after each test; half a proof is none."""
    search = searched(drawn(3), "nothing", stop=lambda: True)
    with pytest.raises(Stopped):
        proven(search, NEVER - 1)
    assert search.problem.everything not in search.exact


@pytest.mark.parametrize("goal", ["worst", "expected"])
def test_it_is_for_the_mean_way_of_plain_tests(goal: str) -> None:
    """Where the longest way is wanted, or a test waits for another, the row is not all there is to decide."""
    of = drawn(3)
    waits = of._replace(tests=(of.tests[0]._replace(mark=1), *of.tests[1:]))
    assert not proven(Search(of, "worst") if goal == "worst" else Search(waits), NEVER - 1)


@given(st.data(), st.sampled_from([30, 60]))
def test_each_set_is_left_once_with_its_least_price(draw: st.DataObject, bits: int) -> None:
    """Whether sets and prices have room side by side in one number or not."""
    some = st.sampled_from([1, 2, (1 << bits) - 1])
    pairs = draw.draw(st.lists(st.tuples(some, st.integers(0, 1000)), min_size=1))
    sets, prices = map(np.array, zip(*pairs, strict=True))
    kept = {one: min(price for other, price in pairs if other == one) for one in sorted({*sets.tolist()})}
    found = line.cheapest(sets, prices)
    assert dict(zip(*(column.tolist() for column in found), strict=True)) == kept
    assert [*found[0]] == [*kept]
