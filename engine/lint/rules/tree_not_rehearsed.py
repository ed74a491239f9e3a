"""A tree that no rehearsal walks.

A rehearsal is a walk with its verdict, kept beside the tree: it is what says that a change has led an
answer elsewhere. Only where rehearsals are checked together with the trees is one missed, so that a
single file in an editor is left in peace.

Bad: rehearsals are there, and none is for this tree.

    tree: shudders
    ---
    rehearsal: shaft-sheared
    tree: no-rear-drive
    answers: [{at: idle-in-low, say: All four}]

Good: at least one rehearsal for each tree.

    tree: shudders
    ---
    rehearsal: shudders-at-once
    tree: shudders
    answers: [{at: first, done: true}]
"""

from collections.abc import Iterator

from engine.lint.finding import Found
from engine.lint.rule import Scope


def check(scope: Scope) -> Iterator[Found]:
    """Every tree without a rehearsal, where there are rehearsals under review."""
    library = scope.library
    if not any(scope.wanted(rehearsal.place.file) for rehearsal in library.rehearsals.values()):
        return
    if any(name.startswith("rehearsal") for name in library.broken):
        return  # one that cannot be read may be the one
    walked = {rehearsal.tree for rehearsal in library.rehearsals.values()}
    for tree in scope.trees:
        if tree.name not in walked:
            message = f"No rehearsal walks the tree `{tree.name}`."
            yield Found(tree.place, message, "Write one, to the verdict that is met most often.")
