"""A plan as plain data, as `plan --json` prints it and the checker reads it."""

from typing import Any

from engine.planner.dues import Dues
from engine.planner.planning import Planned
from engine.planner.tree import Leaf, Mend, Plan


def told(matrix: str, planned: Planned) -> dict[str, Any]:
    """The plan of a matrix with its figures and its proof; minutes as decimal numbers."""
    return {
        "format": 1,
        "matrix": matrix,
        "goal": planned.goal,
        "expected_minutes": float(planned.expected),
        "lower_bound": float(planned.bound),
        "proven": planned.proven,
        "worst_minutes": float(planned.worst),
        "groups": [list(group) for group in planned.groups],
        "plan": _node(planned.plan),
        "certificate": _certificate(planned),
    }


def _certificate(planned: Planned) -> dict[str, Any]:
    """Claims, and the dues that they rest on; where tests are not to be relied on, how deep was looked."""
    if planned.depth is not None:
        return {"depth": planned.depth}
    proof = planned.certificate()
    claims = [[each.suspects, list(each.standing), list(each.done), each.least] for each in proof.claims]
    return {"claims": claims, "dues": proof.dues and _dues(proof.dues)}


def _dues(dues: Dues) -> dict[str, Any]:
    """Each pair with its due; for each test, what the first of every pair that it parts pays."""
    return {
        "scale": dues.scale,
        "weights": list(dues.weights),
        "due": [[*pair, due] for pair, due in dues.due.items()],
        "shares": [[shares[pair] for pair in dues.due if pair in shares] for shares in dues.shares],
    }


def _node(plan: Plan) -> dict[str, Any]:
    """A test with what follows each outcome, or the faults that are left."""
    if isinstance(plan, Leaf):
        return {"faults": list(plan.faults)}
    if isinstance(plan, Mend):
        return {"repair": [{"fault": fault, "probability": round(chance, 6)} for fault, chance in plan.order]}
    return {
        "test": plan.test,
        "setups": list(plan.setups),
        "minutes": float(plan.minutes),
        "outcomes": {name: _node(after) for name, after in plan.after.items()},
    }
