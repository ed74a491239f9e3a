"""A step from which no verdict (in a procedure: no outcome) can be reached.

Only the last such step of a path is told, or the first of a circle: the steps before it cannot end
because of it.

Bad: a step whose every way out leads into a circle.

    look: {ask: Is it dry?, answers: [{say: Dry, then: end}, {say: Wet, then: wipe}]}
    wipe: {do: Wipe it., then: wait}
    wait: {do: Wait a minute., then: wipe}

Good: from every step at least one path ends; together with the rules `loop` and `open-branch`
every path does.

    look: {ask: Is it dry?, answers: [{say: Dry, then: end}, {say: Wet, then: wipe}]}
    wipe: {do: Wipe it., then: wait}
    wait: {do: Wait a minute., then: renew-seal}
"""

from collections.abc import Iterator

from engine.graph.view import stuck
from engine.lint.finding import Found
from engine.lint.paths import shortest
from engine.lint.rule import Scope
from engine.model.tree import Procedure


def check(scope: Scope) -> Iterator[Found]:
    """Every place where walks that cannot end come to rest."""
    for document in scope.tangled:
        end = "an outcome" if isinstance(document, Procedure) else "a verdict"
        for name in stuck(document, scope.graph(document)):
            yield Found(
                document.steps[name].place,
                f"No path from `{name}` ends in {end}.",
                f"Lead at least one way out of it to {end}.",
                shortest(document, scope.graph(document), name),
            )
