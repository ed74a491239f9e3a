"""A reading that no band takes.

The bands of a measuring step must cover everything that may plausibly be read (of a figure, everything
that it can make of plausible readings), without a gap of even one number, on every sheet that the tree
is for. What no walk can bring there, because an earlier reading of the same name led elsewhere, is not
missed.

Bad:

    bands:
      - {below: 12.5, then: good}
      - {over: 12.5, then: worn}

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
    """Every gap between bands, before the first and behind the last."""
    for standing in scope.standings:
        for gap in standing.covered.gaps:
            if possible(scope, standing, gap):
                yield Found(
                    standing.step.place,
                    f"No band of `{standing.step.name}` takes {standing.said(gap)}.",
                    "Let one of the bands beside it own that stretch.",
                )
