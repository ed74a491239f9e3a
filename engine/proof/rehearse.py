"""A rehearsal: a scripted walk held against the verdict that it must end in."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from engine.errors import Refusal
from engine.graph.exits import targets
from engine.graph.view import entered
from engine.interview.decide import decide
from engine.interview.evolve import begun
from engine.interview.state import State
from engine.lint.rule import suits
from engine.lint.walkable import flaws
from engine.loading.library import Library
from engine.model.place import Place
from engine.model.rehearsal import Rehearsal
from engine.model.tree import Ask, Document, Measure, Run, Sort, Step, Tree, Verdict
from engine.proof.script import Off, ended_elsewhere, following, parted
from engine.proof.unkept import after
from engine.records.event import Answered, Event, Measured, Unsure

#: For each fact that a tree names, the values that its vehicles may have.
Facts = Mapping[str, tuple[str, ...]]


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


def rehearse(library: Library, rehearsal: Rehearsal) -> Rehearsed:
    """Walk the script through the library as it stands now."""
    return _walk(library, rehearsal, _hindrance(library, rehearsal.tree, rehearsal.vehicle))


def rehearse_all(library: Library, rehearsals: Iterable[Rehearsal]) -> Iterator[Rehearsed]:
    """Walk each script; whether a tree can be walked on a vehicle is looked into once, not once a script."""
    known: dict[tuple[str, str], str] = {}
    for rehearsal in rehearsals:
        pair = rehearsal.tree, rehearsal.vehicle
        if pair not in known:
            known[pair] = _hindrance(library, *pair)
        yield _walk(library, rehearsal, known[pair])


def _walk(library: Library, rehearsal: Rehearsal, hindrance: str) -> Rehearsed:
    visited: set[tuple[str, str, str]] = set()
    if hindrance:
        return _off(rehearsal, rehearsal.place, hindrance, visited)
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
            state = after(state, event)
        lines = move.rest
    return _ended(rehearsal, state, visited)


def _hindrance(library: Library, tree: str, vehicle: str) -> str:
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


def unvisited(library: Library, tree: str, results: tuple[Rehearsed, ...]) -> tuple[str, ...]:
    """Verdicts, answers, bands and unsure exits that no rehearsal came to, in the order of the text.

    Those of the tree first, then those of each procedure that it may enter, as `procedure/step`. What no
    vehicle of the tree comes to, by all its facts together, is not asked for: no rehearsal could come to it.
    """
    seen = frozenset().union(*(result.visited for result in results))
    root = library.trees[tree]
    inside = ((name, library.procedures[name]) for name in entered(root, library.procedures))
    met = _met(library, root)
    return tuple(
        f"{name}{'/' if name else ''}{step}" + (f": {way}" if way else "")
        for name, document in (("", root), *inside)
        for step, way in _ways([each for each in document.steps.values() if (name, each.name) in met])
        if (name, step, way) not in seen
    )


def _ways(steps: Iterable[Step]) -> list[tuple[str, str]]:
    ways: list[tuple[str, str]] = []
    for step in steps:
        match step:
            case Verdict():
                ways.append((step.name, ""))
            case Ask():
                ways.extend((step.name, f"answer `{answer.say}`") for answer in step.answers)
            case Measure():
                ways.extend((step.name, f"band {k + 1}") for k in range(len(step.bands)))
        if getattr(step, "unsure", ""):
            ways.append((step.name, "cannot do or tell"))
    return ways


def _met(library: Library, tree: Tree) -> set[tuple[str, str]]:
    """The steps (document, step) that some vehicle of the tree comes to."""
    sheets = [sheet for sheet in library.sheets.values() if not suits(tree, sheet)]
    known: list[Facts] = [{name: (value,) for name, value in sheet.facts.items()} for sheet in sheets]
    return set().union(*(_come_to(library, tree, each) for each in known or [tree.facts]))


def _come_to(library: Library, tree: Tree, facts: Facts) -> set[tuple[str, str]]:
    """The steps that a vehicle with these facts comes to, procedures run and followed included."""
    met: set[tuple[str, str]] = set()
    waiting = [("", tree.start)]
    while waiting:
        name, at = waiting.pop()
        document: Document | None = library.procedures.get(name) if name else tree
        if document is None or at not in document.steps or (name, at) in met:
            continue
        met.add((name, at))
        step = document.steps[at]
        waiting += [(name, then) for then in _onward(step, facts)]
        inner = (step.procedure,) if isinstance(step, Run) else getattr(step, "follow", ())
        waiting += [(each, library.procedures[each].start) for each in inner if each in library.procedures]
    return met


def _onward(step: Step, facts: Facts) -> list[str]:
    if isinstance(step, Sort) and step.fact in facts:
        return [then for value, then in step.cases.items() if value in facts[step.fact]]
    return targets(step)
