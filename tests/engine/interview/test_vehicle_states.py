"""What a walk knows of the vehicle: states set and cleared by what was done, and by nothing else."""

import pytest

from engine.interview.command import CannotTell, Choose, Command, Confirm, Note, Read, StepBack
from engine.interview.prompt import prompt
from tests.engine.interview.given import after, procedure, tree, walk

KINDS: dict[str, tuple[str, Command]] = {
    "do": ("{do: Lift., sets: [raised], clears: [warm], then: ended, unsure: ended}", Confirm()),
    "ask": (
        "{ask: Up?, sets: [raised], answers: [{say: a, then: ended}, {say: b, then: ended}], unsure: ended}",
        Choose(1),
    ),
    "measure": (
        """
          measure: How high?
          sets: [raised]
          reading: {name: height, gauge: rule, unit: mm, plausible: [0, 9]}
          bands: [{from: 0, then: ended}]
          unsure: ended
        """,
        Read({"height": "5"}),
    ),
}
STEPS = tree("""
    first: {do: Lift., sets: [raised], then: second}
    second: {do: Start., sets: [running], then: third}
    third: {do: Stop., clears: [running], then: fourth}
    fourth: {do: Lower., clears: [raised], then: ended}
    """)


@pytest.mark.parametrize("kind", KINDS)
def test_a_settled_step_sets_its_states(kind: str) -> None:
    """Whatever kind it is, a step that was settled sets what it says."""
    steps, command = KINDS[kind]

    assert after(walk(tree(f"first: {steps}\n")), command).holds == {"raised"}


@pytest.mark.parametrize("kind", KINDS)
def test_what_could_not_be_done_changes_nothing(kind: str) -> None:
    """`unsure` leads on and leaves the vehicle as it was."""
    steps, _ = KINDS[kind]
    state = after(walk(tree(f"first: {steps}\n")), CannotTell("no hoist"))

    assert (state.where, state.holds) == ("ended", frozenset())


@pytest.mark.parametrize(
    ("done", "titles"),
    [(0, ()), (1, ("Raised",)), (2, ("Raised", "Engine running")), (3, ("Raised",)), (4, ())],
)
def test_states_are_shown_by_their_titles(done: int, titles: tuple[str, ...]) -> None:
    """After each step the prompt tells what now holds of the vehicle."""
    state = after(walk(STEPS), *[Confirm()] * done)

    assert set(prompt(state).where.states) == set(titles)


def test_a_step_may_clear_and_set_at_once() -> None:
    """What a step both clears and sets holds after it."""
    state = after(
        walk(tree("first: {do: Lift anew., clears: [raised], sets: [raised], then: ended}\n")), Confirm()
    )

    assert state.holds == {"raised"}


def test_a_run_sets_its_states_when_it_is_left() -> None:
    """States of a `run` step change once its procedure is over, not when it is entered."""
    lift = procedure("lift", "up: Up", "first: {do: Lift., then: up}\n")
    state = walk(tree("first: {run: lift, sets: [raised], outcomes: {up: ended}}\n"), lift)

    assert state.holds == frozenset()
    assert after(state, Confirm()).holds == {"raised"}


def test_a_note_changes_nothing_of_the_vehicle() -> None:
    """A remark leaves the states alone."""
    state = after(walk(STEPS), Confirm())

    assert after(state, Note("dry")).holds == state.holds


def back(done: int, *lines: int) -> tuple[str, ...]:
    """The reminders after so many steps and then a step back to each of these lines, counted from 0."""
    state = after(walk(STEPS), *[Confirm()] * done)
    for line in lines:
        state = after(state, StepBack(state.past[line].line.sequence))
    return prompt(state).where.reminders


def test_no_reminder_where_nothing_changed() -> None:
    """A step back past a step that changed nothing reminds of nothing."""
    state = after(
        walk(tree("first: {do: Look., then: second}\nsecond: {do: Look again., then: ended}\n")), Confirm()
    )

    assert after(state, StepBack(2)).reminders == ()


def test_a_state_that_was_set_may_still_hold() -> None:
    """Stepping back past a step that set a state says that the vehicle may still be so."""
    assert back(1, 0) == ("You stepped back past it, but the vehicle may still be so: Raised.",)


def test_a_state_that_was_cleared_may_not_hold_again() -> None:
    """Stepping back past a step that cleared a state says that the vehicle may not be so again."""
    assert back(3, 2) == ("The walk now takes it to be so again, the vehicle may not be: Engine running.",)


def test_a_second_step_back_forgets_no_reminder() -> None:
    """What one step back reminded of is still reminded of after the next, nothing having been done since."""
    assert back(2, 1, 0) == (
        "You stepped back past it, but the vehicle may still be so: Raised.",
        "You stepped back past it, but the vehicle may still be so: Engine running.",
    )


def test_reminders_stay_until_something_is_settled() -> None:
    """A note leaves the reminder standing."""
    state = after(walk(STEPS), Confirm(), StepBack(2), Note("still up"))

    assert state.reminders == ("raised",)


def test_reminders_go_once_a_step_is_settled() -> None:
    """The next settled step ends the reminder, and stepping back to it later does not bring it back."""
    state = after(walk(STEPS), Confirm(), StepBack(2), Confirm(), Confirm())

    assert state.reminders == ()
    assert [past.before.reminders for past in state.past] == [(), ()]
