"""What a rule is, and what it may look at."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from functools import cached_property
from typing import TYPE_CHECKING, NamedTuple

from engine.graph.view import acyclic, calls, entered, view
from engine.lint.bands import Standing, standings
from engine.lint.finding import Found, Severity
from engine.lint.safety import Fault, faults
from engine.loading.library import Library
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
    _graphs: dict[str, "Graph"] = field(default_factory=dict, repr=False)

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
    def standings(self) -> tuple[Standing, ...]:
        """The measuring steps under review as they stand for each vehicle."""
        return tuple(standings(self))

    @cached_property
    def state_faults(self) -> tuple[Fault, ...]:
        """What may go wrong with the states of the vehicle."""
        return tuple(faults(self))

    @cached_property
    def procedures_end(self) -> bool:
        """Whether no procedure runs itself, through others or at once."""
        return acyclic(calls(self.library.procedures))

    def graph(self, document: Document) -> "Graph":
        """The document as a graph."""
        key = f"{type(document).__name__} {document.name}"
        if key not in self._graphs:
            self._graphs[key] = view(document)
        return self._graphs[key]

    def entered(self, document: Document) -> tuple[Document, ...]:
        """The document and every procedure that a walk through it may enter."""
        procedures = self.library.procedures
        return (document, *(procedures[name] for name in entered(document, procedures)))

    def sheets(self, tree: Tree) -> Iterator[Sheet]:
        """The sheets that the tree is for."""
        return (sheet for sheet in self.library.sheets.values() if suits(tree, sheet) == ())


class Rule(NamedTuple):
    """A rule by its slug; `page` is its manual page, the docstring of its file."""

    slug: str
    severity: Severity
    check: Callable[[Scope], Iterator[Found]]
    page: str


def suits(tree: Tree, sheet: Sheet) -> tuple[str, ...]:
    """Why a tree is not for a vehicle, one sentence a fact; empty where it is."""
    return tuple(
        f"{fact} is {sheet.facts.get(fact, 'not said')}; the tree is for {' or '.join(values)}"
        for fact, values in tree.facts.items()
        if sheet.facts.get(fact) not in values
    )
