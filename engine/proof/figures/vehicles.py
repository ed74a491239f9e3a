"""The kinds of vehicles that a tree meets, and whether it can be walked to a verdict on each."""

from collections.abc import Iterable, Mapping

from engine.graph.holding import order
from engine.graph.look import loopless, plain
from engine.graph.nesting import innermost_first
from engine.graph.onward import Onward
from engine.graph.view import called, entered
from engine.model.tree import Document, Procedure, Run, Sort, Tree
from engine.model.vehicle import Sheet


def kinds(
    tree: Tree, procedures: Mapping[str, Procedure], sheets: Iterable[Sheet]
) -> tuple[tuple[Sheet, ...], ...]:
    """The sheets in groups: those on which every sort of the tree, and of what it runs, goes alike."""
    names = entered(tree, procedures)
    documents: list[Document] = [tree, *(procedures[name] for name in names)]
    facts = sorted({s.fact for d in documents for s in d.steps.values() if isinstance(s, Sort)})
    alike: dict[tuple[str, ...], list[Sheet]] = {}
    for sheet in sheets:
        alike.setdefault(tuple(sheet.facts.get(fact, "") for fact in facts), []).append(sheet)
    return tuple(map(tuple, alike.values()))


def sound(tree: Tree, procedures: Mapping[str, Procedure], facts: Mapping[str, str]) -> bool:
    """Whether every walk on such a vehicle ends at a verdict. What keeps it from that, lint tells."""
    documents = [tree, *(procedures[name] for name in entered(tree, procedures))]
    steps = [step for document in documents for step in document.steps.values()]
    if not all(name in procedures for step in steps for name in called(step)):
        return False
    if not loopless(procedures) or not all(plain(document) for document in documents):
        return False
    if not all(set(procedures[s.procedure].outcomes) <= set(s.outcomes) for s in steps if isinstance(s, Run)):
        return False
    onward = Onward(procedures, facts)
    walked = (tree, *innermost_first(tree, procedures))
    return all(
        any(onward.exits(d.steps[name])) for d in walked for name in order(d, onward) if _sorts(d, name)
    )


def _sorts(document: Document, name: str) -> bool:
    return isinstance(document.steps[name], Sort)
