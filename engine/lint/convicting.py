"""What of a tree a walk can come to, as the rules on suspects ask it."""

from collections.abc import Collection

from engine.graph.exits import targets
from engine.graph.view import unreachable
from engine.lint.rule import Scope
from engine.model.tree import Tree, Verdict


def whole(tree: Tree) -> bool:
    """Whether the start and every target is there; in a torn tree nothing can be said of its verdicts."""
    steps = tree.steps
    return tree.start in steps and all(then in steps for step in steps.values() for then in targets(step))


def reached(scope: Scope, tree: Tree) -> Collection[str]:
    """The steps that some path from the start comes to."""
    if not any(document is tree for document in scope.tangled):
        return tree.steps.keys()
    lost = unreachable(tree, scope.graph(tree))
    return [name for name in tree.steps if name not in lost]


def convicting(scope: Scope, tree: Tree) -> tuple[Verdict, ...]:
    """The verdicts that can be reached, in the order of the text."""
    steps = (tree.steps[name] for name in reached(scope, tree))
    return tuple(step for step in steps if isinstance(step, Verdict))
