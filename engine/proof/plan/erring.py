"""The independent checker of plans whose tests may err, whole in this file.

It knows the matrix (`engine/model/moment.py` tells what can be done at a moment) and nothing of the planner.
Wherever one is, there are the marks of what stands and was done, and the weight of each fault with all that
was met so far: its weight at the start, times the chances of what was met.

**The plan** is followed from the start. Every way pays its tests and set-ups. It ends with repairs, one after
the other until the complaint is gone: each is paid by all faults whose turn has not come before.

**The bound** looks as many tests ahead as the certificate says, at every test that can be done. Behind the
last of them all is known for nothing, and each fault pays its own repair alone; no plan undercuts that. Who
stops earlier repairs in the best order: the fewest minutes by weight first (p/C, Smith's rule of 1956).
"""

from collections.abc import Mapping
from functools import cache
from math import isclose
from typing import Any

from engine.model.matrix import Matrix
from engine.model.moment import Marks, Step, steps


class Erring:
    """What a matrix allows, and what it costs in minutes times weight."""

    def __init__(self, matrix: Matrix) -> None:
        self.names = [fault.id for fault in matrix.faults]
        self.weights = tuple(float(fault.weight) for fault in matrix.faults)
        self.repair = [float(fault.repair or 0) for fault in matrix.faults]
        self.next, self.least = cache(lambda marks: [*steps(matrix, marks)]), cache(self.looked)

    def figures(self, made: Mapping[str, Any]) -> tuple[float, float, float, bool]:
        """Minutes of the mean way and of the longest, minutes that no plan undercuts, whether they meet.

        :raises ValueError: where the plan cannot be followed.
        """
        mean, worst = self.cost(made["plan"], frozenset(), self.weights)
        low = self.least(frozenset(), self.weights, int(made["certificate"]["depth"]))
        low, whole = mean if isclose(mean, low, rel_tol=1e-8) else low, sum(self.weights)
        return mean / whole, worst, low / whole, {"expected": low == mean}[made["goal"]]

    def cost(self, node: Mapping[str, Any], marks: Marks, weights: tuple[float, ...]) -> tuple[float, float]:
        """Minutes times weight of a plan from here on, and the minutes of its longest way."""
        if "repair" in node:
            told = {self.names.index(one["fault"]): one["probability"] for one in node["repair"]}
            left = {k: weight / sum(weights) for k, weight in enumerate(weights) if weight}
            off = (abs(told.get(k, 2) - chance) for k, chance in left.items())
            if len(node["repair"]) != len(left) or not all(less < 1e-6 for less in off):
                raise ValueError(f"the repairs {node['repair']} are not what may be wrong")
            return self.repaired(weights, [*told]), sum(self.repair[k] for k in told)
        said = node["test"], node["setups"], node["minutes"], node["outcomes"].keys()
        for step in self.next(marks):
            after, minutes = self.after(step, weights), float(step.minutes)
            if said == (step.test.id, [*step.setups], minutes, after.keys()):
                below = [self.cost(node["outcomes"][name], step.marks, left) for name, left in after.items()]
                return minutes * sum(weights) + sum(m for m, _ in below), minutes + max(w for _, w in below)
        raise ValueError(f"{node['test']!r} cannot come where it stands")

    def repaired(self, weights: tuple[float, ...], order: list[int]) -> float:
        """What repairs cost in this order."""
        return sum(self.repair[k] * sum(weights[j] for j in order[n:]) for n, k in enumerate(order))

    def after(self, step: Step, weights: tuple[float, ...]) -> dict[str, tuple[float, ...]]:
        """The outcomes that may be met, with what each fault weighs then."""
        had = [*zip(self.names, weights, strict=True)]
        met = {
            one.name: tuple(w * float(one.chances.get(k, 0)) for k, w in had) for one in step.test.outcomes
        }
        return {name: left for name, left in met.items() if any(left)}

    def looked(self, marks: Marks, weights: tuple[float, ...], depth: int) -> float:
        """What no plan undercuts from here on."""
        order = sorted((k for k, w in enumerate(weights) if w), key=lambda k: self.repair[k] / weights[k])
        best, alone = self.repaired(weights, order), sum(weights[k] * self.repair[k] for k in order)
        for step in self.next(marks):
            paid = float(step.minutes) * sum(weights)
            if paid + alone < best:  # else it cannot be better, whatever comes after
                met = self.after(step, weights).values() if depth else ()
                after = sum(self.least(step.marks, left, depth - 1) for left in met) if depth else alone
                best = min(best, paid + after)
        return best
