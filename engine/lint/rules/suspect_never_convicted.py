"""A suspect that no verdict convicts.

A suspect is there to be convicted or cleared. One that no verdict names, or only a verdict that no path
comes to, takes its share of the probability on every walk and can never be found.

Bad:

    suspects:
      axle-broken: {name: Rear axle broken, weight: 1}
      shaft-sheared: {name: Propeller shaft sheared, weight: 2}
    steps:
      look: {ask: Does the shaft turn?, answers: [{say: It does, then: refer}, {say: No, then: shaft}]}
      shaft: {verdict: Shaft sheared, suspects: [shaft-sheared], grade: repair, correction: Renew it.}

Good: a verdict names it, if only one that refers the vehicle to somebody who can prove it.

    suspects:
      axle-broken: {name: Rear axle broken, weight: 1}
      shaft-sheared: {name: Propeller shaft sheared, weight: 2}
    steps:
      look: {ask: Does the shaft turn?, answers: [{say: It does, then: axle}, {say: No, then: shaft}]}
      shaft: {verdict: Shaft sheared, suspects: [shaft-sheared], grade: repair, correction: Renew it.}
      axle: {verdict: Axle broken, suspects: [axle-broken], grade: refer, correction: Have it opened.}
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
