"""A state set where it holds already, on every path.

Nothing is wrong with the vehicle, but one of the two steps does not do what its author thought.

Bad: `start` sets `engine-running`, and so does `drive`, which only `start` leads to.

Good: only the step that starts the engine sets it.
"""

from collections.abc import Iterator

from engine.lint.finding import Found
from engine.lint.rule import Scope


def check(scope: Scope) -> Iterator[Found]:
    """Every set that never changes anything."""
    for fault in scope.state_faults:
        if fault.kind == "twice":
            yield Found(
                fault.place,
                f"`{fault.step}` sets `{fault.states[0]}`, which holds already on every path.",
                "Take it out here, or clear it before.",
            )
