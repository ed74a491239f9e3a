"""A rehearsal: a scripted walk held against the verdict that it must end in."""

from collections.abc import Iterable
from dataclasses import dataclass
from itertools import groupby
from typing import Final, NamedTuple

from engine.errors import Refusal
from engine.interview.command import Command
from engine.interview.decide import decide
from engine.interview.evolve import begun
from engine.interview.state import State
from engine.lint.rule import suits
from engine.lint.walkable import flaws
from engine.loading.library import Library
from engine.model.place import Place
from engine.model.rehearsal import Rehearsal
from engine.proof.script import Off, ended_elsewhere, following, parted
from engine.proof.unkept import after
from engine.records.event import Answered, Event, Measured, Unsure

_NOWHERE: Final = Place("", 0, 0)


class Read(NamedTuple):
    """Readings that a rehearsal took at a step: exact numbers, as in the event."""

    vehicle: str
    #: Empty for the tree.
    document: str
    step: str
    #: By name, each in the unit that the step asks for.
    values: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class Rehearsed:
    """How a rehearsal went: where it ended, whether that was right, and what it visited."""

    name: str
    place: Place
    verdict: str
    passed: bool
    #: Why not, with the cure; empty where it passed.
    message: str
    #: (document, step, way out) of every step passed, the verdict included with an empty way.
    visited: frozenset[tuple[str, str, str]]
    #: What was read on the way, also what was stepped back over; empty where it did not pass.
    read: frozenset[Read] = frozenset()


class _Passed(NamedTuple):
    """A command that the walk has taken: what was visited and read by it, and where the walk stood then."""

    command: Command
    visited: frozenset[tuple[str, str, str]]
    read: frozenset[Read]
    state: State


def rehearse(library: Library, rehearsal: Rehearsal) -> Rehearsed:
    """Walk the script through the library as it stands now."""
    return _walk(library, rehearsal, hindrance(library, rehearsal.tree, rehearsal.vehicle), [])


def rehearse_all(library: Library, rehearsals: Iterable[Rehearsal]) -> tuple[Rehearsed, ...]:
    """Walk each script, in time for those that begin alike: what they share is walked once.

    Whether a tree can be walked on a vehicle is looked into once as well.
    """
    scripts, found = [*rehearsals], dict[int, Rehearsed]()
    order = sorted(range(len(scripts)), key=lambda k: _answers(scripts[k]))
    for pair, alike in groupby(order, key=lambda k: (scripts[k].tree, scripts[k].vehicle)):
        hindered, way = hindrance(library, *pair), list[_Passed]()
        for k in alike:
            found[k] = _walk(library, scripts[k], hindered, way)
    return tuple(found[k] for k in range(len(scripts)))


def _answers(script: Rehearsal) -> tuple[str, ...]:
    """What is walked, and every answer: sorted by it, those that begin alike stand together."""
    return script.tree, script.vehicle, *(str(line._replace(place=_NOWHERE)) for line in script.lines)


def _walk(library: Library, rehearsal: Rehearsal, hindered: str, way: list[_Passed]) -> Rehearsed:
    """Walk a script along the way of the one before, as far as it goes; then on its own, which is kept."""
    if hindered:
        return _off(rehearsal, rehearsal.place, hindered, [])
    state, lines, far = begun(library, rehearsal.tree, rehearsal.vehicle), rehearsal.lines, 0
    while (move := following(state, lines)) is not None:
        if isinstance(move, Off):
            return _off(rehearsal, parted(rehearsal, lines), f"{move.message} {move.cure}", way[:far])
        if far == len(way) or way[far].command != move.command:
            passed = _passed(state, move.command)
            if isinstance(passed, Refusal):
                return _off(rehearsal, parted(rehearsal, lines), f"At `{state.where}`: {passed}", way[:far])
            way[far:] = [passed]
        state, lines, far = way[far].state, move.rest, far + 1
    return _ended(rehearsal, state, way[:far])


def _passed(state: State, command: Command) -> _Passed | Refusal:
    """The walk after a command, or why it is not taken."""
    decision = decide(state, command)
    if isinstance(decision, Refusal):
        return decision
    visited, read = set[tuple[str, str, str]](), set[Read]()
    for event in decision:
        visited.update(_visit(state, event))
        read.update(_read(state, event))
        state = after(state, event)
    return _Passed(command, frozenset(visited), frozenset(read), state)


def hindrance(library: Library, tree: str, vehicle: str) -> str:
    """Why the walk cannot even begin; empty where it can."""
    if tree not in library.trees or vehicle not in library.sheets:
        return f"Its tree `{tree}` or vehicle `{vehicle}` is not in the library."
    reasons = suits(library.trees[tree], library.sheets[vehicle])
    if reasons:
        return f"Its tree is not for `{vehicle}`: {'; '.join(reasons)}."
    flawed = flaws(library, tree, vehicle)
    return f"Its documents have errors; the first: {flawed[0]}" if flawed else ""


def _off(rehearsal: Rehearsal, place: Place, message: str, way: list[_Passed]) -> Rehearsed:
    return Rehearsed(rehearsal.name, place, "", passed=False, message=message, visited=_visited(way))


def _visited(way: list[_Passed]) -> frozenset[tuple[str, str, str]]:
    return frozenset[tuple[str, str, str]]().union(*(passed.visited for passed in way))


def _ended(rehearsal: Rehearsal, state: State, way: list[_Passed]) -> Rehearsed:
    verdict, last = state.where, (state.frames[-1].procedure, state.frames[-1].step, "")
    passed = rehearsal.verdict in ("", verdict)
    return Rehearsed(
        rehearsal.name,
        rehearsal.place,
        verdict,
        passed,
        "" if passed else ended_elsewhere(verdict, rehearsal.verdict),
        _visited(way) | {last},
        frozenset[Read]().union(*(each.read for each in way)) if passed else frozenset(),
    )


def _visit(state: State, event: Event) -> set[tuple[str, str, str]]:
    frame = state.frames[-1]
    match event:
        case Answered():
            way = f"answer `{event.say}`"
        case Measured():
            way = f"band {event.band + 1}"
        case Unsure():
            way = "cannot do or tell"
        case _:
            way = ""
    return {(frame.procedure, frame.step, way)}


def _read(state: State, event: Event) -> set[Read]:
    if not isinstance(event, Measured):
        return set()
    frame = state.frames[-1]
    return {Read(state.sheet.name, frame.procedure, frame.step, tuple(event.values.items()))}
