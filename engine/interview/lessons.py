"""What the cases of a store have to teach: how each ended, and its signs in a tree as it stands now."""

from collections.abc import Iterator
from typing import NamedTuple

from engine.belief.confirmed import Ended, carried, ended
from engine.errors import Damaged
from engine.interview.evolve import opened
from engine.model.tree import Tree
from engine.records.event import Opened
from engine.records.store import Store


class Lessons(NamedTuple):
    """Every case of a store whose verdict stands, and how many cases could not be read."""

    cases: tuple[Ended, ...]
    damaged: int


def lessons(store: Store, tree: Tree | None = None) -> Lessons:
    """The cases of one tree, with their signs as this version of it numbers them; without a tree, of all.

    A case that is damaged hides no other.
    """
    cases: list[Ended] = []
    damaged = 0
    known: dict[str, Tree | None] = {}
    for name in store.cases():
        try:
            cases += _case(store, name, tree, known)
        except Damaged:
            damaged += 1
    return Lessons(tuple(cases), damaged)


def _case(store: Store, name: str, tree: Tree | None, known: dict[str, Tree | None]) -> Iterator[Ended]:
    entries = store.read(name)
    found = ended(entries)
    if found is None or (tree and found.tree != tree.name):
        return
    first = entries[0].event
    if tree and found.signs and isinstance(first, Opened):
        if first.digest not in known:  # most cases were opened on the same few versions
            known[first.digest] = _then(first)
        then = known[first.digest]
        found = found._replace(signs=tuple(carried(found.signs, then, tree)) if then else ())
    yield found


def _then(event: Opened) -> Tree | None:
    """The tree as it stood when a case was opened; None where it cannot be read any more."""
    try:
        return opened(event).tree
    except ValueError:
        return None
