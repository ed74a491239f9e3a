"""The shipped matrices: the published optimum, and what a planner may rely on."""

from collections.abc import Mapping
from fractions import Fraction
from functools import cache

import pytest

from engine.loading import folders
from engine.loading.library import gather
from engine.model.matrix import Matrix

MATRICES = gather(folders.shipped(("matrices/",))).matrices


def least(matrix: Matrix, first: str = "") -> Fraction:
    """Mean minutes of the best order of tests that ask nothing of the vehicle, by trying all of them."""
    weights = {fault.id: fault.weight for fault in matrix.faults}

    def parts(faults: frozenset[str], test: str) -> list[frozenset[str]]:
        outcomes = next(each.outcomes for each in matrix.tests if each.id == test)
        return [part for outcome in outcomes if (part := faults.intersection(outcome.chances))]

    @cache
    def best(faults: frozenset[str], only: str = "") -> Fraction:
        if len(faults) == 1:
            return Fraction(0)
        share = sum((weights[fault] for fault in faults), Fraction(0))
        useful = [t for t in matrix.tests if only in ("", t.id) and len(parts(faults, t.id)) > 1]
        return min(share * t.minutes + sum(map(best, parts(faults, t.id)), Fraction(0)) for t in useful)

    return best(frozenset(weights), first) / sum(weights.values())


def test_the_five_faults_have_their_published_optimum() -> None:
    """2.18 (from memory: Pattipati and Alexandridis 1990; computed again here, exactly)."""
    assert least(MATRICES["five-faults"]) == Fraction("2.18")


@pytest.mark.parametrize(
    ("first", "minutes"), [("t1", "2.86"), ("t2", "2.18"), ("t3", "2.82"), ("t4", "2.18"), ("t5", "2.89")]
)
def test_the_five_faults_when_the_first_test_is_forced(first: str, minutes: str) -> None:
    """Computed: so that no entry of the matrix is wrong unseen."""
    assert least(MATRICES["five-faults"], first) == Fraction(minutes)


@pytest.mark.parametrize("matrix", MATRICES.values(), ids=lambda matrix: str(matrix.id))
def test_every_fault_leads_somewhere_in_every_test(matrix: Matrix) -> None:
    """With certainty, all outcomes taken together."""
    sums: Mapping[tuple[str, str], Fraction] = {
        (test.id, fault.id): sum((o.chances.get(fault.id, Fraction(0)) for o in test.outcomes), Fraction(0))
        for test in matrix.tests
        for fault in matrix.faults
    }

    assert {pair: share for pair, share in sums.items() if share != 1} == {}


def test_there_is_one_of_each_kind() -> None:
    """Reliable tests alone, with set-ups and an order among them; and tests that only may fail."""
    assert [
        (name, all(t.reliable for t in m.tests), len(m.setups)) for name, m in sorted(MATRICES.items())
    ] == [
        ("five-faults", True, 0),
        ("rear-drive", True, 3),
        ("rear-drive-by-feel", False, 2),
    ]
