"""A step that forbids a state which may hold when a walk comes to it.

Bad: `crawl-under` forbids `engine-running`, and one path comes to it with the engine still on.

Good: every path to `crawl-under` clears `engine-running` before.
"""

from collections.abc import Iterator

from engine.lint.finding import Found
from engine.lint.rule import Scope


def check(scope: Scope) -> Iterator[Found]:
    """Every forbidden state that some path brings along."""
    for fault in scope.state_faults:
        if fault.kind == "holds":
            yield Found(
                fault.place,
                f"`{fault.step}` forbids `{fault.states[0]}`, which may hold (tree `{fault.tree}`).",
                "Clear it on every path that leads here, or lead this path elsewhere.",
                fault.path,
            )
