"""A procedure that nothing runs and no verdict follows.

It is read, checked and kept up to date for nobody; or the step that should run it was forgotten. A
folder that holds procedures and no tree is a shelf for others, and is left in peace.

Bad: in a library with trees, where none of them names it.

    procedure: dry-the-joint
    steps:
      wipe: {do: Wipe it., then: done}
    ---
    tree: joint-wet
    steps:
      look: {do: Look at it., then: end}

Good: a tree, or another procedure, has it in a `run`, or a verdict in its `follow`.

    procedure: dry-the-joint
    steps:
      wipe: {do: Wipe it., then: done}
    ---
    tree: joint-wet
    steps:
      dry: {run: dry-the-joint, outcomes: {done: end}}
"""

from collections.abc import Iterator

from engine.graph.view import called
from engine.lint.finding import Found
from engine.lint.rule import Scope
from engine.model.tree import Procedure


def check(scope: Scope) -> Iterator[Found]:
    """Every procedure under review that no other document names, where trees are under review too."""
    own = [document for document in scope.documents if isinstance(document, Procedure)]
    if not own or not scope.trees or _unread(scope):
        return
    both = (*scope.library.trees.values(), *scope.library.procedures.values())
    used = {
        name
        for user in both
        if "procedure" in user.references
        for step in user.steps.values()
        for name in called(step)
        if name != user.name
    }
    for procedure in own:
        if procedure.name not in used:
            message = f"Nothing runs or follows the procedure `{procedure.name}`."
            yield Found(procedure.place, message, "Let a step run it, or take the file out.")


def _unread(scope: Scope) -> bool:
    """Whether there are trees or procedures that could not be read: one of them may be the user."""
    return any(name.startswith(("tree", "procedure")) for name in scope.library.broken)
