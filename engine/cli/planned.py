"""A plan in a few lines for a person."""

from collections.abc import Iterator
from fractions import Fraction

from engine.planner.planning import Planned


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


def _minutes(value: Fraction) -> str:
    return f"{float(value):.2f} min"
