"""A step from which no verdict (in a procedure: no outcome) can be reached.

Bad: a step whose every way out leads into a circle, or to a step that is not there.

Good: from every step at least one path ends; together with the rules `loop` and `open-branch`
every path does.
"""

from collections.abc import Iterator

from engine.graph.view import endless
from engine.lint.finding import Found
from engine.lint.paths import shortest
from engine.lint.rule import Scope
from engine.model.tree import Procedure


def check(scope: Scope) -> Iterator[Found]:
    """Every step that cannot end."""
    for document in scope.documents:
        for name in endless(document, scope.graph(document)):
            end = "outcome" if isinstance(document, Procedure) else "verdict"
            yield Found(
                document.steps[name].place,
                f"No path from `{name}` ends in {'an' if end == 'outcome' else 'a'} {end}.",
                f"Lead at least one way out of it to {'an' if end == 'outcome' else 'a'} {end}.",
                shortest(document, scope.graph(document), name),
            )
