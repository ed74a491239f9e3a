"""A state set where it holds already, on every path.

Nothing is wrong with the vehicle, but one of the two steps does not do what its author thought.

Bad:

    start: {do: Start the engine., sets: [engine-running], then: idle}
    idle: {do: Let it idle., sets: [engine-running], then: stop}
    stop: {do: Stop the engine., clears: [engine-running], then: end}

Good: only the step that starts the engine sets it.

    start: {do: Start the engine., sets: [engine-running], then: idle}
    idle: {do: Let it idle., needs: [engine-running], then: stop}
    stop: {do: Stop the engine., clears: [engine-running], then: end}
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
