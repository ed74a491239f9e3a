"""Plans of tests that are not to be relied on: test while it pays, then repair in the best order.

Each test is done once at most. Whoever stops repairs one fault after the other until the complaint is gone,
the one with the most chance a minute first (p/C, Smith's rule, Naval Res. Logistics Q. 3:59-66, 1956). The
minutes of tests, set-ups and repairs together are made few. One fault is there; a repair shows whether it
was the one.

Looked ahead so many tests deep, there are two prices of every moment: what it costs to stop after them (that
can be had), and what it would cost if all were known then, one more test paid (that cannot be undercut).
Between the two lies the best plan. They meet where looking further changes nothing.
"""

from collections.abc import Callable, Iterator, Sequence
from functools import cache
from typing import Final, NamedTuple

from engine.model.matrix import Matrix
from engine.model.moment import Marks, Step, steps
from engine.planner.search import Stopped
from engine.planner.tree import Mend, Node, Plan

#: What was met: (test, number of its outcome), and the marks of what stands and was done.
Moment = tuple[frozenset[tuple[str, int]], Marks]
_START: Final[Moment] = (frozenset(), frozenset())
#: Prices that differ by less are the same.
_ALIKE: Final = 1e-9


class Price(NamedTuple):
    """Minutes times weight from a moment on: never less than `low`; `high` can be had, by this test."""

    low: float
    high: float
    #: None where it is best to stop.
    test: Step | None

    @property
    def known(self) -> bool:
        """Whether looking further changes nothing."""
        return self.high - self.low <= _ALIKE * self.high


class Outlook:
    """The prices of all moments of a matrix, looked ahead as deep as one asks."""

    def __init__(self, matrix: Matrix, stop: Callable[[], bool] = lambda: False) -> None:
        self._matrix, self._stop = matrix, stop
        self._repair = [float(fault.repair or 0) for fault in matrix.faults]
        self._chances = {
            trial.id: [
                [float(outcome.chances.get(fault.id, 0)) for fault in matrix.faults]
                for outcome in trial.outcomes
            ]
            for trial in matrix.tests
        }
        self._open = cache(self._opened)
        self._known: dict[tuple[Moment, int], Price] = {}

    @property
    def looked(self) -> int:
        """How many moments were looked at."""
        return len(self._known)

    def start(self) -> tuple[Moment, list[float]]:
        """Nothing was done yet."""
        return _START, [float(fault.weight) for fault in self._matrix.faults]

    def price(self, moment: Moment, weights: Sequence[float], depth: int) -> Price:
        """What a moment costs, looked so many tests ahead.

        :raises Stopped: when it was told to stop.
        """
        known = self._known.get((moment, depth))
        if known is None:
            if self._stop():
                raise Stopped
            known = self._known[moment, depth] = self._looked(moment, weights, depth)
        return known

    def _looked(self, moment: Moment, weights: Sequence[float], depth: int) -> Price:
        halted, mass = self._halted(weights), sum(weights)
        told = sum(weight * minutes for weight, minutes in zip(weights, self._repair, strict=True))
        best = Price(halted, halted, None)
        for step, minutes in self._open(moment[1]):
            paid = mass * minutes
            if paid + told >= best.high - _ALIKE:
                continue
            low, high = (told, halted) if not depth else self._met(moment, weights, step, depth - 1)
            test = step if paid + high < best.high - _ALIKE else best.test
            best = Price(min(best.low, paid + low), min(best.high, paid + high), test)
        return best

    def _met(self, moment: Moment, weights: Sequence[float], step: Step, depth: int) -> tuple[float, float]:
        """What comes after a test, over all its outcomes."""
        branches = self.after(moment, weights, step)
        after = [self.price(then, left, depth) for _, then, left in branches]
        return sum(price.low for price in after), sum(price.high for price in after)

    def after(
        self, moment: Moment, weights: Sequence[float], step: Step
    ) -> Iterator[tuple[str, Moment, list[float]]]:
        """Each outcome that may be met, by its name, with the moment and the weights after it."""
        test = step.test
        for k, chances in enumerate(self._chances[test.id]):
            left = [weight * chance for weight, chance in zip(weights, chances, strict=True)]
            if any(left):
                yield test.outcomes[k].name, (moment[0] | {(test.id, k)}, step.marks), left

    def order(self, weights: Sequence[float]) -> list[int]:
        """In which order faults are best repaired; those that cannot be are left out."""
        there = [k for k, weight in enumerate(weights) if weight]
        return sorted(
            there, key=lambda k: (-weights[k] / self._repair[k] if self._repair[k] else float("-inf"), k)
        )

    def _halted(self, weights: Sequence[float]) -> float:
        """What it costs to stop here: each repair is paid by all whose turn has not come before."""
        left, paid = sum(weights), 0.0
        for k in self.order(weights):
            paid += self._repair[k] * left
            left -= weights[k]
        return paid

    def _opened(self, marks: Marks) -> list[tuple[Step, float]]:
        """The tests that can be done, with their minutes."""
        return [(step, float(step.minutes)) for step in steps(self._matrix, marks)]

    # -- the plan

    def plan(self, moment: Moment, weights: Sequence[float], depth: int) -> Plan:
        """The plan that has the high price."""
        step = self.price(moment, weights, depth).test
        if step is None:
            return self._mend(weights)
        after = self.after(moment, weights, step)
        branches = {name: self.plan(then, left, depth - 1) for name, then, left in after}
        return Node(step.test.id, step.setups, step.minutes, branches)

    def _mend(self, weights: Sequence[float]) -> Mend:
        whole = sum(weights)
        return Mend(tuple((self._matrix.faults[k].id, weights[k] / whole) for k in self.order(weights)))
