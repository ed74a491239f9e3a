"""A plan as plain data, as `plan --json` prints it and the checker reads it."""

from typing import Any

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
    claims, dues, tests, kinds = planned.certificate()
    if dues is None:
        return {"depth": planned.depth}
    chosen = {"weights": list(dues.weights)} if planned.goal == "worst" else {}
    return {
        "claims": [[claim.suspects, list(claim.marks), claim.least] for claim in claims],
        "kinds": list(kinds),
        "scale": dues.scale,
        **chosen,
        "dues": [[*pair, due] for pair, due in dues.due.items()],
        "shares": {
            test: [shares[pair] for pair in dues.due if pair in shares]
            for test, shares in zip(tests, dues.shares, strict=True)
        },
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
