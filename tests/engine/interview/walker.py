"""Whoever walks at random: sees only the prompt, and gives one of the commands that it allows."""

from collections.abc import Iterator

from hypothesis import strategies as st

from engine.interview.command import (
    Accept,
    Acknowledge,
    CannotTell,
    Choose,
    Command,
    Confirm,
    Follow,
    Note,
    Read,
    StepBack,
)
from engine.interview.prompt import prompt
from engine.interview.question import AskPrompt, CautionPrompt, DoPrompt, MeasurePrompt, Prompt, VerdictPrompt
from engine.interview.state import State
from tests.engine.interview.given import after

#: What a random walk is made of: each number picks one of what the prompt allows.
picks = st.lists(st.integers(0, 999), max_size=25)
_READINGS = ("0", "10", "5", "2.5", "1/8 in", "0.9 cm")


def forward(asked: Prompt, number: int = 0) -> list[Command]:
    """The commands that lead on from this prompt; none once the verdict is accepted and nothing follows."""
    match asked:
        case CautionPrompt():
            return [Acknowledge(asked.caution.name)]
        case DoPrompt():
            commands: list[Command] = [Confirm()]
        case AskPrompt():
            commands = [Choose(k) for k in range(len(asked.choices))]
        case MeasurePrompt():
            commands = list(_readings(asked, number))
        case VerdictPrompt(accepted=False):
            return [Accept()]
        case VerdictPrompt():
            return [Follow(name) for name, _, _ in asked.follow]
    return [*commands, CannotTell("random")] if asked.can_refuse else commands


def _readings(asked: MeasurePrompt, number: int) -> Iterator[Command]:
    for shift in range(3):
        yield Read(
            {b.name: _READINGS[(number + k * shift) % len(_READINGS)] for k, b in enumerate(asked.blanks)},
            settle=True,
        )


def sideways(asked: Prompt) -> list[Command]:
    """The commands that lead nowhere or back."""
    return [Note("seen"), *(StepBack(line.sequence) for line in asked.where.trail)]


def chosen(state: State, number: int, *, back: bool = True) -> Command | None:
    """What this number picks here; one in four picks is a note or a step back, where they are wanted."""
    asked = prompt(state)
    ahead = forward(asked, number)
    if (back and number % 4 == 3) or not ahead:
        aside = sideways(asked)
        return aside[number // 4 % len(aside)] if back else None
    return ahead[number // 4 % len(ahead)]


def walked(state: State, numbers: list[int], *, back: bool = True) -> Iterator[State]:
    """The states of the walk that these numbers pick, the first included."""
    yield state
    for number in numbers:
        command = chosen(state, number, back=back)
        if command is None:
            return
        state = after(state, command)
        yield state


def finished(state: State) -> tuple[State, int]:
    """The walk led straight on until its verdict is accepted and nothing is under way; in how many steps."""
    steps = 0
    while not state.accepted:
        steps += 1
        assert steps < 1000, "the walk does not end"
        state = after(state, forward(prompt(state))[0])
    return state, steps
