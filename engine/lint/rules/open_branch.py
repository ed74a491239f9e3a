"""A branch that does not cover everything that can come.

A `sort` must have a case for each value of its fact that the tree's `for` leaves open, and a `run`
must say where each outcome of the procedure leads; else a walk could stop in mid-air.

Bad:

    gearbox: {sort: transmission, cases: {manual: drain-box}}

Good:

    gearbox: {sort: transmission, cases: {manual: drain-box, automatic: drain-transaxle}}
"""

from collections.abc import Iterator

from engine.lint.finding import Found
from engine.lint.rule import Scope
from engine.model.tree import Document, Run, Sort


def check(scope: Scope) -> Iterator[Found]:
    """Every sort without a case, and every run without an outcome, that may be needed."""
    for document in scope.documents:
        for step in document.steps.values():
            if isinstance(step, Sort):
                yield from _sort(scope, document, step)
            elif isinstance(step, Run):
                yield from _run(scope, step)


def _sort(scope: Scope, document: Document, step: Sort) -> Iterator[Found]:
    fact = scope.library.shop.facts.get(step.fact)
    open_values = document.facts.get(step.fact) or (tuple(fact.values) if fact else ())
    for value in open_values:
        if value not in step.cases:
            message = f"`{step.name}` has no case for `{step.fact}` = `{value}`."
            yield Found(step.place, message, f"Add `{value}:` to its cases, or narrow the document's `for`.")


def _run(scope: Scope, step: Run) -> Iterator[Found]:
    procedure = scope.library.procedures.get(step.procedure)
    for outcome in procedure.outcomes if procedure else ():
        if outcome not in step.outcomes:
            message = f"`{step.name}` does not say where the outcome `{outcome}` leads."
            yield Found(step.place, message, f"Add `{outcome}:` to its outcomes.")
