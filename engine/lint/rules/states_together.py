"""Two states that exclude each other may hold together.

Bad: `raised` excludes `chocked`, and the chocks are still there.

    chock: {do: Chock the wheels., sets: [chocked], then: raise}
    raise: {do: Raise it., sets: [raised], then: lower}
    lower: {do: Lower it., clears: [raised], then: end}

Good: the step that sets one of them clears the other.

    chock: {do: Chock the wheels., sets: [chocked], then: raise}
    raise: {do: Raise it., sets: [raised], clears: [chocked], then: lower}
    lower: {do: Lower it., clears: [raised], then: end}
"""

from collections.abc import Iterator

from engine.lint.finding import Found
from engine.lint.rule import Scope


def check(scope: Scope) -> Iterator[Found]:
    """Every step that sets a state while one that it excludes may hold."""
    for fault in scope.state_faults:
        if fault.kind == "together":
            first, second = fault.states
            yield Found(
                fault.place,
                f"After `{fault.step}` `{first}` and `{second}` may both hold, and they exclude each other.",
                "Let the step clear the other one, or clear it on every path that leads here.",
                fault.path,
            )
