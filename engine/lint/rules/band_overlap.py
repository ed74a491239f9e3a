"""A reading that two bands take.

Only the first of them would ever be chosen there, so the second says something that does not happen. What
no walk can bring there, because an earlier reading of the same name led elsewhere, does not count.

Bad:

    bands:
      - {upto: 12.5, then: good}
      - {from: 12.5, then: worn}

Good:

    bands:
      - {upto: 12.5, then: good}
      - {over: 12.5, then: worn}
"""

from collections.abc import Iterator

from engine.lint.finding import Found
from engine.lint.rule import Scope
from engine.lint.within import possible


def check(scope: Scope) -> Iterator[Found]:
    """Every stretch that two bands share."""
    for standing in scope.standings:
        step = standing.step
        for first, second, both in standing.covered.overlaps:
            if not possible(scope, standing, both):
                continue
            words = standing.said(both)
            yield Found(
                step.bands[second].place,
                f"Bands {first + 1} and {second + 1} of `{step.name}` both take {words}.",
                "Let only one of them own it.",
            )
