"""What is told after the repair: when it can be, which causes there are, and what becomes of it."""

import pytest

from engine.interview.aftermath import LONGEST_NOTE, outcome
from engine.interview.command import (
    Accept,
    Acknowledge,
    Choose,
    Command,
    Confirm,
    Follow,
    Settle,
    StepBack,
)
from engine.interview.prompt import prompt
from engine.interview.question import VerdictPrompt
from engine.interview.state import State
from engine.records.event import Confirmed
from tests.engine.cli.spoken import LOOK, PROVE, TREE
from tests.engine.interview.given import after, made, refused, tree, walk

TO_SHEARED = (Acknowledge("hot"), Acknowledge("turning"), Confirm(), Choose(1))
SEVERAL = tree("""
    first: {verdict: One of two, suspects: [shaft, coupling], grade: repair, correction: C.}
    """)
NOBODY = tree("""
    first: {verdict: Nothing, suspects: [], grade: no-fault, correction: C.}
    """)


def accepted(*texts: str) -> State:
    """The walk of the tree at its accepted verdict."""
    return after(walk(*texts), Accept())


def sheared(*commands: Command) -> State:
    """The spoken tree at its accepted verdict `sheared`, which convicts the shaft, and on from there."""
    return after(walk(TREE, LOOK, PROVE), *TO_SHEARED, Accept(), *commands)


@pytest.mark.parametrize(
    ("command", "event"),
    [
        (Settle(fixed=True), Confirmed(fixed=True, cause="shaft")),
        (Settle(fixed=True, cause="coupling"), Confirmed(fixed=True, cause="coupling")),
        (Settle(fixed=False), Confirmed(fixed=False)),
        (Settle(fixed=False, cause=" elsewhere "), Confirmed(fixed=False, cause="elsewhere")),
        (Settle(fixed=True, remark=" ok\n"), Confirmed(fixed=True, cause="shaft", remark="ok")),
    ],
    ids=["the convicted one", "another", "not fixed", "not in the tree", "a remark"],
)
def test_what_is_told_is_an_event(command: Settle, event: Confirmed) -> None:
    """A cause that is not named is the convicted one, where the complaint is gone."""
    assert made(sheared(), command) == (event,)


@pytest.mark.parametrize("text", [SEVERAL, NOBODY], ids=["several", "nobody"])
def test_a_verdict_that_does_not_convict_one_alone_names_no_cause(text: str) -> None:
    """Which of several it was has to be said."""
    assert made(accepted(text), Settle(fixed=True)) == (Confirmed(fixed=True),)


def test_before_the_verdict_is_accepted_nothing_can_be_told() -> None:
    """The refusal says where the case stands and what to do."""
    state = after(walk(TREE, LOOK, PROVE), *TO_SHEARED)

    assert str(refused(state, Settle(fixed=True))) == (
        "The case has no accepted verdict yet; it stands at `sheared`. "
        "Walk it to its verdict and accept that first."
    )


def test_a_cause_that_is_no_suspect_is_refused_with_the_nearest() -> None:
    """And with the word for what the tree does not name."""
    refusal = refused(sheared(), Settle(fixed=True, cause="copling"))

    assert str(refusal) == (
        "The tree `bench` has no suspect `copling`. Did you mean `coupling`? "
        "`elsewhere` is a cause that the tree does not name."
    )


@pytest.mark.parametrize(("length", "taken"), [(LONGEST_NOTE, True), (LONGEST_NOTE + 1, False)])
def test_a_remark_has_an_end(length: int, *, taken: bool) -> None:
    """As long as a note, and no longer."""
    command = Settle(fixed=True, remark="x" * length)

    assert (len(made(sheared(), command)) == 1) if taken else (refused(sheared(), command).kind == "too-long")


def test_what_is_told_last_stands_at_the_verdict() -> None:
    """The prompt says it in words."""
    state = sheared(Settle(fixed=True), Settle(fixed=False, cause="elsewhere", remark="Back."))
    asked = prompt(state)

    assert isinstance(asked, VerdictPrompt)
    assert asked.told == ("the complaint is still there; true cause: Something else, not in this tree; Back.")


def test_the_causes_to_choose_from_begin_with_the_convicted() -> None:
    """Then the others as the tree has them and what it does not name; none before it is accepted."""
    asked, before = prompt(sheared()), prompt(after(walk(TREE, LOOK, PROVE), *TO_SHEARED))

    assert isinstance(asked, VerdictPrompt)
    assert isinstance(before, VerdictPrompt)
    assert [name for name, _ in asked.causes] == ["shaft", "bearing", "coupling", "elsewhere"]
    assert before.causes == ()


def test_a_verdict_that_is_stepped_back_over_takes_it_along() -> None:
    """What was told was of that verdict."""
    state = sheared(Settle(fixed=True), StepBack(6))

    assert state.confirmed is None


def test_stepping_back_in_what_follows_a_verdict_leaves_it() -> None:
    """The procedure was entered before anything was told."""
    state = sheared(Follow("prove"), Choose(0), Settle(fixed=True))
    (last,) = [past.line.sequence for past in state.past if past.line.step == "prove/first"]
    back = after(state, StepBack(last))

    assert back.confirmed == Confirmed(fixed=True, cause="shaft")


def test_a_cause_of_another_program_stands_as_written() -> None:
    """What this tree does not know is not translated."""
    state = sheared()

    assert outcome(state.tree, Confirmed(fixed=True, cause="gremlins")) == (
        "the complaint is gone; true cause: gremlins"
    )
