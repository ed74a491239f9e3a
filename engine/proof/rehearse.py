"""A rehearsal: a scripted walk held against the verdict that it must end in."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from typing import NamedTuple

from engine.errors import Refusal
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


def rehearse(library: Library, rehearsal: Rehearsal) -> Rehearsed:
    """Walk the script through the library as it stands now."""
    return _walk(library, rehearsal, hindrance(library, rehearsal.tree, rehearsal.vehicle))


def rehearse_all(library: Library, rehearsals: Iterable[Rehearsal]) -> Iterator[Rehearsed]:
    """Walk each script; whether a tree can be walked on a vehicle is looked into once, not once a script."""
    known: dict[tuple[str, str], str] = {}
    for rehearsal in rehearsals:
        pair = rehearsal.tree, rehearsal.vehicle
        if pair not in known:
            known[pair] = hindrance(library, *pair)
        yield _walk(library, rehearsal, known[pair])


def _walk(library: Library, rehearsal: Rehearsal, hindered: str) -> Rehearsed:
    visited, read = set[tuple[str, str, str]](), set[Read]()
    if hindered:
        return _off(rehearsal, rehearsal.place, hindered, visited)
    state = begun(library, rehearsal.tree, rehearsal.vehicle)
    lines = rehearsal.lines
    while (move := following(state, lines)) is not None:
        if isinstance(move, Off):
            return _off(rehearsal, parted(rehearsal, lines), f"{move.message} {move.cure}", visited)
        decision = decide(state, move.command)
        if isinstance(decision, Refusal):
            return _off(rehearsal, parted(rehearsal, lines), f"At `{state.where}`: {decision}", visited)
        for event in decision:
            visited.update(_visit(state, event))
            read.update(_read(state, event))
            state = after(state, event)
        lines = move.rest
    ended = _ended(rehearsal, state, visited)
    return replace(ended, read=frozenset(read)) if ended.passed else ended


def hindrance(library: Library, tree: str, vehicle: str) -> str:
    """Why the walk cannot even begin; empty where it can."""
    if tree not in library.trees or vehicle not in library.sheets:
        return f"Its tree `{tree}` or vehicle `{vehicle}` is not in the library."
    reasons = suits(library.trees[tree], library.sheets[vehicle])
    if reasons:
        return f"Its tree is not for `{vehicle}`: {'; '.join(reasons)}."
    flawed = flaws(library, tree, vehicle)
    return f"Its documents have errors; the first: {flawed[0]}" if flawed else ""


def _off(rehearsal: Rehearsal, place: Place, message: str, visited: set[tuple[str, str, str]]) -> Rehearsed:
    return Rehearsed(rehearsal.name, place, "", passed=False, message=message, visited=frozenset(visited))


def _ended(rehearsal: Rehearsal, state: State, visited: set[tuple[str, str, str]]) -> Rehearsed:
    verdict = state.where
    visited.add((state.frames[-1].procedure, state.frames[-1].step, ""))
    passed = verdict == rehearsal.verdict or not rehearsal.verdict
    message = "" if passed else ended_elsewhere(verdict, rehearsal.verdict)
    return Rehearsed(rehearsal.name, rehearsal.place, verdict, passed, message, frozenset(visited))


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
