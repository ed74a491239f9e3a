"""A lower bound in layers: what Huffman's sum asks for at every height of the prices.

Cut every price into layers: a test of 7 minutes is paid once for each height between 0 and 7.
At height h the cheaper tests cost nothing, so take them all; the suspects they leave together form classes.
Inside one class every test that still parts it reaches height h, and by Huffman its members pay at least
Huffman's sum there. Summed over the heights:  sum over h of sum over classes C(h) of huffman(C(h)).  With
equal prices this is Huffman's bound itself; with unequal prices it counts every dear test that somebody
cannot do without.
"""

from engine.planner.huffman import binary, huffman
from engine.planner.problem import Problem
from engine.planner.sums import Each


class Layers:
    """What the groups of a set must cost together, at least, by layers; weights are in it.

    >>> from engine.planner.problem import Probe
    >>> tests = Probe("a", 2, ("no", "yes"), (0b101, 0b010)), Probe("b", 5, ("no", "yes"), (0b011, 0b100))
    >>> Layers(Problem((("x",), ("y",), ("z",)), (1, 1, 4), tests, (), 1))(0b111)  # 2 x 8, and 3 x 5
    31
    """

    def __init__(self, problem: Problem) -> None:
        self._each = Each(problem.weights)
        self._tests = [
            test for test in sorted(problem.tests, key=lambda test: test.cost) if len(test.parts) > 1
        ]
        self._ways = max((len(test.parts) for test in self._tests), default=2)
        self._trees: dict[int, int] = {}
        prices = {test.cost for test in self._tests}
        #: The one price of all tests; then there is one layer, and 0 where prices differ.
        self.flat = prices.pop() if len(prices) == 1 else 0

    def __call__(self, groups: int) -> int:
        """The bound of a set: classes are split test by test, the cheapest first."""
        if self.flat:
            return self.flat * self._grown(groups)  # each set is asked for once
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

    def _tree(self, groups: int) -> int:
        """Huffman's sum of a set."""
        found = self._trees.get(groups)
        if found is None:
            found = self._trees[groups] = self._grown(groups)
        return found

    def _grown(self, groups: int) -> int:
        return binary(self._each(groups)) if self._ways == 2 else huffman(self._each(groups), self._ways)


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
