"""A library: every document of some folders, each name given once."""

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from typing import Any, NamedTuple

from engine.errors import Problem
from engine.loading.leaf import KINDS, ONE, File, Held, Leaf, leaf
from engine.loading.naming import Naming
from engine.model.acceptance import Acceptance
from engine.model.matrix import Matrix
from engine.model.rehearsal import Rehearsal
from engine.model.shop import Shop
from engine.model.tree import Procedure, Tree
from engine.model.vehicle import Sheet

#: How files become leaves: one by one, in the order of the files.
Reading = Callable[[Callable[[File], Leaf], Iterable[File]], Iterable[Leaf]]


class Library(NamedTuple):
    """All documents that were found, by name, and every problem met on the way."""

    trees: Mapping[str, Tree]
    procedures: Mapping[str, Procedure]
    sheets: Mapping[str, Sheet]
    rehearsals: Mapping[str, Rehearsal]
    matrices: Mapping[str, Matrix]
    shop: Shop
    problems: tuple[Problem, ...]
    #: Names that are there but could not be built, as `tree no-rear-drive` or `caution hot-parts`; the
    #: kind alone (`caution`) where not even its names could be read.
    broken: frozenset[str]
    #: The text of every file, by its path inside the library.
    texts: Mapping[str, str]
    #: The path of each document, by `tree no-rear-drive`; of shop documents, by their kind.
    paths: Mapping[str, tuple[str, ...]]
    #: Where each file's places are shown, and its path inside the library.
    shown: Mapping[str, str]
    #: What all but trees and procedures name, by where it is shown; of trusted files nothing.
    namings: Mapping[str, Naming]
    #: What lint may find in each file, by its author's leave, by where the file is shown.
    accepted: Mapping[str, tuple[Acceptance, ...]]
    #: The pictures that each file names and that are there, by where the file is shown.
    pictures: Mapping[str, frozenset[str]]


@dataclass(slots=True)
class _Shelf:
    """What a library is gathered into."""

    found: dict[str, dict[str, Any]] = field(default_factory=lambda: {kind: {} for kind in KINDS})
    problems: list[Problem] = field(default_factory=list)
    broken: set[str] = field(default_factory=set)
    #: Files that could not be read at all, by what their names say that they hold.
    unread: set[str] = field(default_factory=set)
    texts: dict[str, str] = field(default_factory=dict)
    shown: dict[str, str] = field(default_factory=dict)
    paths: dict[str, list[str]] = field(default_factory=dict)
    namings: dict[str, Naming] = field(default_factory=dict)
    accepted: dict[str, tuple[Acceptance, ...]] = field(default_factory=dict)
    pictures: dict[str, frozenset[str]] = field(default_factory=dict)

    def add(self, leaf: Leaf) -> None:
        """Put what a file holds on the shelf."""
        path = leaf.path
        while path in self.texts:
            path += "~"  # two folders of one name: both texts must last as long as the cases opened on them
        self.shown[leaf.shown] = path
        self.texts[path] = leaf.text
        self.problems.extend(leaf.problems)
        self.broken.update(leaf.broken)
        self.unread.update(leaf.unread)
        if leaf.held and leaf.kind not in ONE:
            self.paths.setdefault(leaf.kind, []).append(path)
        for held in leaf.held:
            if self._free(leaf, held):
                self.found[leaf.kind][held.name] = held.value
                if leaf.kind in ONE:
                    self.paths[f"{leaf.kind} {held.name}"] = [path]
        if leaf.naming is not None:
            self.namings[leaf.shown] = leaf.naming
        if leaf.accepted:
            self.accepted[leaf.shown] = leaf.accepted
        if leaf.pictures:
            self.pictures[leaf.shown] = leaf.pictures

    def _free(self, leaf: Leaf, held: Held) -> bool:
        first = self.found[leaf.kind].get(held.name)
        if first is None or leaf.trusted:
            return first is None
        message = f"The name `{held.name}` is already taken at {first.place}."
        self.problems.append(Problem(*held.place, "name-taken", message, "Give one of the two another name."))
        return False


def one_by_one(read: Callable[[File], Leaf], files: Iterable[File]) -> Iterator[Leaf]:
    """The leaves of the files, read here and now."""
    return map(read, files)


def gather(files: Iterable[File], reading: Reading = one_by_one) -> Library:
    """The library that these files make. Pure: what the files hold is all that counts.

    >>> gather([File("a.yaml", "a.yaml", b"tre: x")]).problems[0].cure
    'Did you mean `tree`?'
    """
    shelf = _Shelf()
    for each in reading(leaf, files):
        shelf.add(each)
    found = shelf.found
    there = {f"{kind} {name}" for kind in ONE for name in found[kind]}
    return Library(
        trees=found["tree"],
        procedures=found["procedure"],
        sheets=found["vehicle"],
        rehearsals=found["rehearsal"],
        matrices=found["matrix"],
        shop=Shop(found["cautions"], found["states"], found["gauges"], found["facts"]),
        problems=tuple(sorted(shelf.problems)),
        broken=frozenset(shelf.broken | (shelf.unread - there)),
        texts=shelf.texts,
        paths={name: tuple(paths) for name, paths in shelf.paths.items()},
        shown=shelf.shown,
        namings=shelf.namings,
        accepted=shelf.accepted,
        pictures=shelf.pictures,
    )
