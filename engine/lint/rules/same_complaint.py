"""Two trees for the same complaint on the same vehicles.

The complaint is how a technician finds the tree. Where two trees have the same words and there may be a
vehicle that both are for, the choice between them is a guess. Case, spaces and the stop at the end do not
count.

Bad:

    tree: shudders
    complaint: It shudders in tight turns.
    ---
    tree: binds
    complaint: it shudders in tight turns

Good: no vehicle is for both.

    tree: shudders
    for: {transmission: manual}
    complaint: It shudders in tight turns.
    ---
    tree: binds
    for: {transmission: automatic}
    complaint: it shudders in tight turns
"""

from collections.abc import Iterator

from engine.lint.finding import Found
from engine.lint.rule import Scope
from engine.model.tree import Tree


def check(scope: Scope) -> Iterator[Found]:
    """Every pair of trees that a complaint does not tell apart, at the later one that is under review."""
    alike: dict[str, list[Tree]] = {}
    for tree in scope.library.trees.values():
        alike.setdefault(" ".join(tree.complaint.split()).casefold().rstrip(" .!?"), []).append(tree)
    for trees in alike.values():
        for number, tree in enumerate(trees):
            for other in trees[:number]:
                if _may_meet(tree, other):
                    yield from _told(scope, tree, other)


def _may_meet(one: Tree, other: Tree) -> bool:
    """Whether some vehicle may suit both: no fact is there that both name without a value in common."""
    return all(set(values) & set(other.facts.get(fact, values)) for fact, values in one.facts.items())


def _told(scope: Scope, later: Tree, first: Tree) -> Iterator[Found]:
    if not scope.wanted(later.place.file):
        later, first = first, later
    if scope.wanted(later.place.file):
        message = (
            f"`{later.name}` has the complaint of `{first.name}` at {first.place}, for the same vehicles."
        )
        yield Found(later.place, message, "Say what is different, or narrow the `for` of one of them.")
