"""A vehicle sheet that lacks a value which a tree needs on a path for that vehicle.

Each tree is held against each sheet that it is for. A value counts as needed only where a step that
this vehicle can come to compares with it, shows it, or sorts by it.

Bad: the sheet of the Fen has no torque for its wheel nuts.

    tree: wheel-loose
    steps:
      fit: {do: Tighten the wheel nuts., show: [sheet.torques.wheel-nuts], then: end}
    ---
    vehicle: fen
    facts: {drive: all-wheel}

Good: the sheet gives it, or a `sort` keeps the vehicle away from that step.

    tree: wheel-loose
    steps:
      fit: {do: Tighten the wheel nuts., show: [sheet.torques.wheel-nuts], then: end}
    ---
    vehicle: fen
    facts: {drive: all-wheel}
    sources: {ours: {kind: invented}}
    torques: {wheel-nuts: {is: 100, unit: N·m, source: ours}}
"""

from collections.abc import Iterator

from engine.graph.onward import Onward
from engine.lint.finding import Found
from engine.lint.rule import Scope
from engine.model.place import Place
from engine.model.tree import Ask, Document, Measure, Procedure, Run, Sort, Step, Tree, Verdict
from engine.model.vehicle import Sheet
from engine.quantity import dimension


def check(scope: Scope) -> Iterator[Found]:
    """Every value that a vehicle needs and its sheet does not give, or gives in another kind of unit."""
    for tree in scope.trees:
        if _asks(scope, tree):
            for sheet in scope.sheets(tree):
                yield from _missing(scope, tree, sheet)


def _asks(scope: Scope, tree: Tree) -> bool:
    """Whether anything in the tree, or in what it enters, is answered by the sheet."""
    steps = (step for document in scope.entered(tree) for step in document.steps.values())
    return "sheet" in scope.kinds(tree) or any(isinstance(step, Sort) for step in steps)


def _missing(scope: Scope, tree: Tree, sheet: Sheet) -> Iterator[Found]:
    told: set[tuple[str, Place]] = set()
    known = frozenset(name for s in scope.library.sheets.values() for name in s.references())
    for document, step in _met(scope, tree, sheet):
        if isinstance(step, Sort):
            yield from _unsorted(document, step, sheet)
        for reference, place, unit in _needed(step):
            if (reference, place) in told or reference not in known:
                continue
            told.add((reference, place))
            if not sheet.has(reference):
                message = f"The sheet `{sheet.name}` has no `{reference}`, which `{step.name}` needs."
                yield Found(place, message, f"Add it to {sheet.place.file}, or sort the vehicle away.")
            elif unit and reference not in sheet.limits:
                message = f"`{reference}` is no limit that `{step.name}` can compare with."
                yield Found(place, message, "Name a limit of the sheet: sheet.UNIT.ITEM.BOUND.")
            elif unit and dimension(sheet.limits[reference].unit) != dimension(unit):
                given = sheet.limits[reference].unit
                message = (
                    f"`{reference}` is in {given} on the sheet `{sheet.name}`; `{step.name}` reads {unit}."
                )
                yield Found(place, message, "Give both in units of the same kind.")


def _unsorted(document: Document, step: Sort, sheet: Sheet) -> Iterator[Found]:
    """A sort that the sheet cannot answer: no such fact, or a value that the document was not written for."""
    value = sheet.facts.get(step.fact)
    if value is None:
        message = f"The sheet `{sheet.name}` does not say its `{step.fact}`, by which `{step.name}` sorts."
        yield Found(step.place, message, f"Add the fact to {sheet.place.file}, or sort the vehicle away.")
    elif value not in step.cases and value not in document.facts.get(step.fact, (value,)):
        message = (
            f"`{step.name}` has no case for `{step.fact}` = `{value}`, which the sheet `{sheet.name}` gives."
        )
        yield Found(step.place, message, f"Widen the `for` of `{document.name}`, or sort the vehicle away.")


def _needed(step: Step) -> Iterator[tuple[str, Place, str]]:
    for reference in step.show:
        yield reference, step.place, ""
    if isinstance(step, Ask | Measure):
        yield from ((fed.sheet, fed.place, "") for fed in step.given if fed.sheet)
    if isinstance(step, Measure):
        for band in step.bands:
            for limit in (band.low, band.high):
                if limit is not None and limit.sheet is not None:
                    yield limit.sheet, limit.place, step.unit


def _met(scope: Scope, tree: Tree, sheet: Sheet) -> Iterator[tuple[Document, Step]]:
    """Every step that this vehicle can come to, in the tree and in what it enters, with its document."""
    onward = Onward(scope.library.procedures, sheet.facts)
    procedures = scope.library.procedures
    seen: set[str] = set()
    waiting: list[tuple[Document, str]] = [(tree, tree.start)]
    while waiting:
        document, name = waiting.pop()
        step = document.steps.get(name)
        key = f"{document.name if isinstance(document, Procedure) else ''}/{name}"
        if step is None or key in seen:
            continue
        seen.add(key)
        yield document, step
        waiting.extend((document, way.then) for way in onward.exits(step))
        inside = (
            (step.procedure,) if isinstance(step, Run) else step.follow if isinstance(step, Verdict) else ()
        )
        waiting.extend((procedures[p], procedures[p].start) for p in inside if p in procedures)
