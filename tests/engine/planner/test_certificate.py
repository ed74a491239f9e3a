"""The proof that is told holds by itself, however it was found."""

from fractions import Fraction

import pytest

from benchmarks.planning import made
from engine.model.table import table
from engine.planner.planning import plan
from engine.planner.search import Goal
from engine.proof.plan.check import check
from engine.report.plan import told


@pytest.mark.parametrize(
    ("kind", "goal", "seed"), [("sparse", "expected", 0), ("random", "worst", 1), ("sparse", "worst", 0)]
)
def test_what_was_proven_by_duller_dues_is_proven_by_those_that_are_told(
    kind: str, goal: Goal, seed: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Dues are sharpened twice while the search goes on; the proof tells the last, and it holds."""
    monkeypatch.setattr("engine.planner.planning._glance", lambda _: 0)
    monkeypatch.setattr("engine.planner.planning._ROUNDS", ((3, 30), (30, 200), (300, 5000), (1200, 20_000)))
    of = made(20, kind, unequal=True, seed=seed)
    assert not check(of, told("made", plan(of, goal)))


def test_the_start_is_always_claimed() -> None:
    """Where floors alone say all, the lower bound still has its claim."""
    of = made(4, "random", unequal=False, seed=1)
    found = plan(of)
    start = found.certificate().claims[0]
    assert (start.suspects, start.marks) == (0b1111, ())
    assert Fraction(start.least, table(of).whole) == found.bound
