"""What is told after the repair: whether the complaint is gone, and what the true cause was.

Only a case that has its verdict can be told of, and only causes that its tree names, or `elsewhere`: what is
learned later is counted by these names.
"""

from typing import Final

from engine.errors import Refusal
from engine.interview.command import Settle
from engine.interview.state import State
from engine.interview.suspecting import titled
from engine.model.tree import ELSEWHERE, Tree, Verdict
from engine.nearest import meant
from engine.records.event import Confirmed

LONGEST_NOTE: Final = 2000


def told(state: State, command: Settle) -> tuple[Confirmed] | Refusal:
    """The event that the command makes of an accepted verdict, or why it cannot be told yet."""
    cause, remark = command.cause.strip(), command.remark.strip()
    if not state.concluded:
        return Refusal(
            "not-now",
            f"The case has no accepted verdict yet; it stands at `{state.where}`.",
            "Walk it to its verdict and accept that first.",
        )
    if len(remark) > LONGEST_NOTE:
        return Refusal("too-long", f"The remark has {len(remark)} characters.", f"Keep it to {LONGEST_NOTE}.")
    if cause and cause not in causes(state.tree):
        return _unknown(state.tree, cause)
    return (Confirmed(command.fixed, cause or (_convicted(state) if command.fixed else ""), remark),)


def causes(tree: Tree) -> tuple[str, ...]:
    """What may be named as the true cause: every suspect in the order of the tree, then `elsewhere`."""
    return (*tree.suspects, ELSEWHERE)


def outcome(tree: Tree, event: Confirmed) -> str:
    """What was told, in words; the remark last.

    A cause that this tree does not know (of a case from another program) stands as it was written.
    """
    fixed = "the complaint is gone" if event.fixed else "the complaint is still there"
    known = event.cause in causes(tree)
    cause = f"true cause: {titled(tree, event.cause) if known else event.cause}" if event.cause else ""
    return "; ".join(part for part in (fixed, cause, event.remark) if part)


def _convicted(state: State) -> str:
    """The suspect of the verdict, where it convicts one alone: with the repair it is the cause."""
    verdict = state.tree.steps[state.frames[0].step]
    named = verdict.suspects if isinstance(verdict, Verdict) else ()
    return named[0] if len(named) == 1 else ""


def _unknown(tree: Tree, cause: str) -> Refusal:
    cure = f"{meant(cause, causes(tree))} `{ELSEWHERE}` is a cause that the tree does not name."
    return Refusal("not-there", f"The tree `{tree.name}` has no suspect `{cause}`.", cure)
