"""A question or a measurement that must be answered by whoever cannot.

A part may be hidden, a gauge may be missing, the light may be poor. Without `unsure` the only way on is
a guess, and a guess ends at a verdict like any answer.

Bad:

    look:
      ask: Is the joint worn?
      answers:
        - {say: It is, then: renew}
        - {say: It is not, then: go-on}

Good:

    look:
      ask: Is the joint worn?
      answers:
        - {say: It is, then: renew}
        - {say: It is not, then: go-on}
      unsure: ask-a-colleague
"""

from collections.abc import Iterator

from engine.lint.finding import Found
from engine.lint.rule import Scope
from engine.model.tree import Ask, Measure


def check(scope: Scope) -> Iterator[Found]:
    """Every such step without a way on for whoever cannot tell."""
    for document in scope.documents:
        for step in document.steps.values():
            if isinstance(step, Ask | Measure) and not step.unsure:
                yield Found(
                    step.place,
                    f"Nobody may be unsure at `{step.name}`.",
                    "Add `unsure:` with the step that leads on when nobody can tell.",
                )
