"""What confirmed cases say: weights, signs and verdicts that come back.

Intervals: theory section 4.3; 4 of 20, 4 of 200 and 100 of 200 are published (test suite of a statistics
package), the rest computed with scipy. Means of 7, 2, 1, 0 by Dirichlet(1/2): computed.
"""

from datetime import datetime, timedelta

import pytest
from scipy.stats import beta

from engine.belief.confirmed import Ended, came_back, ended
from engine.belief.learned import ENOUGH, interval, learned, proposed
from engine.interview.command import Accept, Choose, Command, Settle, StepBack
from engine.records.event import Entry
from tests.engine.interview.given import library, tree

TREE = tree("""
    first:
      ask: Does it whine?
      answers:
        - {say: It whines, then: shaft, fits: {shaft: 0.9, coupling: 0.2, bearing: 0.5}}
        - {say: It is quiet, then: dead, fits: {shaft: 0.1, coupling: 0.8, bearing: 0.5}}
      unsure: ended
    shaft: {verdict: The shaft, suspects: [shaft], grade: repair, correction: Renew it.}
    dead: {verdict: The coupling, suspects: [coupling], grade: repair, correction: Renew it.}
    """)
HELD = library(TREE).trees["bench"]
DAY = datetime.fromisoformat("2026-03-01T08:00:00+00:00")


def case(
    name: str, *, cause: str = "", fixed: bool | None = True, sign: int = 0, day: int = 0, label: str = ""
) -> Ended:
    """A case of the bench tree as it ended."""
    step, verdict, suspect = (
        ("shaft", "The shaft", "shaft") if sign == 0 else ("dead", "The coupling", "coupling")
    )
    signs = (("first", sign),)
    opened = DAY + timedelta(days=day)
    return Ended(
        name, "bench", "wagon", label or name, opened, verdict, step, (suspect,), fixed, cause, signs
    )


def walked(*commands: Command) -> tuple[Entry, ...]:
    """The entries that these commands make, after the opening."""
    from engine import api

    store = api.open_store("memory:")
    job = api.open_job(store, library(TREE), "bench", "wagon", case="one", label="HP-1")
    for command in commands:
        after = api.act(store, job, command)
        assert isinstance(after, api.Job), after
        job = after
    return job.entries


@pytest.mark.parametrize(
    ("found", "of", "low", "high"),
    [
        (4, 20, 0.07152005, 0.40822576),
        (4, 200, 0.00678760, 0.04684657),
        (100, 200, 0.4311217, 0.5688783),
        (0, 10, 0.0, 0.217196),
        (1, 10, 0.011012, 0.381315),
    ],
)
def test_published_intervals(found: int, of: int, low: float, high: float) -> None:
    """Jeffreys, 95 %; found never, the interval begins at 0 by convention."""
    told = interval(found, of)
    assert [told.low, told.high] == pytest.approx([low, high], abs=1e-6)


@pytest.mark.parametrize("of", [1, 7, 30])
def test_intervals_are_those_of_scipy(of: int) -> None:
    """Every count between none and all."""
    for found in range(1, of):
        wanted = beta.ppf([0.025, 0.975], found + 0.5, of - found + 0.5)
        told = interval(found, of)
        assert [told.low, told.high] == pytest.approx([*wanted])


def test_means_of_several_causes() -> None:
    """7, 2, 1, 0 of ten: 0.625, 0.208333, 0.125, 0.041667 (Dirichlet with one half each)."""
    assert [round(interval(found, 10, 4).mean, 6) for found in (7, 2, 1, 0)] == [
        0.625,
        0.208333,
        0.125,
        0.041667,
    ]


def test_weights_are_counted_beside_the_authors() -> None:
    """Bearing 1, shaft 5, coupling 3 as authored; two shafts and one coupling as found."""
    cases = [case("a", cause="shaft"), case("b", cause="shaft"), case("c", cause="coupling", sign=1)]
    told = {weight.suspect: weight for weight in learned(HELD, cases).weights}
    assert [(name, told[name].cases.found, told[name].cases.of) for name in told] == [
        ("bearing", 0, 3),
        ("shaft", 2, 3),
        ("coupling", 1, 3),
    ]
    assert told["shaft"].authored == pytest.approx(5 / 9)
    assert told["shaft"].cases.mean == pytest.approx(2.5 / 4.5)


def test_proposed_weights_have_the_sum_of_the_authors() -> None:
    """So that they can be set beside them: nine in all."""
    cases = [case(f"c{k}", cause="shaft") for k in range(6)] + [case("d", cause="bearing")]
    found = proposed(HELD, learned(HELD, cases))
    assert float(sum(found.values())) == pytest.approx(9, abs=0.02)
    assert found["shaft"] > found["bearing"] > found["coupling"]


def test_signs_wait_for_enough_cases() -> None:
    """From ten cases of a suspect on."""
    few = [case(f"c{k}", cause="shaft") for k in range(ENOUGH - 1)]
    assert learned(HELD, few).signs == ()
    told = learned(HELD, [*few, case("last", cause="shaft", sign=1)]).signs
    assert [(sign.number, sign.cases.found, sign.authored) for sign in told] == [(0, 9, 0.9), (1, 1, 0.1)]


def test_a_cause_that_the_tree_does_not_name_counts_apart() -> None:
    """And so does one that nobody knows."""
    told = learned(HELD, [case("a", cause="elsewhere"), case("b"), case("c", cause="shaft")])
    assert (told.elsewhere, told.unknown, sum(weight.cases.found for weight in told.weights)) == (1, 1, 1)


def test_what_is_said_not_to_be_fixed_came_back() -> None:
    """By word, whatever the label."""
    assert came_back([case("a", fixed=False), case("b"), case("c", fixed=None)]) == {"a"}


@pytest.mark.parametrize(("days", "back"), [(1, {"a"}), (90, {"a"}), (91, set())])
def test_the_same_vehicle_soon_again_came_back(days: int, back: set[str]) -> None:
    """The same label with the same complaint within 90 days."""
    assert came_back([case("a", label="HP-1"), case("b", label="HP-1", day=days)]) == back


def test_another_vehicle_is_another_matter() -> None:
    """Another label, another complaint, or no label at all."""
    other = case("b", label="HP-1", day=3)._replace(tree="other")
    blank = [case("c", day=1)._replace(label=""), case("d", day=2)._replace(label="")]
    assert came_back([case("a", label="HP-1"), other, *blank]) == frozenset()


def test_verdicts_that_come_back_are_named_first() -> None:
    """With how many of how many."""
    cases = [case("a", fixed=False, sign=1), case("b", sign=1), case("c"), case("d")]
    told = learned(HELD, cases).returns
    assert [(back.step, back.cases.found, back.cases.of) for back in told] == [
        ("dead", 1, 2),
        ("shaft", 0, 2),
    ]


def test_a_case_tells_how_it_ended() -> None:
    """The one suspect whose repair helped is the cause, unless another is named."""
    found = ended(walked(Choose(0), Accept(), Settle(fixed=True)))
    assert found is not None
    assert (found.step, found.convicted, found.fixed, found.cause) == ("shaft", ("shaft",), True, "shaft")
    assert found.signs == (("first", 0),)


@pytest.mark.parametrize(
    ("last", "fixed", "cause"),
    [
        (Settle(fixed=False), False, ""),
        (Settle(fixed=False, cause="bearing"), False, "bearing"),
        (Settle(fixed=True, cause="elsewhere"), True, "elsewhere"),
    ],
    ids=["not fixed", "another", "something else"],
)
def test_the_last_word_counts(last: Settle, fixed: bool, cause: str) -> None:  # noqa: FBT001  reason: a row of a table
    """It may be said again when more is known."""
    found = ended(walked(Choose(0), Accept(), Settle(fixed=True), last))
    assert found is not None
    assert (found.fixed, found.cause) == (fixed, cause)


def test_what_was_stepped_back_over_does_not_count() -> None:
    """Neither the answer nor the verdict."""
    entries = walked(Choose(0), Accept(), StepBack(2), Choose(1), Accept())
    found = ended(entries)
    assert found is not None
    assert (found.step, found.signs) == ("dead", (("first", 1),))
    assert ended(walked(Choose(0), Accept(), StepBack(2))) is None
    assert ended(()) is None
