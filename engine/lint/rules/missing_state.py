"""A step that needs a state which may not hold when a walk comes to it.

`needs` is a promise to the technician: the vehicle is raised, the engine runs. It must be kept on every
path that leads to the step, on every vehicle, also through procedures. The finding shows the shortest
walk that breaks it. Walks that an earlier answer or reading rules out do not count; the page of
`branch-never-taken` says which these are.

Bad: one answer leads past the step that raises.

    low: {ask: Does the hoist work?, answers: [{say: Yes, then: raise}, {say: No, then: which-wheels}]}
    raise: {do: Raise it., sets: [raised], then: which-wheels}
    which-wheels: {do: Turn a rear wheel., needs: [raised], clears: [raised], then: end}

Good:

    low: {ask: Does the hoist work?, answers: [{say: Yes, then: raise}, {say: No, then: refer}]}
    raise: {do: Raise it., sets: [raised], then: which-wheels}
    which-wheels: {do: Turn a rear wheel., needs: [raised], clears: [raised], then: end}
"""

from collections.abc import Iterator

from engine.lint.finding import Found
from engine.lint.rule import Scope


def check(scope: Scope) -> Iterator[Found]:
    """Every need that some path does not meet."""
    for fault in scope.state_faults:
        if fault.kind == "lacks":
            yield Found(
                fault.place,
                f"`{fault.step}` needs `{fault.states[0]}`, which may not hold (tree `{fault.tree}`).",
                "Set it on every path that leads here, or lead this path elsewhere.",
                fault.path,
            )
