"""A word that names something which is not there.

Every step, outcome, procedure, state, caution, gauge, suspect, source, fact, unit, calculator and
sheet value that a document names must exist, else a walk would come to a door without a room behind;
and of a matrix every fault, set-up and test.

Bad:

    lift: {do: Raise it until the wheels hang clear., cautions: [rasing], then: end}

Good:

    lift: {do: Raise it until the wheels hang clear., cautions: [raising], then: end}
"""

from collections.abc import Collection, Iterator, Mapping
from typing import Final

from engine.lint.finding import Found
from engine.lint.rule import Scope
from engine.model.place import Place
from engine.model.tree import ELSEWHERE, Document, Procedure, Reference, References, Tree
from engine.nearest import meant
from engine.quantity import dimension, units
from engine.trade import registry

#: The names that a word may be, by the kind of what it names.
Known = Mapping[str, Collection[str]]

_WHAT: Final = {
    "target": "step",
    "value": "value of the fact",
    "outcome": "outcome of the procedure",
    "figure": "calculator",
    "setup": "set-up",
    "sheet": "value of any sheet",
}


def check(scope: Scope) -> Iterator[Found]:
    """Every reference that resolves to nothing."""
    shared = _shared(scope)
    for document in scope.documents:
        known = {**shared, **_own(document)}
        yield from _unknown(scope, known, document.place.file, document.references)
    for file, naming in scope.library.namings.items():
        if scope.wanted(file):
            yield from _unknown(scope, {**shared, **naming.own}, file, naming.references)


def _shared(scope: Scope) -> Mapping[str, Collection[str]]:
    """The names that every document may use, by their kind."""
    shop, library = scope.library.shop, scope.library
    return {
        "tree": library.trees.keys(),
        "vehicle": library.sheets.keys(),
        "procedure": library.procedures.keys(),
        "state": shop.states.keys(),
        "caution": shop.cautions.keys(),
        "gauge": shop.gauges.keys(),
        "fact": shop.facts.keys(),
        "figure": frozenset(registry.names()),
        "sheet": frozenset(name for sheet in library.sheets.values() for name in sheet.references()),
    }


def _own(document: Document) -> Mapping[str, Collection[str]]:
    """The names that only this document may use."""
    outcomes = document.outcomes if isinstance(document, Procedure) else {}
    return {
        "target": document.steps.keys() | outcomes.keys(),
        "suspect": document.suspects.keys() | {ELSEWHERE} if isinstance(document, Tree) else (),
        "source": document.sources.keys(),
    }


def _unknown(scope: Scope, known: Known, file: str, references: References) -> Iterator[Found]:
    for kind, named in references.items():
        there = known.get(kind, ())
        for reference in named:
            if reference[0] not in there and not _there(scope, known, kind, reference[0]):
                yield _found(scope, known, kind, reference, file)


def _there(scope: Scope, known: Known, kind: str, name: str) -> bool:
    """Whether a name that is not among the known ones of its kind may stand all the same."""
    if kind in known:
        return _broken(scope.library.broken, kind, name)
    if kind == "picture":
        return True  # a file, of which another rule tells
    if kind == "unit":
        return dimension(name) is not None
    owner, _, word = name.partition("=")
    return word in _owned(scope, kind, owner, word)


def _broken(broken: Collection[str], kind: str, name: str) -> bool:
    """Whether a document that cannot be built may hold the name: then one slip is told and not two."""
    if kind == "sheet":
        return any(word.startswith("vehicle ") for word in broken)
    return kind in broken or f"{kind} {name}" in broken


def _owned(scope: Scope, kind: str, owner: str, word: str) -> Collection[str]:
    """The words that a fact or a procedure allows; an unknown owner has been told already."""
    if kind == "value":
        fact = scope.library.shop.facts.get(owner)
        return fact.values.keys() if fact else (word,)
    procedure = scope.library.procedures.get(owner)
    return procedure.outcomes.keys() if procedure else (word,)


def _found(scope: Scope, known: Known, kind: str, reference: Reference, file: str) -> Found:
    name, line, column = reference
    owner, _, word = name.partition("=") if kind in ("value", "outcome") else ("", "", name)
    names = known[kind] if kind in known else units() if kind == "unit" else _owned(scope, kind, owner, word)
    of = f" `{owner}`" if owner else ""
    return Found(
        Place(file, line, column),
        f"There is no {_WHAT.get(kind, kind)}{of} named `{word}`.",
        meant(word, list(names)),
    )
