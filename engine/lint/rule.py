"""What a rule is, and what it may look at."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from functools import cached_property
from typing import TYPE_CHECKING, NamedTuple

from engine.graph.known import NOTHING_TWICE, Known
from engine.graph.look import loopless, plain
from engine.graph.moves import Moves
from engine.graph.onward import Onward
from engine.graph.view import acyclic, called, entered, view
from engine.lint.asked import Twice, asked, twice
from engine.lint.bands import Standing, standings
from engine.lint.feasible import Feasible, feasible
from engine.lint.finding import Found, Severity
from engine.lint.safety import Fault, faults
from engine.loading.library import Library
from engine.model.matrix import Matrix
from engine.model.tree import Document, Tree
from engine.model.vehicle import Sheet

if TYPE_CHECKING:
    from engine.graph.view import Graph


@dataclass(frozen=True)
class Scope:
    """A library under review, with what several rules ask of it worked out once."""

    library: Library
    #: Files whose findings are wanted; empty means all.
    files: frozenset[str] = frozenset()
    #: The one vehicle whose sheet counts; empty means every vehicle.
    vehicle: str = ""
    _graphs: dict[str, "Graph"] = field(default_factory=dict, repr=False)
    _looks: dict[str, bool] = field(default_factory=dict, repr=False)
    _entered: dict[str, tuple[Document, ...]] = field(default_factory=dict, repr=False)
    _twice: dict[str, Twice] = field(default_factory=dict, repr=False)
    _feasible: dict[tuple[str, str], Feasible | None] = field(default_factory=dict, repr=False)
    _met: dict[tuple[str, str], Feasible | None] = field(default_factory=dict, repr=False)

    def wanted(self, file: str) -> bool:
        """Whether findings in this file are wanted."""
        return not self.files or file in self.files

    @cached_property
    def documents(self) -> tuple[Document, ...]:
        """The trees and procedures whose findings are wanted."""
        both = (*self.library.trees.values(), *self.library.procedures.values())
        return tuple(document for document in both if self.wanted(document.place.file))

    @property
    def trees(self) -> tuple[Tree, ...]:
        """The trees whose findings are wanted."""
        return tuple(d for d in self.documents if isinstance(d, Tree))

    @cached_property
    def matrices(self) -> tuple[Matrix, ...]:
        """The matrices whose findings are wanted."""
        return tuple(each for each in self.library.matrices.values() if self.wanted(each.place.file))

    @cached_property
    def standings(self) -> tuple[Standing, ...]:
        """The measuring steps under review as they stand for each vehicle."""
        return tuple(standings(self))

    @cached_property
    def state_faults(self) -> tuple[Fault, ...]:
        """What may go wrong with the states of the vehicle."""
        return tuple(faults(self))

    @cached_property
    def tangled(self) -> tuple[Document, ...]:
        """The documents under review of which there is something to say as graphs."""
        return tuple(document for document in self.documents if not self._plain(document))

    @cached_property
    def procedures_end(self) -> bool:
        """Whether no procedure runs itself, through others or at once."""
        return loopless(self.library.procedures)

    def ends(self, document: Document) -> bool:
        """Whether no path through the document goes round in a circle."""
        return self._plain(document) or acyclic(self.graph(document))

    def _plain(self, document: Document) -> bool:
        key = f"{type(document).__name__} {document.name}"
        if key not in self._looks:
            self._looks[key] = plain(document)
        return self._looks[key]

    def graph(self, document: Document) -> "Graph":
        """The document as a graph."""
        key = f"{type(document).__name__} {document.name}"
        if key not in self._graphs:
            self._graphs[key] = view(document)
        return self._graphs[key]

    def entered(self, document: Document) -> tuple[Document, ...]:
        """The document and every procedure that a walk through it may enter."""
        procedures = self.library.procedures
        key = f"{type(document).__name__} {document.name}"
        if key not in self._entered:
            names = entered(document, procedures) if "procedure" in document.references else ()
            self._entered[key] = (document, *(procedures[name] for name in names))
        return self._entered[key]

    def walkable(self, tree: Tree) -> bool:
        """Whether walks through the tree end, and all that it runs is there; else other rules tell."""
        documents = self.entered(tree)
        names = (name for document in documents for s in document.steps.values() for name in called(s))
        return (
            all(self.ends(document) for document in documents)
            and self.procedures_end
            and all(name in self.library.procedures for name in names)
        )

    def twice(self, tree: Tree) -> Twice:
        """The steps that ask for what a walk through the tree may be asked for more than once."""
        if tree.name not in self._twice:
            self._twice[tree.name] = twice(self.entered(tree))
        return self._twice[tree.name]

    def known(self, tree: Tree, sheet: Sheet) -> Known:
        """What the steps of a walkable tree can tell of a vehicle that others ask for too."""
        places = self.twice(tree)
        onward = Onward(self.library.procedures, sheet.facts)
        return asked(self.entered(tree), places, sheet, onward) if places else NOTHING_TWICE

    def feasible(self, tree: Tree, sheet: Sheet) -> Feasible | None:
        """What can happen on a vehicle; None where every path can, or nothing can be said."""
        key = (tree.name, sheet.name)
        if key not in self._feasible:
            known = NOTHING_TWICE
            if self.twice(tree) and self.walkable(tree):
                known = self.known(tree, sheet)
            onward = Onward(self.library.procedures, sheet.facts)
            moves = Moves(tree, self.library.procedures, onward, known)
            self._feasible[key] = feasible(moves, known) if known.askings else None
        return self._feasible[key]

    def met(self, tree: Tree, sheet: Sheet) -> Feasible | None:
        """What walks through a tree come to on a vehicle; None where nothing can be said."""
        known = self.feasible(tree, sheet)
        if known is not None or not self.walkable(tree):
            return known
        key = (tree.name, sheet.name)
        if key not in self._met:
            onward = Onward(self.library.procedures, sheet.facts)
            moves = Moves(tree, self.library.procedures, onward, NOTHING_TWICE)
            self._met[key] = feasible(moves, NOTHING_TWICE)
        return self._met[key]

    def kinds(self, tree: Tree) -> frozenset[str]:
        """The kinds of words that the tree, and whatever it enters, refers to."""
        return frozenset().union(*(document.references for document in self.entered(tree)))

    @property
    def vehicles(self) -> tuple[Sheet, ...]:
        """The sheets that count."""
        return tuple(s for s in self.library.sheets.values() if self.vehicle in ("", s.name))

    def sheets(self, tree: Tree) -> Iterator[Sheet]:
        """The sheets that the tree is for."""
        return (sheet for sheet in self.vehicles if suits(tree, sheet) == ())


class Rule(NamedTuple):
    """A rule by its slug; `page` is its manual page, the docstring of its file."""

    slug: str
    severity: Severity
    check: Callable[[Scope], Iterator[Found]]
    page: str
    #: Whether a tree that it finds fault with cannot be walked; a slip that leads nobody astray on the way
    #: is its author's to mend, and no reason to leave a vehicle half walked.
    bars: bool


def suits(tree: Tree, sheet: Sheet) -> tuple[str, ...]:
    """Why a tree is not for a vehicle, one sentence a fact; empty where it is."""
    return tuple(
        f"{fact} is {sheet.facts.get(fact, 'not said')}; the tree is for {' or '.join(values)}"
        for fact, values in tree.facts.items()
        if sheet.facts.get(fact) not in values
    )
