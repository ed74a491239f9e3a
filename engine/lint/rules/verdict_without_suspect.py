"""A repair that is ordered without saying who is to blame.

The record of a repair names the cause, and the chances of all suspects are judged by what was convicted
before. A verdict that convicts nobody is for `no-fault` and `refer`.

Bad:

    worn: {verdict: Worn out, suspects: [], grade: repair, correction: Renew it.}

Good:

    worn: {verdict: Worn out, suspects: [worn], grade: repair, correction: Renew it.}
    sound: {verdict: Nothing found, suspects: [], grade: no-fault, correction: Note what was tried.}
"""

from collections.abc import Iterator
from typing import Final

from engine.lint.finding import Found
from engine.lint.rule import Scope
from engine.model.tree import Verdict

_MENDING: Final = ("repair", "adjust")


def check(scope: Scope) -> Iterator[Found]:
    """Every verdict that has something mended and convicts nobody."""
    for tree in scope.trees:
        for step in tree.steps.values():
            if isinstance(step, Verdict) and not step.suspects and step.grade in _MENDING:
                message = f"The verdict `{step.name}` is graded `{step.grade}` and convicts nobody."
                yield Found(step.place, message, "Name its suspects, or grade it `no-fault` or `refer`.")
