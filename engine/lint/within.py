"""Whether any walk can have a value there when it comes to a step: what was read before may rule it out."""

from bisect import bisect_left
from typing import TYPE_CHECKING

from engine.graph.known import Asking
from engine.lint.stretch import End, Stretch
from engine.model.tree import Procedure, Tree
from engine.model.vehicle import Sheet
from engine.quantity import Quantity, convert

if TYPE_CHECKING:
    from engine.lint.bands import Standing
    from engine.lint.rule import Scope


def possible(scope: "Scope", standing: "Standing", stretch: Stretch) -> bool:
    """Whether a walk may come to the step with a value in the stretch.

    It may where nothing is known of the value, and in a document that no tree enters.
    """
    document = standing.document
    trees = (document,) if isinstance(document, Tree) else scope.library.trees.values()
    entering = [tree for tree in trees if document in scope.entered(tree)]
    return not entering or any(
        _possible(scope, tree, sheet, standing, stretch)
        for tree in entering
        for sheet in scope.sheets(tree)
        if standing.sheet in ("", sheet.name)
    )


def _possible(scope: "Scope", tree: Tree, sheet: Sheet, standing: "Standing", stretch: Stretch) -> bool:
    """The same for the walks through one tree on one vehicle."""
    met = scope.met(tree, sheet)
    if met is None:
        return True
    document, step = standing.document, standing.step
    frame = (document.name if isinstance(document, Procedure) else "", step.name)
    asking = scope.known(tree, sheet).askings.get(frame)
    if asking is None:
        return frame in met.steps
    return bool(met.values.get(frame, 0) & _bits(asking, stretch, step.unit))


def _bits(asking: Asking, stretch: Stretch, unit: str) -> int:
    """The stretch as bits, like the ways out of the step."""
    first, last = (_cell(asking, end, unit) for end in stretch)
    return (1 << (last + 1)) - (1 << first)


def _cell(asking: Asking, end: End, unit: str) -> int:
    """Even cells lie between two limits, odd ones are a limit itself."""
    number = convert(Quantity(end.number, unit), asking.unit).value
    place = bisect_left(asking.points, number)
    on_limit = place < len(asking.points) and asking.points[place] == number
    return 2 * place + 1 + end.side if on_limit else 2 * place
