"""The planner against the classic example of test sequencing and the traps around it.

Six states, five tests: the small example of Pattipati and Alexandridis, IEEE Trans. SMC 20(4):872-887, 1990
(from memory; the figures computed by brute force as well, theory section 1.2). The trap of merging:
computed, section 1.4.
"""

from fractions import Fraction
from typing import Final

import pytest

from engine.planner.huffman import huffman
from engine.planner.near import Near
from engine.planner.planning import plan
from engine.planner.problem import problem
from engine.planner.search import Search
from tests.engine.planner.brute import cheapest
from tests.engine.planner.matrices import table

ROWS: Final = {"s0": "00000", "s1": "01001", "s2": "00110", "s3": "10011", "s4": "11000", "s5": "11110"}
PRIOR: Final = {"s0": "0.70", "s1": "0.01", "s2": "0.02", "s3": "0.10", "s4": "0.05", "s5": "0.12"}


@pytest.mark.parametrize(
    ("minutes", "least"),
    [((1, 1, 1, 1, 1), "2.18"), ((2, 1, 1, 1, 1), "2.18"), ((1, 2, 1, 3, 1), "2.86")],
    ids=["unit", "t1 twice", "t2 twice, t4 thrice"],
)
def test_least_cost_of_the_classic_example(minutes: tuple[int, ...], least: str) -> None:
    """J* = 2.18 with unit costs, and with other costs (from memory, and computed)."""
    found = plan(table(PRIOR, ROWS, minutes))
    assert (found.expected, found.proven) == (Fraction(least), True)


@pytest.mark.parametrize(
    ("first", "least"), [("t1", "2.86"), ("t2", "2.18"), ("t3", "2.82"), ("t4", "2.18"), ("t5", "2.89")]
)
def test_least_cost_where_the_first_test_is_forced(first: str, least: str) -> None:
    """Computed: every other test is made to wait for the first one. The oracle agrees."""
    classic = table(PRIOR, ROWS, [1] * 5)
    tests = (test._replace(after=(first,) if test.id != first else ()) for test in classic.tests)
    forced = classic._replace(tests=tuple(tests))
    assert (plan(forced).expected, cheapest(classic, first=first)) == (Fraction(least), Fraction(least))


def test_a_fault_is_known_to_be_there() -> None:
    """Without s0 the least is 2.2 (computed)."""
    rows = {name: row for name, row in ROWS.items() if name != "s0"}
    assert plan(table({name: PRIOR[name] for name in rows}, rows, [1] * 5)).expected == Fraction("2.2")


def test_the_most_bits_first_is_not_the_cheapest() -> None:
    """Information gain alone asks t1 first and pays 2.86; tried out it finds 2.18 (computed)."""
    search = Search(problem(table(PRIOR, ROWS, [1] * 5)))
    near, start = Near(search), search.problem.everything
    found = [search.problem.minutes(price) for price in (near.quick(start), near.careful(start))]
    assert found == [Fraction("2.86"), Fraction("2.18")]


def test_huffmans_bound_of_the_classic_example() -> None:
    """1.59 (computed)."""
    assert huffman([70, 1, 2, 10, 5, 12]) == 159


def test_faults_alike_are_merged_before_anything_is_counted() -> None:
    """0.45, 0.45, 0.10, the first two alike: one test, 1.0; unmerged, Huffman claims 1.55 (computed)."""
    found = plan(table({"a": "0.45", "b": "0.45", "c": "0.10"}, {"a": "0", "b": "0", "c": "1"}, [1]))
    assert [found.expected, found.bound] == [1, 1]
    assert found.groups == (("a", "b"),)
    assert huffman([45, 45, 10]) == 155
