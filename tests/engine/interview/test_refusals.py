"""The wrong command at the wrong time: always a refusal with a cure, never an event, never a change."""

import pytest

from engine.interview.command import (
    Accept,
    Acknowledge,
    CannotTell,
    Choose,
    Command,
    Confirm,
    Follow,
    Read,
    StepBack,
)
from engine.interview.state import State
from tests.engine.interview.given import after, procedure, refused, tree, walk

FIX = procedure("fix", "fixed: Fixed", "first: {do: Fix it., then: fixed}\n")
VERDICT = "first: {verdict: V, suspects: [shaft], grade: repair, correction: C., follow: [fix]}\n"
#: A walk at each kind of step that a person can stand at.
AT: dict[str, State] = {
    "do": walk(tree("first: {do: Do it., then: ended}\n")),
    "ask": walk(tree("first: {ask: Is it?, answers: [{say: a, then: ended}, {say: b, then: ended}]}\n")),
    "measure": walk(
        tree(
            "first: {measure: How far?, reading: {name: x, gauge: rule, unit: mm, plausible: [0, 9]},"
            " bands: [{from: 0, then: ended}]}\n"
        )
    ),
    "caution": walk(tree("first: {do: Do it., cautions: [hot], then: ended, unsure: ended}\n")),
    "run": walk(tree("first: {run: fix, cautions: [hot], outcomes: {fixed: ended}}\n"), FIX),
    "verdict": walk(tree(VERDICT), FIX),
    "accepted": after(walk(tree(VERDICT), FIX), Accept()),
    "followed": after(walk(tree(VERDICT), FIX), Accept(), Follow("fix")),
}
COMMANDS: dict[str, Command] = {
    "confirm": Confirm(),
    "choose": Choose(0),
    "read": Read({"x": "1"}),
    "cannot": CannotTell("no time"),
    "acknowledge": Acknowledge("hot"),
    "accept": Accept(),
    "follow": Follow("fix"),
    "back": StepBack(2),
}
#: What each kind of step takes; everything else is refused there.
TAKES = {
    "do": {"confirm"},
    "ask": {"choose"},
    "measure": {"read"},
    "caution": {"acknowledge"},
    "run": {"acknowledge"},
    "verdict": {"accept"},
    "accepted": {"follow", "back"},
    "followed": {"confirm", "back"},
}
WRONG = [(at, command) for at in AT for command in COMMANDS if command not in TAKES[at]]


@pytest.mark.parametrize(("at", "command"), WRONG)
def test_a_wrong_command_is_refused(at: str, command: str) -> None:
    """The refusal has one word for programs, and a sentence and a cure for people."""
    refusal = refused(AT[at], COMMANDS[command])

    assert refusal.kind in {"not-now", "not-there", "caution"}
    assert refusal.message.endswith(".")
    assert refusal.cure.endswith(".")


@pytest.mark.parametrize(("at", "command"), WRONG)
def test_a_wrong_command_changes_nothing(at: str, command: str) -> None:
    """Every field of the state is the very same object afterwards."""
    state = AT[at]
    before = state._asdict()
    refused(state, COMMANDS[command])

    assert all(getattr(state, name) is value for name, value in before.items())


@pytest.mark.parametrize(("at", "command"), [(at, command) for at in AT for command in sorted(TAKES[at])])
def test_the_right_command_is_taken(at: str, command: str) -> None:
    """What a step takes moves the walk on by one event."""
    assert after(AT[at], COMMANDS[command]).sequence == AT[at].sequence + 1


@pytest.mark.parametrize("answer", [-1, 2, 10**30])
def test_there_is_no_other_answer(answer: int) -> None:
    """A number outside the list is refused, with the numbers that there are."""
    refusal = refused(AT["ask"], Choose(answer))

    assert (refusal.kind, refusal.cure) == ("not-there", "Choose 1 to 2.")


def test_a_step_without_a_way_round_says_so() -> None:
    """Where the tree knows no way round, the cure names what is left to do."""
    assert str(refused(AT["do"], CannotTell("no time"))) == (
        "This step has no way round it. Do it, step back, or pause the case."
    )
