"""The checker for plans of tests that may err: what the plan costs, and how low its bound may be.

It walks the plan with the weight of each fault at each end. For the bound it looks as many tests ahead as the
certificate says, with all known after them for free: whoever stops pays the cheapest order of repairs.
"""

from collections.abc import Iterator, Mapping
from math import isclose
from typing import Any

from engine.model.matrix import Matrix
from engine.proof.plan.field import Field, State, Weights

#: What is told of a plan.
FIGURES = "expected_minutes", "worst_minutes", "lower_bound", "proven"


class Erring(Field):
    """A plan beside its matrix."""

    def __init__(self, matrix: Matrix, made: Mapping[str, Any]) -> None:
        super().__init__(matrix)
        self.made = made
        self.known: dict[tuple[State, Weights, int], float] = {}

    def wrong(self) -> Iterator[str]:
        """Figures that are others."""
        start: State = (frozenset(), frozenset())
        weights = tuple(float(fault.weight) for fault in self.matrix.faults)
        mean, worst = self.cost(self.made["plan"], start, weights)
        bound = self.least(start, weights, int(self.made["certificate"]["depth"]))
        bound = mean if isclose(mean, bound, rel_tol=1e-8) else bound
        figures = mean / sum(weights), worst, bound / sum(weights), float(bound == mean)
        for name, figure in zip(FIGURES, figures, strict=True):
            if not isclose(figure, self.made[name], rel_tol=1e-7):
                yield f"{name} is {figure:.9g}, not {self.made[name]}."

    def cost(self, node: Mapping[str, Any], state: State, weights: Weights) -> tuple[float, float]:
        """Minutes times weight, and the minutes of the longest way."""
        if "repair" in node:
            order = [one["fault"] for one in node["repair"]]
            left = dict(zip(self.repair, weights, strict=True))
            if len({*order}) != len(order) or {*order} != {name for name, weight in left.items() if weight}:
                raise ValueError(f"the repairs {order} are not all that may be wrong")
            turns = [
                sum(left[name] for name in order[k:]) * self.repair[name] for k, name in enumerate(order)
            ]
            return sum(turns), sum(self.repair[name] for name in order)
        test = next(test for test in self.open(state) if test.id == node["test"])
        paid, after = self.minutes(test, state), dict(self.after(test, state, weights))
        if node["setups"] != self.missing(test, state) or node["outcomes"].keys() != after.keys():
            raise ValueError(f"the test {test.id} is not so where it stands")
        below = [self.cost(node["outcomes"][name], *then) for name, then in after.items()]
        return paid * sum(weights) + sum(mean for mean, _ in below), paid + max(worst for _, worst in below)

    def least(self, state: State, weights: Weights, depth: int) -> float:
        """What no plan undercuts."""
        key = (state, weights, depth)
        if key not in self.known:
            told = sum(w * minutes for w, minutes in zip(weights, self.repair.values(), strict=True))
            best = self.stopped(weights)
            for test in self.open(state):
                paid = self.minutes(test, state) * sum(weights)
                if paid + told < best:  # else it cannot be better, whatever comes after
                    then = self.after(test, state, weights) if depth else ()
                    after = sum(self.least(*branch, depth - 1) for _, branch in then) if depth else told
                    best = min(best, paid + after)
            self.known[key] = best
        return self.known[key]
