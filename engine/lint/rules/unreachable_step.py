"""A step that no path from the start comes to.

It would never be asked; either a step that should lead to it names another one, or it is left over.

Bad: nothing leads to `wait`.

    wipe: {do: Wipe it., then: end}
    wait: {do: Wait a minute., then: end}

Good: every step is named by at least one step that can itself be reached.

    wipe: {do: Wipe it., then: wait}
    wait: {do: Wait a minute., then: end}
"""

from collections.abc import Iterator

from engine.graph.view import unreachable
from engine.lint.finding import Found
from engine.lint.rule import Scope


def check(scope: Scope) -> Iterator[Found]:
    """Every step and outcome that cannot be reached."""
    for document in scope.tangled:
        for name in unreachable(document, scope.graph(document)):
            step = document.steps.get(name)
            what = "step" if step else "outcome"
            place = step.place if step else document.place
            yield Found(
                place,
                f"No path from `{document.start}` comes to the {what} `{name}`.",
                "Lead to it, or take it out.",
            )
