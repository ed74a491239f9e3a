"""What a matrix of tests that may err allows at a moment, and what stopping there costs."""

from collections.abc import Iterator, Sequence

from engine.model.matrix import Matrix, Trial

#: The weight of each fault with all that was met so far.
Weights = tuple[float, ...]
#: Tests done, set-ups that stand.
State = tuple[frozenset[str], frozenset[str]]


class Field:
    """The facts of a matrix."""

    def __init__(self, matrix: Matrix) -> None:
        self.matrix = matrix
        self.repair = {fault.id: float(fault.repair or 0) for fault in matrix.faults}

    def stopped(self, weights: Weights) -> float:
        """What it costs to stop: repairs by chance a minute, each paid by those whose turn has not come."""
        pairs = [(w, minutes) for w, minutes in zip(weights, self.repair.values(), strict=True) if w]
        pairs.sort(key=lambda pair: pair[1] / pair[0])
        return sum(minutes * sum(w for w, _ in pairs[k:]) for k, (_, minutes) in enumerate(pairs))

    def open(self, state: State) -> list[Trial]:
        """The tests that can be done."""
        return [
            test for test in self.matrix.tests if test.id not in state[0] and state[0].issuperset(test.after)
        ]

    def missing(self, test: Trial, state: State) -> list[str]:
        """The set-ups to be made before a test."""
        return [setup.id for setup in self.matrix.setups if setup.id in {*test.needs} - state[1]]

    def minutes(self, test: Trial, state: State) -> float:
        """What a test costs with them."""
        paid = {setup.id: setup.minutes for setup in self.matrix.setups}
        return float(test.minutes + sum(paid[name] for name in self.missing(test, state)))

    def after(
        self, test: Trial, state: State, weights: Weights
    ) -> Iterator[tuple[str, tuple[State, Weights]]]:
        """The outcomes that may be met, with what is left then."""
        then = (state[0] | {test.id}, (state[1] | {*test.needs}) - {*test.drops})
        for outcome in test.outcomes:
            chances: Sequence[float] = [float(outcome.chances.get(name, 0)) for name in self.repair]
            left = tuple(w * chance for w, chance in zip(weights, chances, strict=True))
            if any(left):
                yield outcome.name, (then, left)
