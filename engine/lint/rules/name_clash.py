"""One name for two things in the same document.

In a procedure a target names a step or an outcome, so no step may be called like an outcome. In a tree,
`elsewhere` means something that the tree does not name, so no suspect may be called so. In a step each
reading has a name of its own, by which it is kept.

Bad:

    procedure: lift-it
    outcomes: {raised: It hangs clear of the floor}
    steps:
      raised: {do: Raise it., then: raised}

Good:

    procedure: lift-it
    outcomes: {raised: It hangs clear of the floor}
    steps:
      raise: {do: Raise it., then: raised}
"""

from collections.abc import Iterator

from engine.lint.finding import Found
from engine.lint.rule import Scope
from engine.model.tree import ELSEWHERE, Document, Measure, Procedure, Tree


def check(scope: Scope) -> Iterator[Found]:
    """A step called like an outcome of its procedure, a suspect `elsewhere`, and a reading like another."""
    for document in scope.documents:
        yield from _readings(document)
        if isinstance(document, Procedure):
            for name in document.outcomes.keys() & document.steps.keys():
                message = f"`{name}` is both a step and an outcome here."
                yield Found(document.steps[name].place, message, "Give the step another name.")
        elif isinstance(document, Tree) and ELSEWHERE in document.suspects:
            message = f"`{ELSEWHERE}` means what the tree does not name, and is no suspect."
            yield Found(document.suspects[ELSEWHERE].place, message, "Give the suspect another name.")


def _readings(document: Document) -> Iterator[Found]:
    for step in document.steps.values():
        names: set[str] = set()
        for want in step.readings if isinstance(step, Measure) else ():
            if want.name in names:
                message = f"`{step.name}` takes two readings named `{want.name}`."
                yield Found(want.place, message, "Give each a name of its own.")
            names.add(want.name)
