"""How far it is from a step to each end, for one vehicle: fewest and most minutes, exactly.

One pass over the acyclic steps, each behind all that lead to it; a procedure that is run counts with its own
minutes to the outcome it leaves by, so nothing is ever unfolded path by path.
"""

from collections.abc import Iterable, Iterator, Mapping
from fractions import Fraction
from typing import NamedTuple

from engine.graph.exits import Exit, exits
from engine.graph.nesting import innermost_first
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
        self._through: dict[str, Spans] = {}

    def exits(self, step: Step) -> Iterator[Exit]:
        """The ways out that this vehicle leaves open: a sort has one."""
        if isinstance(step, Sort):
            value = self._facts.get(step.fact, "")
            return (way for way in (Exit(value, step.cases.get(value, "")),) if way.then)
        return exits(step)

    def order(self, document: Document, starts: Iterable[str] = ()) -> list[str]:
        """The steps that this vehicle can come to from these (else the start), each behind all before it.

        The document has no loop.
        """
        done: list[str] = []
        seen: set[str] = set()
        waiting = [(name, False) for name in starts or (document.start,)]
        while waiting:
            name, left = waiting.pop()
            if left:
                done.append(name)
            elif name in document.steps and name not in seen:
                seen.add(name)
                waiting.append((name, True))
                waiting.extend((way.then, False) for way in self.exits(document.steps[name]))
        return done[::-1]

    def spans(self, document: Document, name: str) -> Spans:
        """Minutes from a step (its own included) to each verdict or outcome that can still be reached.

        The document, and what it runs, must be free of loops.
        """
        return self._spread(document, {name: NOTHING})

    def leave(self, document: Document, step: Run, inner: Spans) -> Spans:
        """Minutes from inside a procedure, given its own spans, to the ends of the document that ran it."""
        met: dict[str, Span] = {}
        for outcome, span in inner.items():
            _meet(met, step.outcomes[outcome], span)
        return self._spread(document, met)

    def _spread(self, document: Document, met: Mapping[str, Span]) -> Spans:
        """Minutes to each end, given those to some steps: each procedure that is run is gone through once."""
        for procedure in innermost_first((document,), self._procedures):
            if procedure.name not in self._through:
                self._through[procedure.name] = self._pass(procedure, {procedure.start: NOTHING})
        return self._pass(document, met)

    def _pass(self, document: Document, met: Mapping[str, Span]) -> Spans:
        """One pass onward, so that only the minutes to a step are kept, and none of the many ends beyond."""
        to, ends = dict(met), dict[str, Span]()
        for name in self.order(document, met):
            here = to.pop(name, None)
            if here is None:
                continue  # only an outcome that this vehicle never brings about would lead here
            step = document.steps[name]
            own = here.then(Span(step.minutes, step.minutes))
            for target, span in self._beyond(step):
                _meet(ends if isinstance(step, Verdict) else to, target, own.then(span))
        return {**to, **ends}

    def _beyond(self, step: Step) -> Iterator[tuple[str, Span]]:
        """Each target of a step (a verdict ends at itself) with the minutes through what it runs."""
        if isinstance(step, Verdict):
            yield step.name, NOTHING
        elif isinstance(step, Run):
            through = self._through[step.procedure]
            yield from ((step.outcomes[end], span) for end, span in through.items())
        else:
            yield from ((way.then, NOTHING) for way in self.exits(step))


def _meet(met: dict[str, Span], name: str, span: Span) -> None:
    met[name] = met[name].either(span) if name in met else span
