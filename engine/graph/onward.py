"""How far it is from a step to each end, for one vehicle: fewest and most minutes, exactly.

Dynamic programming over the acyclic steps; a procedure that is run counts with its own minutes to
the outcome it leaves by, so nothing is ever unfolded path by path.
"""

from collections.abc import Iterator, Mapping
from fractions import Fraction
from typing import NamedTuple

from engine.graph.exits import Exit, exits
from engine.model.tree import Document, Procedure, Run, Sort, Step, Verdict


class Span(NamedTuple):
    """Minutes by the quickest and by the longest path."""

    fewest: Fraction
    most: Fraction

    def then(self, other: "Span") -> "Span":
        """The span of one stretch after the other."""
        return Span(self.fewest + other.fewest, self.most + other.most)

    def either(self, other: "Span") -> "Span":
        """The span where one or the other may happen."""
        return Span(min(self.fewest, other.fewest), max(self.most, other.most))


Spans = Mapping[str, Span]
NOTHING = Span(Fraction(0), Fraction(0))


class Onward:
    """The library as one vehicle sees it; remembers what it has worked out."""

    def __init__(self, procedures: Mapping[str, Procedure], facts: Mapping[str, str]) -> None:
        self._procedures = procedures
        self._facts = facts
        self._known: dict[tuple[bool, str, str], Spans] = {}

    def exits(self, step: Step) -> Iterator[Exit]:
        """The ways out that this vehicle leaves open: a sort has one."""
        if isinstance(step, Sort):
            value = self._facts.get(step.fact, "")
            return (way for way in (Exit(value, step.cases.get(value, "")),) if way.then)
        return exits(step)

    def spans(self, document: Document, name: str) -> Spans:
        """Minutes from a step (its own included) to each verdict or outcome that can still be reached.

        The document, and what it runs, must be free of loops. Works from the ends backwards on a stack
        of its own: a tree may be deeper than Python's.
        """
        waiting = [(document, name)]
        while waiting:
            first = [ahead for ahead in self._ahead(*waiting[-1]) if self._found(*ahead) is None]
            if first:
                waiting.extend(first)
            else:
                self._settle(*waiting.pop())
        spans = self._found(document, name)
        assert spans is not None
        return spans

    def _ahead(self, document: Document, name: str) -> Iterator[tuple[Document, str]]:
        """What must be known before the spans of a step can be."""
        step = document.steps.get(name)
        if step is None:
            return
        if isinstance(step, Run):
            procedure = self._procedures[step.procedure]
            yield procedure, procedure.start
        yield from ((document, way.then) for way in self.exits(step))

    def _found(self, document: Document, name: str) -> Spans | None:
        if name not in document.steps:
            return {name: NOTHING}
        return self._known.get((isinstance(document, Procedure), document.name, name))

    def _settle(self, document: Document, name: str) -> None:
        if self._found(document, name) is None:
            spans = self._work_out(document, document.steps[name])
            self._known[isinstance(document, Procedure), document.name, name] = spans

    def _work_out(self, document: Document, step: Step) -> Spans:
        own = Span(step.minutes, step.minutes)
        if isinstance(step, Verdict):
            return {step.name: own}
        if isinstance(step, Run):
            procedure = self._procedures[step.procedure]
            inner = self.spans(procedure, procedure.start)
            return {end: own.then(span) for end, span in self.leave(document, step, inner).items()}
        out: dict[str, Span] = {}
        for way in self.exits(step):
            _merge(out, own, self.spans(document, way.then))
        return out

    def leave(self, document: Document, step: Run, inner: Spans) -> Spans:
        """Minutes from inside a procedure, given its own spans, to the ends of the document that ran it."""
        out: dict[str, Span] = {}
        for outcome, first in inner.items():
            _merge(out, first, self.spans(document, step.outcomes[outcome]))
        return out


def _merge(out: dict[str, Span], first: Span, rest: Spans) -> None:
    for end, span in rest.items():
        whole = first.then(span)
        out[end] = out[end].either(whole) if end in out else whole
