"""A step that forbids a state which may hold when a walk comes to it.

Bad: the engine still runs where somebody goes below.

    start: {do: Start the engine., sets: [engine-running], then: crawl}
    crawl: {do: Look from below., forbids: [engine-running], then: stop}
    stop: {do: Stop the engine., clears: [engine-running], then: end}

Good: it is stopped before.

    start: {do: Start the engine., sets: [engine-running], then: stop}
    stop: {do: Stop the engine., clears: [engine-running], then: crawl}
    crawl: {do: Look from below., forbids: [engine-running], then: end}
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
