"""What keeps a tree from being walked on a vehicle is told before the walk, and nothing else is."""

from dataclasses import replace
from textwrap import dedent

import pytest

from engine.lint.runner import run
from engine.lint.walkable import flaws
from tests.engine.interview.given import SHOP, procedure, tree
from tests.engine.proof.scripts import gathered

RUNS = tree("first: {run: lift, outcomes: {up: ended}}\n")
LIFT = procedure("lift", "up: Up", "first: {do: Lift., then: up}\n")
SORTS = tree("first: {sort: axle, cases: {open: ended, limited: ended}}\n")
NO_AXLE = dedent(SHOP["vehicles/wagon.yaml"]).replace(", axle: limited", "").lstrip()
AUTOMATIC = procedure("lift", "up: Up", "first: {sort: gearbox, cases: {automatic: up}}\n").replace(
    "outcomes:", "for: {gearbox: automatic}\noutcomes:"
)


@pytest.mark.parametrize(
    "documents",
    [
        [RUNS],
        [RUNS, LIFT.replace("do:", "dew:")],
        [RUNS, LIFT.replace("then: up", "then: upp")],
        [RUNS, AUTOMATIC],
    ],
    ids=["missing", "broken", "leads-nowhere", "written-for-another"],
)
def test_a_walk_that_would_break_is_told(documents: list[str]) -> None:
    """A procedure that is missing, is broken, has an error, or cannot sort this vehicle is told."""
    assert flaws(gathered(*documents), "bench", "wagon") != ()


def test_a_fact_that_the_sheet_does_not_give_is_told() -> None:
    """A sort that this vehicle comes to needs its fact on the sheet."""
    held = gathered(SORTS, NO_AXLE)

    assert [problem.message for problem in flaws(held, "bench", "wagon")] == [
        "The sheet `wagon` does not say its `axle`, by which `first` sorts."
    ]


def test_a_fact_behind_another_sort_is_not_needed() -> None:
    """A sort that this vehicle never comes to needs nothing of its sheet."""
    behind = tree("""
        first: {sort: gearbox, cases: {manual: ended, automatic: second}}
        second: {sort: axle, cases: {open: ended, limited: ended}}
        """)

    assert flaws(gathered(behind, NO_AXLE), "bench", "wagon") == ()


def test_a_case_that_was_not_asked_for_may_be_there() -> None:
    """A document narrowed to other vehicles may run on one that its sorts have a case for all the same."""
    both = AUTOMATIC.replace("{automatic: up}", "{automatic: up, manual: up}")

    assert flaws(gathered(RUNS, both), "bench", "wagon") == ()


def test_what_another_vehicle_lacks_does_not_matter() -> None:
    """A tree may be walked on a vehicle whose sheet is whole, though another sheet that it suits is not."""
    limit = tree("""
        first:
          measure: How far?
          reading: {name: x, gauge: rule, unit: mm, plausible: [0, 9]}
          bands: [{upto: sheet.tyres.spread.max, then: ended}, {over: sheet.tyres.spread.max, then: ended}]
        """)
    bare = "vehicle: bare\nformat: 1\nrevision: 1\ntitle: Bare\nfacts: {gearbox: manual, axle: open}\n"
    held = gathered(limit, bare)

    assert flaws(held, "bench", "wagon") == ()
    assert {problem.message for problem in flaws(held, "bench", "bare")} == {
        "The sheet `bare` has no `tyres.spread.max`, which `first` needs."
    }


def test_what_another_tree_does_wrong_does_not_matter() -> None:
    """One tree raises the vehicle before the procedure that needs it raised; another does not."""
    turn = procedure("turn", "up: Up", "first: {do: Turn it., needs: [raised], then: up}\n")
    rest = "second: {run: turn, outcomes: {up: third}}\nthird: {do: Down., clears: [raised], then: ended}\n"
    right = tree("first: {do: Raise it., sets: [raised], then: second}\n" + rest)
    wrong = tree("first: {do: Look at it., then: second}\n" + rest, name="other")
    held = gathered(turn, right, wrong)

    assert flaws(held, "bench", "wagon") == ()
    assert [problem.rule for problem in flaws(held, "other", "wagon")] == ["missing-state"]


@pytest.mark.parametrize(
    "other", [LIFT.replace("do:", "dew:"), tree("first: {do: Go., then: nowhere}\n", name="other")]
)
def test_errors_elsewhere_do_not_matter(other: str) -> None:
    """A document with errors that the walk never enters keeps nobody from walking."""
    plain = tree("first: {do: Go., then: ended}\n")
    held = gathered(plain, other)

    assert run(held) != ()
    assert flaws(held, "bench", "wagon") == ()


def test_how_a_document_is_written_does_not_matter() -> None:
    """A hazard without its caution, a limit or a source that nobody vouches for: the author's to mend."""
    written = tree("""
        first:
          measure: The wheels turn. How far?
          reading: {name: x, gauge: rule, unit: mm, plausible: [0, 9]}
          bands: [{upto: 5, then: ended}, {over: 5, then: ended}]
        """)
    released = written.replace("revision: 7", "revision: 7\nreleased: true")
    held = gathered(f"{released}sources: {{heard: {{kind: memory}}}}\n")
    wheels = held.shop.cautions["turning"]._replace(words=("wheel ... turn",))
    held = held._replace(shop=replace(held.shop, cautions={"turning": wheels}))

    assert {"hazard-without-caution", "limit-without-source", "unproven-source"} <= {
        f.rule for f in run(held)
    }
    assert flaws(held, "bench", "wagon") == ()
