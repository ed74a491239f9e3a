"""How many walks come to each end of a document on one vehicle, and their fewest and most minutes.

One pass from the start onward, each step behind all that lead to it, so the cost grows with the ways out
and not with the walks. A procedure that is run counts by the outcome that it is left by; what follows a
verdict is not counted. Numbers are exact, however large.
"""

from collections.abc import Iterator, Mapping
from typing import NamedTuple

from engine.graph.nesting import innermost_first
from engine.graph.onward import NOTHING, Onward, Span
from engine.model.tree import Document, Procedure, Run, Sort, Step, Tree, Verdict


class Walks(NamedTuple):
    """How many walks there are, and the minutes of the quickest and of the longest of them."""

    paths: int
    span: Span

    def then(self, other: "Walks") -> "Walks":
        """Every walk of the one kind followed by every walk of the other."""
        return Walks(self.paths * other.paths, self.span.then(other.span))

    def either(self, other: "Walks") -> "Walks":
        """The walks of both kinds."""
        return Walks(self.paths + other.paths, self.span.either(other.span))


class Extent(NamedTuple):
    """A document as one vehicle meets it."""

    #: What a technician may come to: steps to do, ask, measure and the verdicts. In place of a step that
    #: runs a procedure stand the steps of the procedure, each time anew; a sort asks nobody.
    steps: int
    #: The walks to each verdict or outcome.
    ends: Mapping[str, Walks]


def extent(tree: Tree, procedures: Mapping[str, Procedure], onward: Onward) -> Extent:
    """The tree as this vehicle meets it. It and all that it runs must be there and free of loops."""
    known: dict[str, Extent] = {}
    for procedure in innermost_first((tree,), procedures):
        known[procedure.name] = _extent(procedure, onward, known)
    return _extent(tree, onward, known)


def _extent(document: Document, onward: Onward, known: Mapping[str, Extent]) -> Extent:
    met = {document.start: Walks(1, NOTHING)}
    ends: dict[str, Walks] = {}
    steps = 0
    for name in onward.order(document):
        here = met.pop(name, None)
        if here is None:
            continue  # only an outcome that this vehicle never brings about would lead here
        step = document.steps[name]
        steps += known[step.procedure].steps if isinstance(step, Run) else not isinstance(step, Sort)
        own = Walks(1, Span(step.minutes, step.minutes))
        for target, walks in _beyond(step, onward, known):
            into = ends if isinstance(step, Verdict) else met
            way = here.then(own).then(walks)
            into[target] = into[target].either(way) if target in into else way
    return Extent(steps, {**met, **ends})


def _beyond(step: Step, onward: Onward, known: Mapping[str, Extent]) -> Iterator[tuple[str, Walks]]:
    """Each way out of a step (a verdict ends at itself) with the walks through whatever it runs."""
    if isinstance(step, Verdict):
        yield step.name, Walks(1, NOTHING)
    elif isinstance(step, Run):
        ends = known[step.procedure].ends
        yield from ((target, ends[end]) for end, target in step.outcomes.items() if end in ends)
    else:
        yield from ((way.then, Walks(1, NOTHING)) for way in onward.exits(step))
