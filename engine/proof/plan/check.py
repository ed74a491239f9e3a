"""The independent checker: confirms what a plan costs and how low its bound may be, from the matrix alone.

It shares nothing with the planner, and it does not search. A state is the groups of faults still suspected
(as bits, in the order of the matrix; faults alike in every test are one), the set-ups that stand, and the
tests done that another waits for. A claim says that a state costs at least so much, in whole parts of a
minute, times whole parts of a weight where the goal is the mean. It holds if a floor says so; or if every
test that can come next does, with what its outcomes cost at least. (A test that parts nothing and that none
waits for only costs.)
"""

from collections.abc import Callable, Iterable, Iterator, Mapping
from fractions import Fraction
from math import isclose
from typing import Any

from engine.model.matrix import Matrix
from engine.proof.plan.erring import FIGURES, Erring
from engine.proof.plan.floors import Floors, bits
from engine.proof.plan.owed import Owed
from engine.proof.plan.steps import State, ends, steps
from engine.proof.plan.table import table

NONE: frozenset[str] = frozenset()


def check(matrix: Matrix, made: Mapping[str, Any]) -> list[str]:
    """What is wrong with a plan, as `plan --json` prints it, or with its proof; empty where both hold."""
    try:
        return [*(Checker if all(test.reliable for test in matrix.tests) else Erring)(matrix, made).wrong()]
    except (ArithmeticError, AttributeError, LookupError, RuntimeError, TypeError, ValueError) as error:
        return [f"This is no plan of the matrix: {error}."]


class Checker:
    """A plan beside its matrix."""

    def __init__(self, matrix: Matrix, made: Mapping[str, Any]) -> None:
        self.matrix, self.made, self.table, proof = matrix, made, table(matrix), made["certificate"]
        self.mean = {"expected": True, "worst": False}[made["goal"]]
        self.weights = self.table.weights if self.mean else [1] * len(self.table.weights)
        self.floors = Floors(self.weights, self.table.tests)
        weights = self.weights if self.mean else None
        self.owed = Owed(proof["dues"], self.table.tests, weights) if proof["dues"] else None
        self.claims = {(one, frozenset(up), frozenset(of)): int(low) for one, up, of, low in proof["claims"]}

    def wrong(self) -> Iterator[str]:
        """Claims that do not hold, and figures that are others."""
        for number, (state, low) in enumerate(self.claims.items()):
            if not self.holds(state, low):
                yield f"Claim {number} does not hold."
        start, total, scale = (self.table.everything, NONE, NONE), sum(self.table.weights), self.table.scale
        paid = dict(ends(self.matrix, self.table, self.made["plan"], start))
        mean = sum((self.table.weights[k] * minutes for k, minutes in paid.items()), Fraction(0)) / total
        worst, bound = max(paid.values()), Fraction(self.least(start), scale * total if self.mean else scale)
        figures = mean, worst, bound, bound == (mean if self.mean else worst)
        for name, figure in zip(FIGURES, figures, strict=True):
            if not isclose(figure, self.made[name], rel_tol=1e-9):
                yield f"{name} is {float(figure):.9g}, not {self.made[name]}."

    def floor(self, groups: int) -> int:
        """What a state costs at least because of its groups alone."""
        floor = self.floors(groups) if self.mean else -(-self.floors(groups) // groups.bit_count())
        return max(floor, self.owed(groups)) if self.owed else floor

    def least(self, state: State) -> int:
        """What a state costs at least, with the claim about it if there is one."""
        return max(self.claims.get(state, 0), self.floor(state[0]))

    def holds(self, state: State, low: int) -> bool:
        """Whether a floor, or every next test, comes to what the claim says."""
        times = sum(self.weights[k] for k in bits(state[0])) if self.mean else 1
        join: Callable[[Iterable[int]], int] = sum if self.mean else max
        return low <= self.floor(state[0]) or all(
            minutes * self.table.scale * times + join(map(self.least, after.values())) >= low
            for _, _, minutes, after in steps(self.matrix, self.table, state)
        )
