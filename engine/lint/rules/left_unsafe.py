"""A verdict that may leave the vehicle unsafe.

A state marked `must-clear` (raised, engine running, shaft parted) may not hold at any verdict: also not
at one that refers, nor after a procedure that follows the verdict. A technician who cannot go on must
still be told how to leave the vehicle. `unsure` means that a step was not done: what it would have set or
cleared stays as it was. Where half of it may be done, lead `unsure` past the step that undoes it. Walks
that an earlier answer or reading rules out do not count, as the page of `branch-never-taken` says.

Bad: who cannot tell goes home and leaves the vehicle on the hoist.

    raise: {do: Raise it., sets: [raised], then: look}
    look: {ask: Is it wet?, answers: [{say: Dry, then: lower}, {say: Wet, then: lower}], unsure: refer}
    lower: {do: Lower it., clears: [raised], then: end}

Good: who cannot tell lowers it too.

    raise: {do: Raise it., sets: [raised], then: look}
    look: {ask: Is it wet?, answers: [{say: Dry, then: lower}, {say: Wet, then: lower}], unsure: lower}
    lower: {do: Lower it., clears: [raised], then: end}
"""

from collections.abc import Iterator

from engine.lint.finding import Found
from engine.lint.rule import Scope


def check(scope: Scope) -> Iterator[Found]:
    """Every verdict at which something dangerous may still hold."""
    for fault in scope.state_faults:
        if fault.kind == "left":
            yield Found(
                fault.place,
                f"At the verdict `{fault.step}` `{fault.states[0]}` may still hold (tree `{fault.tree}`).",
                "Clear it on every path that leads here, also on those of `unsure`.",
                fault.path,
            )
