"""What no rehearsal of a tree visits, of all that one of its vehicles comes to."""

from collections.abc import Iterable, Mapping

from engine.graph.exits import targets
from engine.graph.view import entered
from engine.lint.rule import suits
from engine.loading.library import Library
from engine.model.tree import Ask, Document, Measure, Run, Sort, Step, Tree, Verdict
from engine.model.vehicle import Sheet
from engine.proof.rehearse import Rehearsed

#: For each fact that a tree names, the values that its vehicles may have.
Facts = Mapping[str, tuple[str, ...]]


def unvisited(library: Library, tree: str, results: tuple[Rehearsed, ...]) -> tuple[str, ...]:
    """Verdicts, answers, bands and unsure exits that no rehearsal came to, in the order of the text.

    Those of the tree first, then those of each procedure that it may enter, as `procedure/step`. What no
    vehicle of the tree comes to, by all its facts together, is not asked for: no rehearsal could come to it.
    """
    seen = frozenset().union(*(result.visited for result in results))
    root = library.trees[tree]
    inside = ((name, library.procedures[name]) for name in entered(root, library.procedures))
    met = met_by_any(library, root)
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


def met_by_any(library: Library, tree: Tree) -> set[tuple[str, str]]:
    """The steps (document, step) that some vehicle of the tree comes to."""
    sheets = [sheet for sheet in library.sheets.values() if not suits(tree, sheet)]
    known = [facts_of(sheet) for sheet in sheets]
    return set().union(*(come_to(library, tree, each) for each in known or [tree.facts]))


def facts_of(sheet: Sheet) -> Facts:
    """The facts of one vehicle."""
    return {name: (value,) for name, value in sheet.facts.items()}


def come_to(library: Library, tree: Tree, facts: Facts) -> set[tuple[str, str]]:
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
