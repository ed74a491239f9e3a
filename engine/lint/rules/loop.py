"""Steps that lead round in a circle.

A walk must end; a technician who may go round for ever has no verdict and no end of the working day.
Repeat a reading by stepping back, or write the second attempt as steps of its own.

Bad:

    level: {ask: Is it full?, answers: [{say: Full, then: end}, {say: Low, then: top-up}]}
    top-up: {do: Fill it up., then: level}

Good: the second look has no way back.

    level: {ask: Is it full?, answers: [{say: Full, then: end}, {say: Low, then: top-up}]}
    top-up: {do: Fill it up., then: level-again}
    level-again: {ask: Is it full now?, answers: [{say: Full, then: end}, {say: Low, then: refer}]}
"""

from collections.abc import Iterator

from engine.graph.exits import exits
from engine.graph.view import calls, loops
from engine.lint.finding import Found
from engine.lint.rule import Scope
from engine.model.stop import Stop
from engine.model.tree import Document, Step


def check(scope: Scope) -> Iterator[Found]:
    """Every knot of steps, and every knot of procedures that run each other."""
    for document in scope.tangled:
        for loop in loops(scope.graph(document)):
            round_ = " -> ".join((*loop, loop[0]))
            yield Found(
                document.steps[loop[0]].place,
                f"These steps lead round in a circle: {round_}.",
                "Let one of them lead on instead.",
                _told(document, loop),
            )
    procedures = scope.library.procedures
    for loop in () if scope.procedures_end else loops(calls(procedures)):
        place = procedures[loop[0]].place
        if scope.wanted(place.file):
            round_ = " -> ".join((*loop, loop[0]))
            yield Found(
                place,
                f"These procedures run each other in a circle: {round_}.",
                "Take one run out.",
                tuple(Stop(name, procedures[name].place) for name in loop),
            )


def _told(document: Document, loop: tuple[str, ...]) -> tuple[Stop, ...]:
    following = (*loop[1:], loop[0])
    return tuple(
        Stop(_said(document.steps[name], after), document.steps[name].place)
        for name, after in zip(loop, following, strict=True)
    )


def _said(step: Step, after: str) -> str:
    way = next(way.label for way in exits(step) if way.then == after)
    return f"{step.name}: {way} -> {after}"
