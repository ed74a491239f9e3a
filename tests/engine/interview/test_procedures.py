"""Procedures: entered where a step runs them, left by an outcome, one inside the other."""

import pytest

from engine.interview.command import CannotTell, Choose, Confirm
from engine.interview.prompt import prompt
from tests.engine.interview.given import after, procedure, tree, walk

OUTER = procedure(
    "outer",
    "good: It is good, bad: It is bad",
    """
    first: {do: Open the hood., then: second}
    second: {run: inner, outcomes: {yes: good, no: third, both: fourth}}
    third: {do: Close the hood., then: bad}
    fourth: {run: inner, outcomes: {yes: good, no: bad, both: bad}}
    """,
)
INNER = procedure(
    "inner",
    "yes: Seen, no: Not seen, both: Here and there",
    """
    first:
      ask: Do you see it?
      answers: [{say: "Yes", then: yes}, {say: "No", then: no}, {say: Both, then: both}]
      unsure: no
    """,
)
TREE = tree("""
    first: {run: outer, outcomes: {good: ended, bad: second}}
    second: {do: Tell the customer., then: ended}
    """)


def test_a_procedure_is_entered_inside_another() -> None:
    """Inside a procedure run by a procedure the prompt names all three documents, outermost first."""
    state = after(walk(TREE, OUTER, INNER), Confirm())

    assert state.where == "inner/first"
    assert prompt(state).where.inside == ("The bench tree", "The procedure outer", "The procedure inner")


@pytest.mark.parametrize(
    ("answers", "where"),
    [
        ([0], "ended"),
        ([1], "outer/third"),
        ([2], "inner/first"),
        ([2, 0], "ended"),
        ([2, 1], "second"),
        ([2, 2], "second"),
    ],
)
def test_an_outcome_leads_on_where_the_run_says(answers: list[int], where: str) -> None:
    """An outcome leads to a step of the document that ran the procedure, or out of that one as well."""
    state = after(walk(TREE, OUTER, INNER), Confirm(), *map(Choose, answers))

    assert state.where == where


def test_a_step_of_the_outer_procedure_follows_the_inner_one() -> None:
    """Once the inner procedure was left, the walk is in the outer one alone."""
    state = after(walk(TREE, OUTER, INNER), Confirm(), Choose(1))

    assert prompt(state).where.inside == ("The bench tree", "The procedure outer")
    assert after(state, Confirm()).where == "second"


def test_what_cannot_be_told_may_be_an_outcome() -> None:
    """An `unsure` of a procedure may name one of its outcomes."""
    assert after(walk(TREE, OUTER, INNER), Confirm(), CannotTell("dark")).where == "outer/third"


def test_a_procedure_may_be_nothing_but_sorts() -> None:
    """A procedure whose start the sheet answers straight to an outcome is passed without a question."""
    sorting = procedure(
        "sorting",
        "by-hand: a, by-itself: b",
        "first: {sort: gearbox, cases: {manual: by-hand, automatic: by-itself}}\n",
    )
    running = tree("""
        first: {run: sorting, outcomes: {by-hand: second, by-itself: ended}}
        second: {do: Shift., then: ended}
        """)
    state = walk(running, sorting)

    assert (state.where, state.past) == ("second", ())


def test_the_trail_names_steps_with_their_procedure() -> None:
    """A settled step of a procedure stands in the trail as `procedure/step`."""
    state = after(walk(TREE, OUTER, INNER), Confirm(), Choose(1))

    assert [line.step for line in prompt(state).where.trail] == ["outer/first", "inner/first"]


def test_the_same_procedure_may_run_twice() -> None:
    """A procedure that is run again begins at its start again."""
    state = after(walk(TREE, OUTER, INNER), Confirm(), Choose(2), Choose(1))

    assert [line.step for line in prompt(state).where.trail] == ["outer/first", "inner/first", "inner/first"]
