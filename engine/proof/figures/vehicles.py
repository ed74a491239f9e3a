"""The kinds of vehicles that a tree meets, and whether it can be walked to a verdict on each."""

from collections.abc import Iterable, Mapping

from engine.graph.look import loopless, plain
from engine.graph.nesting import innermost_first
from engine.graph.onward import Onward
from engine.model.tree import Document, Procedure, Run, Sort, Step, Tree
from engine.model.vehicle import Sheet


def kinds(
    tree: Tree, procedures: Mapping[str, Procedure], sheets: Iterable[Sheet]
) -> tuple[tuple[Sheet, ...], ...]:
    """The sheets in groups: those on which every sort of the tree, and of what it runs, goes alike."""
    walked: tuple[Document, ...] = (tree, *innermost_first((tree,), procedures))
    facts = sorted({s.fact for d in walked for s in d.steps.values() if isinstance(s, Sort)})
    alike: dict[tuple[str, ...], list[Sheet]] = {}
    for sheet in sheets:
        alike.setdefault(tuple(sheet.facts.get(fact, "") for fact in facts), []).append(sheet)
    return tuple(map(tuple, alike.values()))


def sound(tree: Tree, procedures: Mapping[str, Procedure], facts: Mapping[str, str]) -> bool:
    """Whether every walk on such a vehicle ends at a verdict. What keeps it from that, lint tells."""
    inner = {procedure.name: procedure for procedure in innermost_first((tree,), procedures)}
    walked: tuple[Document, ...] = (tree, *inner.values())
    onward = Onward(procedures, facts)
    return (
        loopless(inner)
        and all(plain(document) for document in walked)
        and all(_left(step, inner) for document in walked for step in document.steps.values())
        and all(_sorted(document, onward) for document in walked)
    )


def _left(step: Step, inner: Mapping[str, Procedure]) -> bool:
    """Whether a step that runs a procedure goes on from each of its outcomes."""
    if not isinstance(step, Run):
        return True
    return step.procedure in inner and inner[step.procedure].outcomes.keys() <= step.outcomes.keys()


def _sorted(document: Document, onward: Onward) -> bool:
    """Whether every sort that this vehicle may come to has a case for it."""
    steps = (document.steps[name] for name in onward.order(document))
    return all(any(onward.exits(step)) for step in steps if isinstance(step, Sort))
