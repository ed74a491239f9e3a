"""Lower bounds on what is still to be paid while some groups are suspected.

Three bounds; the largest holds. None counts set-ups or precedence: without them a plan only gets cheaper.

**In layers.** What Huffman's sum asks for at every height of the prices: see `engine/planner/layers.py`.

**By pairs.** What any two suspects owe for being told apart: see `engine/planner/dues.py`. It takes a while
to find, so a search asks for it only where the layers alone do not soon end it (`learn`).

**By numbers.** What the suspects cost if of each kind only their number is known: see
`engine/planner/numbers.py`. Where it says nearly enough of the start it takes the place of the layers
(`count`); with equal prices it is never less than they.
"""

from collections.abc import Callable, Iterator
from typing import ClassVar, Final, Protocol

from engine.planner.dues import Dues, Paying
from engine.planner.entropy import Entropy, Split
from engine.planner.layers import Layers
from engine.planner.numbers import Numbers
from engine.planner.problem import Problem, members
from engine.planner.sums import PairSums, Sums

#: What comes to more is not added up side by side, eight bytes for each sum.
_MOST: Final = 1 << 62


class Glance(Protocol):
    """What rules moves out before they are looked into."""

    def splits(self, groups: int, ceiling: int, least: Callable[[int], int], /) -> Iterator[Split]:
        """Every split of a set that may cost less than the ceiling, once; a side costs `least` at least."""


class Bound:
    """What the groups of a set must still cost together, at least; weights are in it.

    >>> from engine.planner.problem import Probe
    >>> rare = [Probe(f"t{bit}", 1, ("no", "yes"), (0b111 ^ bit, bit)) for bit in (1, 2, 4)]
    >>> bound = Bound(Problem((("x",), ("y",), ("z",)), (5, 3, 2), tuple(rare), (), 1))
    >>> bound(0b111)  # x first (10), then y or z (5)
    15
    """

    #: Whether it is the mean that is bounded.
    mean: ClassVar = True

    def __init__(self, problem: Problem) -> None:
        self._problem = problem
        self._layers = Layers(problem)
        #: The one price of all tests; 0 where prices differ.
        self.flat = self._layers.flat
        self.weight = Sums(problem.weights)
        self._known: dict[int, int] = {}
        self._paired: dict[int, int] = {}
        #: What numbers of groups cost, where that is known.
        self.numbers: Numbers | None = None
        #: What is known of pairs, for a certificate.
        self.dues: Dues | None = None
        self.owed: PairSums | None = None
        #: Tells at a glance what may cost little, where tests are plain and the mean is wanted.
        self.glance: Glance | None = None
        if self.mean and self.flat and problem.plain and self.flat * sum(problem.weights) < _MOST:
            self.glance = Entropy(problem.weights, [test.parts[0] for test in problem.tests], self.flat)

    def __call__(self, groups: int) -> int:
        """The bound of a set of groups."""
        known = self._known.get(groups)
        if known is None:
            known = 0 if not groups & (groups - 1) else (self.numbers or self._layered)(groups)
            if self.dues:
                known = max(known, self.pairs(groups))
            self._known[groups] = known
        return known

    def count(self, numbers: Numbers) -> None:
        """Look at the numbers of groups from now on, and at the layers no more."""
        self.numbers = self.glance = numbers
        self._known.clear()

    def learn(self, dues: Dues) -> None:
        """Count what pairs owe from now on, if it is more than was known."""
        if self.dues and dues.mean <= self.dues.mean:
            return
        self.dues, self.owed = dues, PairSums(len(dues.weights), dues.due)
        self._known.clear()
        self._paired.clear()
        if self.mean and self._problem.plain and sum(dues.due.values()) < _MOST:
            self.glance = Paying(self._problem, dues, self.owed)

    def times(self, groups: int) -> int:
        """How often a test is counted that is done while these groups are suspected."""
        return self.weight(groups)

    def _layered(self, groups: int) -> int:
        """The bound in layers alone."""
        return self._layers(groups)

    def pairs(self, groups: int) -> int:
        """The bound by pairs alone, which is sooner found; 0 until it is learnt."""
        known = self._paired.get(groups)
        if known is None:
            known = self._paired[groups] = self._pairs(groups)
        return known

    def _pairs(self, groups: int) -> int:
        return -(-self.owed(groups) // self.dues.scale) if self.dues and self.owed else 0


class WorstBound(Bound):
    """The same for the longest way instead of the mean one: no mean is longer, however the weights lie.

    >>> from engine.planner.problem import Probe
    >>> test = Probe("a", 7, ("no", "yes"), (0b01, 0b10))
    >>> WorstBound(Problem((("x",), ("y",)), (90, 1), (test,), (), 1))(0b11)
    7
    """

    mean: ClassVar = False

    def __init__(self, problem: Problem) -> None:
        super().__init__(problem._replace(weights=(1,) * len(problem.weights)))

    def times(self, groups: int) -> int:
        """A test on the longest way is counted once."""
        del groups
        return 1

    def _layered(self, groups: int) -> int:
        """With equal weights the mean is the sum by their number."""
        return -(-super()._layered(groups) // groups.bit_count())

    def _pairs(self, groups: int) -> int:
        """The mean by the weights that were chosen for the dues."""
        if self.dues is None or not (weight := sum(self.dues.weights[k] for k in members(groups))):
            return 0
        return -(-super()._pairs(groups) // weight)
