"""A number for a limit that nobody answers for.

A limit decides what is renewed. Where it stands as a number in the document, the band or the step says
where it comes from; a limit of the sheet has its source there. One band of several may speak for a
number that they share.

Bad: whose 12.5 is that?

    bands:
      - {upto: 12.5, then: good}
      - {over: 12.5, then: worn}

Good:

    bands:
      - {upto: 12.5, source: habit, then: good}
      - {over: 12.5, then: worn}
"""

from collections.abc import Iterator
from fractions import Fraction

from engine.lint.finding import Found
from engine.lint.rule import Scope
from engine.model.place import Place
from engine.model.tree import Band, Measure


def check(scope: Scope) -> Iterator[Found]:
    """Every number of a measuring step that no source stands behind, at its first band."""
    for document in scope.documents:
        for step in document.steps.values():
            if isinstance(step, Measure) and not step.source:
                yield from _step(step)


def _step(step: Measure) -> Iterator[Found]:
    told = {value for band in step.bands if band.source for value, _ in _numbers(band)}
    for band in step.bands:
        for value, place in _numbers(band):
            if value not in told:
                told.add(value)
                yield Found(
                    place,
                    f"This limit of `{step.name}` names no source.",
                    "Give the band or the step its `source`, or take the limit from the sheet.",
                )


def _numbers(band: Band) -> Iterator[tuple[Fraction, Place]]:
    """The numbers among the limits of a band, in the order of the text."""
    limits = sorted((limit for limit in (band.low, band.high) if limit), key=lambda limit: limit.place)
    return ((limit.value, limit.place) for limit in limits if limit.value is not None)
