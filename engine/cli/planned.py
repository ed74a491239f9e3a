"""A plan in a few lines for a person."""

from collections.abc import Iterator
from fractions import Fraction

from engine.cli.trees_read import Held
from engine.model.matrix import Matrix
from engine.planner.planning import Planned
from engine.planner.tree import Leaf, Node, Plan


def summary(planned: Planned) -> Iterator[str]:
    """What it costs, how much of that is proven, and what stays together."""
    worst = planned.goal == "worst"
    yield f"Expected {_minutes(planned.expected)}, at most {_minutes(planned.worst)}."
    if planned.proven:
        yield f"Proven: no order of these tests has fewer {'at most' if worst else 'expected'} minutes."
    else:
        cost = planned.worst if worst else planned.expected
        gap = float((cost - planned.bound) / cost) * 100
        yield f"Not proven: none has fewer than {_minutes(planned.bound)}; this one is within {gap:.1f} %."
    for group in planned.groups:
        yield f"No test here tells apart: {', '.join(group)}."


def compared(held: Held, planned: Planned) -> Iterator[str]:
    """A tree's own order beside the cheapest."""
    own = held.read.worst if planned.goal == "worst" else held.read.expected
    best = planned.worst if planned.goal == "worst" else planned.expected
    yield f"`{held.read.matrix.id}` on {held.sheet.title}, every sign taken as certain, set-ups paid once:"
    yield f"its own order: expected {_minutes(held.read.expected)}, at most {_minutes(held.read.worst)}."
    yield "The cheapest order of the same tests:"
    yield from summary(planned)
    if own < planned.bound:
        yield "The tree takes less, for it does not tell apart all that its tests could."
    else:
        yield f"The tree takes {float(own / best - 1) * 100 if best else 0:.0f} % more."


def words(matrix: Matrix, plan: Plan, depth: int = 0) -> Iterator[str]:
    """The order in words, a line for each test and each end, deeper by what came before."""
    indent = "  " * depth
    if isinstance(plan, Node):
        first = f" (first: {', '.join(plan.setups)})" if plan.setups else ""
        yield f"{indent}{plan.test}{first}"
        for outcome, after in plan.after.items():
            yield f"{indent}- {outcome}:"
            yield from words(matrix, after, depth + 1)
    else:
        names = {fault.id: fault.name for fault in matrix.faults}
        faults = plan.faults if isinstance(plan, Leaf) else [fault for fault, _ in plan.order]
        yield f"{indent}=> {' or '.join(names[fault] for fault in faults)}"


def _minutes(value: Fraction) -> str:
    return f"{float(value):.2f} min"
