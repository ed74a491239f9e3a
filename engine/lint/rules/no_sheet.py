"""A tree that is for no vehicle of the library.

Bad: in a library whose sheets all say `viscous`.

    tree: binds-in-turns
    for: {centre: geared}

Good: at least one sheet has every fact that the tree's `for` asks for.

    tree: binds-in-turns
    for: {centre: viscous}
"""

from collections.abc import Iterator

from engine.lint.finding import Found
from engine.lint.rule import Scope, suits
from engine.model.stop import Stop


def check(scope: Scope) -> Iterator[Found]:
    """Every tree without a sheet."""
    for tree in scope.trees:
        if scope.library.sheets and not any(True for _ in scope.sheets(tree)):
            sheets = scope.library.sheets.values()
            reasons = tuple(Stop(f"{s.name}: {'; '.join(suits(tree, s))}", s.place) for s in sheets)
            message = f"No sheet of the library suits the tree `{tree.name}`."
            yield Found(tree.place, message, "Widen its `for`, or add a sheet.", reasons)
