"""What can be done at a step, each with the line of a script that does it, and what it visits."""

from collections.abc import Iterator
from typing import Final, NamedTuple

from engine.errors import Refusal
from engine.interview import command as ask
from engine.interview.evolve import begun
from engine.interview.state import State
from engine.loading.library import Library
from engine.model.tree import Ask, Do, Measure, Verdict
from engine.proof.drafts.limits import Banded, beside_limits
from engine.proof.first_walk import Said
from engine.proof.sides import End
from engine.proof.unkept import taken

#: A document (empty for the tree), its step, and the way out of it as `unvisited` calls it.
Visit = tuple[str, str, str]
#: The readings that were found for a step, by where it stands: they are the same wherever it is come to.
Known = dict[str, tuple[Banded, ...]]
_NONE: Final = frozenset[End]()
_WHY: Final = "It cannot be done here"
#: How `unvisited` calls the way out of a step that could not be done.
CANNOT: Final = "cannot do or tell"


class Way(NamedTuple):
    """One way on: its line (none where the step confirms itself), what it visits, where it leads."""

    line: Said | None
    visit: Visit
    #: The ends of its band that a reading tries; none for all that is no reading.
    ends: frozenset[End]
    after: State


def first(library: Library, tree: str, vehicle: str) -> State:
    """The walk at its first step, its cautions read."""
    return _heard(begun(library, tree, vehicle))


def ways(state: State, known: Known) -> Iterator[Way]:
    """Every way on, in the order of the text; readings once found for a step are kept in `known`."""
    frame = state.frames[-1]
    for line, way, ends, commands in _tries(state, known):
        after: State | Refusal = state
        for command in commands:
            after = after if isinstance(after, Refusal) else taken(after, command)
        if not isinstance(after, Refusal):
            yield Way(line, (frame.procedure, frame.step, way), ends, _heard(after))


def _tries(
    state: State, known: Known
) -> Iterator[tuple[Said | None, str, frozenset[End], tuple[ask.Command, ...]]]:
    step, at = state.step, state.where
    match step:
        case Do():
            yield None, "", _NONE, (ask.Confirm(),)
        case Ask():
            for number, answer in enumerate(step.answers):
                yield Said(at, answer.say, {}), f"answer `{answer.say}`", _NONE, (ask.Choose(number),)
        case Measure():
            if at not in known:
                known[at] = beside_limits(state, step)
            for each in known[at]:
                yield (
                    Said(at, "", each.typed),
                    f"band {each.band + 1}",
                    each.ends,
                    (ask.Read(each.typed, settle=True),),
                )
        case Verdict():
            for name in step.follow:
                accept = () if state.concluded else (ask.Accept(),)
                yield Said(at, "", {}, follow=name), "", _NONE, (*accept, ask.Follow(name))
    if getattr(step, "unsure", ""):
        yield Said(at, "", {}, unsure=_WHY), CANNOT, _NONE, (ask.CannotTell(_WHY),)


def _heard(state: State) -> State:
    """The walk once every caution before its step has been read."""
    while state.pending:
        after = taken(state, ask.Acknowledge(state.pending[0]))
        assert not isinstance(after, Refusal), "a pending caution can be acknowledged"
        state = after
    return state
