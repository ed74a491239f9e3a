"""Stepping back: to any settled step, over procedures, over a conclusion, into what followed it."""

import pytest

from engine.interview.command import Accept, Choose, Command, Confirm, Follow, Note, StepBack
from engine.interview.prompt import prompt
from engine.interview.state import State
from engine.records.event import TakenBack
from tests.engine.interview.given import after, made, procedure, refused, tree, walk

TREE = tree("""
    first: {do: Look at it., then: second}
    second: {run: lift, outcomes: {up: third, cannot: ended}}
    third:
      ask: Does it turn?
      answers: [{say: "Yes", then: ended}, {say: "No", then: verdict}]
    verdict: {verdict: Sheared, suspects: [shaft], grade: repair, correction: C., follow: [fit, prove]}
    """)
LIFT = procedure(
    "lift",
    "up: Up, cannot: Not up",
    """
    first: {do: Set the pads., then: second, unsure: cannot}
    second: {do: Lift., sets: [raised], then: up, unsure: cannot}
    """,
)
FIT = procedure(
    "fit",
    "fitted: The shaft is in",
    """
    first: {do: Fit the shaft., then: second}
    second: {do: Lower., clears: [raised], then: fitted}
    """,
)
PROVE = procedure(
    "prove",
    "gone: The complaint is gone, there: It is still there",
    "first: {ask: Does it drive?, answers: [{say: It does, then: gone}, {say: It does not, then: there}]}\n",
)
#: Everything from the first step to the end of both procedures that follow the verdict.
COMMANDS: tuple[Command, ...] = (
    Confirm(),
    Confirm(),
    Confirm(),
    Choose(1),
    Accept(),
    Follow("fit"),
    Confirm(),
    Confirm(),
    Follow("prove"),
    Choose(0),
)
#: Where the walk stands before each of them.
WHERE = [
    "first",
    "lift/first",
    "lift/second",
    "third",
    "verdict",
    "verdict",
    "fit/first",
    "fit/second",
    "verdict",
    "prove/first",
]


def walked(count: int = len(COMMANDS)) -> State:
    """The walk after so many of the commands."""
    return after(walk(TREE, LIFT, FIT, PROVE), *COMMANDS[:count])


def core(state: State) -> tuple[object, ...]:
    """What a walk is, apart from numbers of events and reminders."""
    trail = [(line.step, line.question, line.answer, line.remarks) for line in prompt(state).where.trail]
    return state.frames, state.holds, state.concluded, state.followed, state.acknowledged, trail


@pytest.mark.parametrize("line", range(len(COMMANDS)))
def test_any_settled_step_can_be_returned_to(line: int) -> None:
    """From the very end the walk steps back to each line of the trail, and is as it was just before it."""
    state = walked()
    there = after(state, StepBack(state.past[line].line.sequence))

    assert there.where == WHERE[line]
    assert core(there) == core(walked(line))


@pytest.mark.parametrize("line", range(len(COMMANDS)))
def test_the_same_answers_lead_to_the_same_end(line: int) -> None:
    """After a step back the same answers make the same walk again."""
    state = walked()
    again = after(state, StepBack(state.past[line].line.sequence), *COMMANDS[line:])

    assert core(again) == core(state)


@pytest.mark.parametrize("line", range(len(COMMANDS)))
def test_a_step_back_is_one_event(line: int) -> None:
    """Nothing is rewritten: stepping back appends the number of the event it returns to."""
    state = walked()
    number = state.past[line].line.sequence

    assert made(state, StepBack(number)) == (TakenBack(number),)
    assert after(state, StepBack(number)).sequence == state.sequence + 1


def test_another_answer_leads_elsewhere() -> None:
    """Stepped back to the question, the other answer takes the other way."""
    state = walked()
    number = state.past[3].line.sequence

    assert after(state, StepBack(number), Choose(0)).where == "ended"


def test_a_conclusion_stepped_back_over_is_open_again() -> None:
    """Before its acceptance the verdict is not concluded, and no followed procedure has ended."""
    state = walked()
    there = after(state, StepBack(state.past[4].line.sequence))

    assert (there.concluded, there.followed) == (False, {})
    assert refused(there, Follow("fit")).kind == "not-now"


def test_an_end_that_was_stepped_back_over_is_forgotten() -> None:
    """Returned into the first followed procedure, neither it nor the second one has an outcome."""
    state = walked()
    there = after(state, StepBack(state.past[7].line.sequence))

    assert there.followed == {}
    assert after(there, Confirm()).followed == {"fit": "The shaft is in"}


@pytest.mark.parametrize("number", [0, 1, -1, 99, 10**30])
def test_only_a_settled_step_can_be_returned_to(number: int) -> None:
    """The opening of the case and numbers that are no event are refused."""
    assert refused(walked(), StepBack(number)).kind == "not-there"


def test_notes_and_step_backs_are_no_place_to_return_to() -> None:
    """An event that settled no step is refused."""
    noted = after(walked(2), Note("dry"))
    back = after(noted, StepBack(noted.past[1].line.sequence))

    assert refused(noted, StepBack(noted.sequence)).kind == "not-there"
    assert refused(back, StepBack(back.sequence)).kind == "not-there"


def test_what_was_stepped_back_over_is_no_place_to_return_to() -> None:
    """A line that was taken back is no longer in the trail."""
    state = walked(3)
    last, first = state.past[2].line.sequence, state.past[0].line.sequence

    assert refused(after(state, StepBack(first)), StepBack(last)).kind == "not-there"


def test_reminders_reach_over_procedures() -> None:
    """Stepping back out of a lifted vehicle's procedure reminds that it may still be up."""
    state = walked(3)

    assert after(state, StepBack(state.past[0].line.sequence)).reminders == ("raised",)
