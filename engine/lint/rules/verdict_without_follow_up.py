"""A repair that nothing proves.

A repair is done when it is proven: by a drive on the road, by measuring again. A verdict that has
something repaired or adjusted names at least one procedure to follow in the same case.

Bad:

    grade: repair
    correction: Renew the shaft.

Good:

    grade: repair
    correction: Renew the shaft, then prove it on the road.
    follow: [road-test]
"""

from collections.abc import Iterator
from typing import Final

from engine.lint.finding import Found
from engine.lint.rule import Scope
from engine.model.tree import Verdict

#: The grades that have something mended, and what that is called.
_MENDING: Final = {"repair": "repair", "adjust": "adjustment"}


def check(scope: Scope) -> Iterator[Found]:
    """Every verdict that has something mended and names no procedure to follow."""
    for tree in scope.trees:
        for step in tree.steps.values():
            if isinstance(step, Verdict) and not step.follow and step.grade in _MENDING:
                message = f"Nothing follows the verdict `{step.name}` that proves its {_MENDING[step.grade]}."
                yield Found(step.place, message, "Name a procedure in its `follow`, such as a road test.")
