"""A limit that lies outside what may plausibly be read.

A limit that nobody can come near decides nothing: either the limit or the range is wrong, or one of them
is meant in another unit.

Bad: `plausible: [0, 80]` with `upto: 127`.

Good: `plausible: [0, 80]` with `upto: 12.7`.
"""

from collections.abc import Iterator

from engine.lint.bands import on
from engine.lint.finding import Found
from engine.lint.rule import Scope
from engine.lint.stretch import said
from engine.quantity import Quantity, write


def check(scope: Scope) -> Iterator[Found]:
    """Every limit beyond the plausible range of its step."""
    for standing in scope.standings:
        step, domain = standing.step, standing.domain
        for band, stretch in zip(step.bands, standing.stretches, strict=True):
            for limit, end in ((band.low, stretch.low), (band.high, stretch.high)):
                if limit is not None and not domain.low.number <= end.number <= domain.high.number:
                    amount = write(Quantity(end.number, step.unit))
                    message = f"The limit {amount}{on(standing)} lies outside {said(domain, step.unit)}."
                    yield Found(limit.place, message, "Check the limit, its unit and the plausible range.")
