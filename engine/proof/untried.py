"""The limits that the rehearsals of a tree do not try from both sides, of all that its vehicles come to."""

from collections.abc import Iterable, Iterator
from fractions import Fraction
from typing import NamedTuple

from engine.graph.view import entered
from engine.interview.evolve import begun
from engine.interview.state import Frame
from engine.loading.library import Library
from engine.model.tree import Document, Measure
from engine.proof.drafts.limits import beside_limits
from engine.proof.drafts.standings import Goal
from engine.proof.rehearse import Read, Rehearsed, hindrance
from engine.proof.sides import Side, sides, tried, words
from engine.proof.unvisited import come_to, facts_of, met_by_any
from engine.quantity import Quantity


class Untried(NamedTuple):
    """What is left of the limits of a tree, each as `step: limit, from below`."""

    #: Some vehicle can be read so, and no rehearsal that passes does.
    open: tuple[str, ...]
    #: No readings are found that try it: on no vehicle, within what is believed of them.
    beyond: tuple[str, ...]


def untried(library: Library, tree: str, results: tuple[Rehearsed, ...]) -> Untried:
    """Limits of visited bands that no passing rehearsal tries, in the order of the text.

    A band that no rehearsal visits is told as that, and its limits are not told once more.
    """
    goals = done(library, tree, results)
    left = {
        goal: told for goal, told in _limits(library, tree) if goal not in goals and (goal[0], None) in goals
    }
    near = _near(library, tree, results, frozenset(left))
    return Untried(
        tuple(told for goal, told in left.items() if goal in near),
        tuple(told for goal, told in left.items() if goal not in near),
    )


def done(library: Library, tree: str, results: tuple[Rehearsed, ...]) -> frozenset[Goal]:
    """What the rehearsals of a tree visit, and what those that pass try, on any vehicle."""
    goals: set[Goal] = {(visit, None) for result in results for visit in result.visited}
    for read in frozenset[Read]().union(*(result.read for result in results)):
        step = _document(library, tree, read.document).steps[read.step]
        if isinstance(step, Measure) and any(_goal(read[1:3], side) not in goals for side in sides(step)):
            goals.update(_goal(read[1:3], side) for side in _tried(library, step, read))
    return frozenset(goals)


def _tried(library: Library, step: Measure, read: Read) -> frozenset[Side]:
    units = {want.name: want.unit for want in step.readings}
    values = {name: Quantity(Fraction(value), units[name]) for name, value in read.values}
    return tried(step, values, library.sheets[read.vehicle], library.shop.gauges)


def _limits(library: Library, tree: str) -> Iterator[tuple[Goal, str]]:
    """Both sides of each limit of the steps that some vehicle of the tree comes to, with their words."""
    root = library.trees[tree]
    met = met_by_any(library, root)
    for name in ("", *entered(root, library.procedures)):
        for step in _document(library, tree, name).steps.values():
            if isinstance(step, Measure) and (name, step.name) in met:
                at = f"{name}{'/' if name else ''}{step.name}"
                yield from (
                    (_goal((name, step.name), side), f"{at}: {words(step, side)}") for side in sides(step)
                )


def _goal(at: tuple[str, str], side: Side) -> Goal:
    """The side of a limit as drafts call it; the step with its document, which is empty for the tree."""
    number, end = side
    return (*at, f"band {number + 1}"), end


def _document(library: Library, tree: str, name: str) -> Document:
    return library.procedures[name] if name else library.trees[tree]


def _near(
    library: Library, tree: str, results: Iterable[Rehearsed], wanted: frozenset[Goal]
) -> frozenset[Goal]:
    """Those that readings are found for on a vehicle that comes to the step; few are looked for."""
    found: set[Goal] = set()
    walked = {read.vehicle for result in results for read in result.read}
    for vehicle in sorted(library.sheets, key=lambda name: name not in walked):
        left = {visit[:2] for visit, _ in wanted - found}
        if left and (vehicle in walked or not hindrance(library, tree, vehicle)):
            facts = facts_of(library.sheets[vehicle])
            for at in left & come_to(library, library.trees[tree], facts):
                found.update(_goal(at, side) for side in _found(library, tree, vehicle, at))
    return frozenset(found)


def _found(library: Library, tree: str, vehicle: str, at: tuple[str, str]) -> Iterator[Side]:
    """The sides of the limits of a step that readings are found for on this vehicle."""
    name, step = at
    frames = (Frame("", library.trees[tree].start), Frame(name, step)) if name else (Frame("", step),)
    state = begun(library, tree, vehicle)._replace(frames=frames)
    assert isinstance(state.step, Measure), "only such steps have limits"
    for each in beside_limits(state, state.step):
        yield from ((each.band, end) for end in each.ends)
