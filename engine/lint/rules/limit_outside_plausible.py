"""A limit that lies outside what may plausibly be read.

A limit that nobody can come near decides nothing: either the limit or the range is wrong, or one of them
is meant in another unit.

Bad: 127 was meant in another unit, or is a slip.

    reading: {plausible: [0, 80]}
    bands: [{upto: 127, then: good}, {over: 127, then: worn}]

Good:

    reading: {plausible: [0, 80]}
    bands: [{upto: 12.7, then: good}, {over: 12.7, then: worn}]
"""

from collections.abc import Iterator

from engine.lint.bands import Standing
from engine.lint.finding import Found
from engine.lint.rule import Scope
from engine.lint.stretch import End, Stretch, said
from engine.model.tree import Limit


def check(scope: Scope) -> Iterator[Found]:
    """Every limit beyond the plausible range of its step."""
    for standing in scope.standings:
        low, high = (end.number for end in standing.domain)
        for band, stretch in zip(standing.step.bands, standing.stretches, strict=True):
            for limit, end in ((band.low, stretch.low), (band.high, stretch.high)):
                if limit is not None and not low <= end.number <= high:
                    yield _found(standing, limit, end)


def _found(standing: Standing, limit: Limit, end: End) -> Found:
    amount = standing.said(Stretch(end, end))
    message = f"The limit {amount} lies outside {said(*standing.domain, standing.step.unit)}."
    return Found(limit.place, message, "Check the limit, its unit and the plausible range.")
