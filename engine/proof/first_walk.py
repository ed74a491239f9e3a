"""A walk that gives the first answer everywhere: the script that a new rehearsal begins with."""

from collections.abc import Iterator, Mapping
from fractions import Fraction
from typing import Final, NamedTuple

from engine.errors import Refusal
from engine.interview import command as ask
from engine.interview.evolve import begun
from engine.interview.state import State
from engine.loading.library import Library
from engine.model.tree import Ask, Do, Measure, Verdict
from engine.proof.unkept import taken

#: Nobody walks so far; a tree that goes round in a circle would.
_MOST: Final = 1_000


class Said(NamedTuple):
    """One line of a script: the step, and what was said or read there, or what is followed from it."""

    at: str
    say: str
    read: Mapping[str, str]
    #: Why the step could not be done; empty where it was.
    unsure: str = ""
    #: The procedure that is started at a verdict.
    follow: str = ""


class FirstWalk(NamedTuple):
    """The lines of the script, and the verdict that it ended in; none where it came to no end."""

    lines: tuple[Said, ...]
    verdict: str


def first_walk(library: Library, tree: str, vehicle: str) -> FirstWalk:
    """Walk a tree that can be walked on this vehicle, and write down what was answered."""
    state, lines = begun(library, tree, vehicle), list[Said]()
    for _ in range(_MOST):
        if isinstance(state.step, Verdict) and not state.pending:
            return FirstWalk(tuple(lines), state.where)
        step = next(_taken(state), None)
        if step is None:
            break
        said, state = step
        lines += [said] if said else []
    return FirstWalk(tuple(lines), "")


def _taken(state: State) -> Iterator[tuple[Said | None, State]]:
    """What can be done at a step, the likeliest first: its line, and where the walk then stands."""
    for said, command in _commands(state):
        after = taken(state, command)
        if not isinstance(after, Refusal):
            yield said, after


def _commands(state: State) -> Iterator[tuple[Said | None, ask.Command]]:
    step = state.step
    if state.pending:
        yield None, ask.Acknowledge(state.pending[0])
    elif isinstance(step, Do):
        yield None, ask.Confirm()
    elif isinstance(step, Ask):
        yield Said(state.where, step.answers[0].say, {}), ask.Choose(0)
    elif isinstance(step, Measure):
        for read in _readings(step):
            yield Said(state.where, "", read), ask.Read(read, settle=True)


def _readings(step: Measure) -> Iterator[Mapping[str, str]]:
    """All readings half way between what is believed at most and at least; or nearer to either end."""
    for share in (Fraction(1, 2), Fraction(1, 4), Fraction(3, 4), Fraction(0), Fraction(1)):
        yield {want.name: typed(want.low + share * (want.high - want.low)) for want in step.readings}


def typed(value: Fraction) -> str:
    """A number as it would be typed, to a thousandth."""
    return f"{float(round(value, 3)):.3f}".rstrip("0").rstrip(".")
