"""A state cleared where it never holds.

Bad: no path to it has raised the vehicle.

    lower: {do: Lower it., clears: [raised], then: end}

Good: clear only what a step before has set.

    raise: {do: Raise it., sets: [raised], then: lower}
    lower: {do: Lower it., clears: [raised], then: end}
"""

from collections.abc import Iterator

from engine.lint.finding import Found
from engine.lint.rule import Scope


def check(scope: Scope) -> Iterator[Found]:
    """Every clear that never changes anything."""
    for fault in scope.state_faults:
        if fault.kind == "unset":
            yield Found(
                fault.place,
                f"`{fault.step}` clears `{fault.states[0]}`, which holds on no path to it.",
                "Take it out here, or set it where the vehicle comes into that state.",
            )
