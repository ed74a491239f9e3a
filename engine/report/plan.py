"""A plan as plain data, as `plan --json` prints it and the checker reads it."""

from typing import Any

from engine.planner.planning import Planned
from engine.planner.tree import Leaf, Plan


def told(planned: Planned) -> dict[str, Any]:
    """The plan with its figures and its proof; minutes as decimal numbers."""
    return {
        "goal": planned.goal,
        "expected_minutes": float(planned.expected),
        "lower_bound": float(planned.bound),
        "proven": planned.proven,
        "worst_minutes": float(planned.worst),
        "groups": [list(group) for group in planned.groups],
        "plan": _node(planned.plan),
        "certificate": [
            [claim.suspects, list(claim.standing), list(claim.done), claim.least]
            for claim in planned.certificate
        ],
    }


def _node(plan: Plan) -> dict[str, Any]:
    """A test with what follows each outcome, or the faults that are left."""
    if isinstance(plan, Leaf):
        return {"faults": list(plan.faults)}
    return {
        "test": plan.test,
        "setups": list(plan.setups),
        "minutes": float(plan.minutes),
        "outcomes": {name: _node(after) for name, after in plan.after.items()},
    }
