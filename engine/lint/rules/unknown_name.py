"""A word that names something which is not there.

Every step, outcome, procedure, state, caution, gauge, suspect, source, fact, unit, calculator and
sheet value that a document names must exist, else a walk would come to a door without a room behind.

Bad:

    then: look-at-shatf

Good:

    then: look-at-shaft
"""

from collections.abc import Callable, Collection, Iterator, Mapping
from typing import Final

from engine.lint.finding import Found
from engine.lint.rule import Scope
from engine.model.place import Place
from engine.model.tree import Document, Procedure, Reference, Tree
from engine.nearest import meant
from engine.quantity import dimension, units
from engine.trade import registry

Known = Callable[[Scope, Document, str], Collection[str]]

_WHAT: Final = {
    "target": "step",
    "value": "value of that fact",
    "outcome": "outcome of that procedure",
    "figure": "calculator",
    "sheet": "value of any sheet",
}


def check(scope: Scope) -> Iterator[Found]:
    """Every reference that resolves to nothing."""
    sheet = frozenset(name for s in scope.library.sheets.values() for name in s.references())
    for document in scope.documents:
        known = _known(scope, document, sheet)
        for reference in document.references:
            if not _there(scope, known, reference):
                yield _found(scope, known, reference, document.place.file)
    yield from _rehearsals(scope)
    yield from _shop(scope)


def _known(scope: Scope, document: Document, sheet: Collection[str]) -> Mapping[str, Collection[str]]:
    shop, library = scope.library.shop, scope.library
    outcomes = document.outcomes if isinstance(document, Procedure) else {}
    return {
        "target": document.steps.keys() | outcomes.keys(),
        "procedure": library.procedures.keys(),
        "state": shop.states.keys(),
        "caution": shop.cautions.keys(),
        "gauge": shop.gauges.keys(),
        "suspect": document.suspects.keys() if isinstance(document, Tree) else (),
        "source": document.sources.keys(),
        "fact": shop.facts.keys(),
        "figure": frozenset(c.name for c in registry.CALCULATORS),
        "sheet": sheet,
    }


def _there(scope: Scope, known: Mapping[str, Collection[str]], reference: Reference) -> bool:
    kind, name, *_ = reference
    if kind in known:
        return name in known[kind] or f"{kind} {name}" in scope.library.broken
    if kind == "unit":
        return dimension(name) is not None
    owner, _, word = name.partition("=")
    return word in _owned(scope, kind, owner, word)


def _owned(scope: Scope, kind: str, owner: str, word: str) -> Collection[str]:
    """The words that a fact or a procedure allows; an unknown owner has been told already."""
    if kind == "value":
        fact = scope.library.shop.facts.get(owner)
        return fact.values.keys() if fact else (word,)
    procedure = scope.library.procedures.get(owner)
    return procedure.outcomes.keys() if procedure else (word,)


def _found(scope: Scope, known: Mapping[str, Collection[str]], reference: Reference, file: str) -> Found:
    kind, name, line, column = reference
    owner, _, word = name.partition("=") if kind in ("value", "outcome") else ("", "", name)
    names = known[kind] if kind in known else units() if kind == "unit" else _owned(scope, kind, owner, word)
    of = f" `{owner}`" if owner else ""
    return Found(
        Place(file, line, column),
        f"There is no {_WHAT.get(kind, kind)}{of} named `{word}`.",
        meant(word, list(names)),
    )


def _rehearsals(scope: Scope) -> Iterator[Found]:
    library = scope.library
    for rehearsal in library.rehearsals.values():
        if not scope.wanted(rehearsal.place.file):
            continue
        for kind, name, there in (
            ("tree", rehearsal.tree, library.trees),
            ("vehicle", rehearsal.vehicle, library.sheets),
        ):
            if name not in there and f"{kind} {name}" not in library.broken:
                yield Found(rehearsal.place, f"There is no {kind} named `{name}`.", meant(name, list(there)))


def _shop(scope: Scope) -> Iterator[Found]:
    states = scope.library.shop.states
    for state in states.values():
        for name in state.excludes:
            if name not in states and scope.wanted(state.place.file):
                yield Found(state.place, f"There is no state named `{name}`.", meant(name, list(states)))
    facts = scope.library.shop.facts
    for sheet in scope.library.sheets.values():
        for fact, value in sheet.facts.items():
            if not scope.wanted(sheet.place.file):
                continue
            if fact not in facts:
                yield Found(sheet.place, f"There is no fact named `{fact}`.", meant(fact, list(facts)))
            elif value not in facts[fact].values:
                allowed = list(facts[fact].values)
                yield Found(sheet.place, f"The fact `{fact}` cannot be `{value}`.", meant(value, allowed))
