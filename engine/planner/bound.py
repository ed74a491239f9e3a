"""Lower bounds on what is still to be paid while some groups are suspected.

Two bounds; the larger holds. Neither counts set-ups or precedence: without them a plan only gets cheaper.

**In layers.** Cut every price into layers: a test of 7 minutes is paid once for each height between 0 and 7.
At height h the cheaper tests cost nothing, so take them all; the suspects they leave together form classes.
Inside one class every test that still parts it reaches height h, and by Huffman its members pay at least
Huffman's sum there. Summed over the heights:  sum over h of sum over classes C(h) of huffman(C(h)).  With
equal prices this is Huffman's bound itself; with unequal prices it counts every dear test that somebody
cannot do without.

**Along the chain.** Follow, at every test, the heavier side: the chain. Who leaves it pays all tests of the
chain until then, and a test makes only its lighter side leave. So in the time of a test of price c with a
lighter side of weight a, at most a leaves: each suspect i takes at least w[i] * min(c/a) over the lighter
sides it is on. Let the quickest leave first (Smith's rule, as in a knapsack that may be cut); the suspects
left pay for all that time. To that comes half of every test's own price for those that it removes, since
they pay it to the end; one suspect, the last, never leaves. Strong where each test knows few faults, where
Huffman's tree is far too kind.
"""

from collections.abc import Iterable
from math import ceil
from typing import Final

from engine.planner.huffman import huffman
from engine.planner.problem import Problem, members

#: Weights of sets are looked up by so many bits at a time.
_CHUNK: Final = 12


class Bound:
    """What the groups of a set must still cost together, at least; weights are in it.

    >>> from engine.planner.problem import Probe
    >>> rare = [Probe(f"t{bit}", 1, ("no", "yes"), (0b111 ^ bit, bit)) for bit in (1, 2, 4)]
    >>> bound = Bound(Problem((("x",), ("y",), ("z",)), (5, 3, 2), tuple(rare), (), 1))
    >>> bound(0b111)  # x first (10), then y or z (5)
    15
    """

    def __init__(self, problem: Problem) -> None:
        self._weights = problem.weights
        self._tests = [
            test for test in sorted(problem.tests, key=lambda test: test.cost) if len(test.parts) > 1
        ]
        self._ways = max((len(test.parts) for test in self._tests), default=2)
        self._tables = [
            _table(problem.weights[k : k + _CHUNK]) for k in range(0, len(problem.weights), _CHUNK)
        ]
        self._known: dict[int, int] = {}
        self._trees: dict[int, int] = {}
        self._sums: dict[int, int] = {}
        prices = {test.cost for test in self._tests}
        #: The one price of all tests; then there is one layer, and 0 where prices differ.
        self._flat = prices.pop() if len(prices) == 1 else 0
        everything = problem.everything
        # the chain is worth its time only where it says nearly as much as the layers
        self._chained = 5 * self._chain(everything) > 4 * self._layers(everything)

    def __call__(self, groups: int) -> int:
        """The bound of a set of groups."""
        known = self._known.get(groups)
        if known is None:
            known = 0 if not groups & (groups - 1) else self._layers(groups)
            if self._chained and known:
                known = max(known, self._chain(groups))
            self._known[groups] = known
        return known

    def weight(self, groups: int) -> int:
        """The weight of a set of groups."""
        found = self._sums.get(groups)
        if found is None:
            found, rest = 0, groups
            for table in self._tables:
                found += table[rest & (len(table) - 1)]
                rest >>= _CHUNK
            self._sums[groups] = found
        return found

    def times(self, groups: int) -> int:
        """How often a test is counted that is done while these groups are suspected."""
        return self.weight(groups)

    def _tree(self, groups: int) -> int:
        """Huffman's sum of a set."""
        found = self._trees.get(groups)
        if found is None:
            weights = self._weights
            found = self._trees[groups] = huffman([weights[k] for k in members(groups)], self._ways)
        return found

    def _layers(self, groups: int) -> int:
        """The bound in layers: classes are split test by test, the cheapest first."""
        if self._flat:
            return self._flat * self._tree(groups)
        tree, total, height = self._tree, 0, 0
        classes, current = [groups], self._tree(groups)
        for test in self._tests:
            if not _splits(classes, test.parts[0]) and len(test.parts) == 2:
                continue
            kept, gone, come = _split(classes, test.parts)
            if not gone:
                continue
            if test.cost != height:
                total += (test.cost - height) * current
                height = test.cost
            current += sum(map(tree, come)) - sum(map(tree, gone))
            classes = kept + come
            if not classes:
                break
        return total

    def _chain(self, groups: int) -> int:
        """The bound along the chain."""
        weight, whole = self.weight, self.weight(groups)
        sides: dict[int, int] = {}
        for test in self._tests:
            side = groups & test.parts[0]
            if len(test.parts) > 2:
                side = groups ^ max((groups & part for part in reversed(test.parts)), key=weight)
            elif 2 * weight(side) > whole:
                side ^= groups
            if side and side not in sides:
                sides[side] = test.cost
        own = _cheapest(sides.items(), groups)
        heaviest = max(self._weights[k] for k in members(groups))
        last = max((self._weights[k] * price for k, price in own.items()), default=0)
        total, gone, left = 0.0, 0, groups
        for price, side in sorted((cost / weight(side), side) for side, cost in sides.items()):
            leaving = weight(side & left)
            left &= ~side
            leaving = min(leaving, whole - heaviest - gone)
            total += price * leaving * (whole - gone - leaving / 2)
            gone += leaving
        total += (sum(self._weights[k] * price for k, price in own.items()) - last) / 2
        return ceil(total * (1 - 1e-12))


def _table(weights: tuple[int, ...]) -> list[int]:
    """The weight of every subset."""
    table = [0] * (1 << len(weights))
    for subset in range(1, len(table)):
        low = subset & -subset
        table[subset] = table[subset ^ low] + weights[low.bit_length() - 1]
    return table


def _splits(classes: list[int], part: int) -> bool:
    """Whether this side of a test takes some of a class and leaves some; a plain loop is quickest here."""
    for group in classes:  # noqa: SIM110  reason: any() takes twice as long
        if 0 != group & part != group:
            return True
    return False


def _split(classes: list[int], parts: tuple[int, ...]) -> tuple[list[int], list[int], list[int]]:
    """The classes that a test leaves whole, those that it splits, and what they become."""
    kept, gone, come = [], [], []
    for group in classes:
        pieces = [piece for part in parts if (piece := group & part)]
        if len(pieces) == 1:
            kept.append(group)
        else:
            gone.append(group)
            come += [piece for piece in pieces if piece & (piece - 1)]
    return kept, gone, come


def _cheapest(sides: Iterable[tuple[int, int]], groups: int) -> dict[int, int]:
    """The price of the cheapest test on whose lighter side each group is; the sides come cheapest first."""
    found: dict[int, int] = {}
    for side, cost in sides:
        for k in members(side & groups):
            found.setdefault(k, cost)
    return found


class WorstBound(Bound):
    """The same for the longest way instead of the mean one: no mean is longer, however the weights lie.

    >>> from engine.planner.problem import Probe
    >>> test = Probe("a", 7, ("no", "yes"), (0b01, 0b10))
    >>> WorstBound(Problem((("x",), ("y",)), (90, 1), (test,), (), 1))(0b11)
    7
    """

    def __init__(self, problem: Problem) -> None:
        super().__init__(problem._replace(weights=(1,) * len(problem.weights)))

    def __call__(self, groups: int) -> int:
        """With equal weights the mean is the sum by their number."""
        return -(-super().__call__(groups) // groups.bit_count())

    def times(self, groups: int) -> int:
        """A test on the longest way is counted once."""
        del groups
        return 1
