"""A plan: which test first, which after each of its outcomes, and what it costs."""

from collections.abc import Mapping
from fractions import Fraction
from types import MappingProxyType
from typing import NamedTuple

from engine.planner.near import Near
from engine.planner.problem import Problem, members


class Leaf(NamedTuple):
    """The faults that are left; more than one where no test tells them apart."""

    faults: tuple[str, ...]


class Mend(NamedTuple):
    """Faults to be repaired in this order until the complaint is gone, each with its probability now."""

    order: tuple[tuple[str, float], ...]


class Node(NamedTuple):
    """A test, the set-ups to be made before it, its minutes with theirs, and what follows each outcome."""

    test: str
    setups: tuple[str, ...]
    minutes: Fraction
    after: Mapping[str, "Node | Leaf | Mend"]


Plan = Node | Leaf | Mend


def grown(problem: Problem, near: Near) -> Plan:
    """The best plan known, from the start."""
    return _grown(problem, near, problem.everything)


def expected(plan: Plan, weights: Mapping[str, Fraction]) -> Fraction:
    """The mean minutes of the tests over the weights of the faults, where each leads one way.

    >>> leaf = {"no": Leaf(("plug",)), "yes": Leaf(("shaft",))}
    >>> expected(Node("look", (), Fraction(3), leaf), {"plug": Fraction(1), "shaft": Fraction(2)})
    Fraction(3, 1)
    """
    price, weight = _priced(plan, weights)
    return price / weight


def worst(plan: Plan, repair: Mapping[str, Fraction] = MappingProxyType({})) -> Fraction:
    """The minutes of the longest way, and of all its repairs where it ends with some."""
    if isinstance(plan, Node):
        return plan.minutes + max(worst(after, repair) for after in plan.after.values())
    return (
        sum((repair[fault] for fault, _ in plan.order), Fraction(0))
        if isinstance(plan, Mend)
        else Fraction(0)
    )


def _priced(plan: Plan, weights: Mapping[str, Fraction]) -> tuple[Fraction, Fraction]:
    """Minutes times weight, and weight."""
    if not isinstance(plan, Node):
        faults = plan.faults if isinstance(plan, Leaf) else [fault for fault, _ in plan.order]
        return Fraction(0), sum((weights[fault] for fault in faults), Fraction(0))
    below = [_priced(after, weights) for after in plan.after.values()]
    weight = sum((share for _, share in below), Fraction(0))
    return sum((price for price, _ in below), plan.minutes * weight), weight


def _grown(problem: Problem, near: Near, state: int) -> Plan:
    """The best plan known, from a state."""
    groups = state & problem.everything
    if not groups & (groups - 1):
        return Leaf(problem.groups[groups.bit_length() - 1])
    test = problem.tests[near.best(state).test]
    standing = state >> len(problem.weights)
    missing = tuple(problem.setups[k] for k in members(test.needs & ~standing))
    states = near.moves.after(state, near.best(state).test)
    return Node(
        test.name,
        tuple(name for name, _ in missing),
        Fraction(test.cost + sum(minutes for _, minutes in missing), problem.scale),
        {
            name: _grown(problem, near, after)
            for name, after in zip(test.outcomes, states, strict=True)
            if after
        },
    )
