"""The next command of a scripted walk: answers given beforehand, each meant for one step."""

from collections.abc import Mapping
from dataclasses import dataclass

from engine.interview import command as ask
from engine.interview.state import State
from engine.model.place import Place
from engine.model.rehearsal import Line, Rehearsal
from engine.model.tree import Ask, Do, Measure, Verdict
from engine.nearest import meant


@dataclass(frozen=True, slots=True)
class Go:
    """The command to give, and the lines of the script that are left after it."""

    command: ask.Command
    rest: tuple[Line, ...]


@dataclass(frozen=True, slots=True)
class Off:
    """The script and the walk have parted: why, and what would bring them together."""

    message: str
    cure: str


def parted(script: Rehearsal, left: tuple[Line, ...]) -> Place:
    """Where script and walk have parted: the line that was next, else the last one of the script."""
    lines = left[:1] or script.lines[-1:]
    return lines[0].place if lines else script.place


def ended_elsewhere(verdict: str, expected: str) -> str:
    """What is said of a walk that came to another verdict than its script expects."""
    cure = "Put right the tree, an answer, or what is expected."
    return f"The walk ended in `{verdict}` and should end in `{expected}`. {cure}"


def following(state: State, lines: tuple[Line, ...]) -> Go | Off | None:
    """What the script does now; None once the walk is at a verdict and the script at its end.

    Cautions, and steps to do that the script does not name, confirm themselves.
    """
    first = lines[0] if lines else None
    if first is not None and first.back:
        return _back(state, first, lines[1:])
    if state.pending:
        return Go(ask.Acknowledge(state.pending[0]), lines)
    step = state.step
    if isinstance(step, Verdict):
        return _at_verdict(state, first, lines[1:])
    if first is None or first.at != state.where:
        return Go(ask.Confirm(), lines) if isinstance(step, Do) else _elsewhere(state, first)
    command = _command(state, first)
    return command if isinstance(command, Off) else Go(command, lines[1:])


def _at_verdict(state: State, first: Line | None, rest: tuple[Line, ...]) -> Go | Off | None:
    if first is None:
        return None
    if first.follow and first.at == state.where:
        return Go(ask.Follow(first.follow), rest) if state.concluded else Go(ask.Accept(), (first, *rest))
    message = f"The walk is at its verdict `{state.where}`, and an answer for `{first.at}` is left."
    return Off(message, "Take the answer out, or change one before it.")


def _elsewhere(state: State, first: Line | None) -> Off:
    if first is None:
        return Off(
            f"The walk asks `{state.where}`, and no answer is left.", f"Add a line `at: {state.where}`."
        )
    message = f"The walk asks `{state.where}`, and the next answer is for `{first.at}`."
    return Off(message, f"Answer `{state.where}` first.")


def _back(state: State, line: Line, rest: tuple[Line, ...]) -> Go | Off:
    for past in reversed(state.past):
        if past.line.step == line.at:
            return Go(ask.StepBack(past.line.sequence), rest)
    met = sorted({past.line.step for past in state.past})
    return Off(f"The walk has not passed `{line.at}`, so it cannot step back to it.", meant(line.at, met))


def _command(state: State, line: Line) -> ask.Command | Off:
    step = state.step
    if line.unsure is not None:
        return ask.CannotTell(line.unsure)
    if line.say is not None and isinstance(step, Ask):
        return _choice(step, line, line.say)
    if line.read and isinstance(step, Measure):
        return ask.Read(_named(step, line.read), line.insist, settle=True)
    if line.done and isinstance(step, Do):
        return ask.Confirm()
    wanted = {Ask: "`say`", Measure: "`read`", Do: "`done`"}.get(type(step), "nothing")
    return Off(f"The step `{state.where}` takes {wanted}.", f"Write {wanted} in the line for it.")


def _choice(step: Ask, line: Line, say: str) -> ask.Command | Off:
    answers = [answer.say for answer in step.answers]
    if say in answers:
        return ask.Choose(answers.index(say))
    return Off(f"`{say}` is no answer of `{line.at}`.", meant(say, answers))


def _named(step: Measure, read: Mapping[str, str]) -> Mapping[str, str]:
    """A single reading may be written without its name."""
    return {step.readings[0].name if name == "" else name: value for name, value in read.items()}
