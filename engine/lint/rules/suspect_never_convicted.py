"""A suspect that no verdict convicts.

A suspect is there to be convicted or cleared. One that no verdict names, or only a verdict that no path
comes to, takes its share of the probability on every walk and can never be found.

Bad: `suspects` lists `axle-broken`, and no verdict has it in its `suspects`.

Good: a verdict names it, if only one that refers the vehicle to somebody who can prove it.
"""

from collections.abc import Iterator

from engine.lint.convicting import convicting, whole
from engine.lint.finding import Found
from engine.lint.rule import Scope
from engine.model.tree import Tree, Verdict


def check(scope: Scope) -> Iterator[Found]:
    """Every suspect that no verdict within reach names."""
    for tree in scope.trees:
        named = {name for step in tree.steps.values() if isinstance(step, Verdict) for name in step.suspects}
        if not named >= tree.suspects.keys() or any(document is tree for document in scope.tangled):
            yield from _acquitted(scope, tree)


def _acquitted(scope: Scope, tree: Tree) -> Iterator[Found]:
    if not whole(tree):
        return  # what a torn tree could convict is not known; the tear is told elsewhere
    convicted = {name for verdict in convicting(scope, tree) for name in verdict.suspects}
    for name, suspect in tree.suspects.items():
        if name not in convicted:
            message = f"No verdict that a walk can come to convicts `{name}`."
            yield Found(suspect.place, message, "Let a verdict name it, or take the suspect out.")
