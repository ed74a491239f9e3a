"""A lower bound in layers: what Huffman's sum asks for at every height of the prices.

Cut every price into layers: a test of 7 minutes is paid once for each height between 0 and 7.
At height h the cheaper tests cost nothing, so take them all; the suspects they leave together form classes.
Inside one class every test that still parts it reaches height h, and by Huffman its members pay at least
Huffman's sum there. Summed over the heights:  sum over h of sum over classes C(h) of huffman(C(h)).  With
equal prices this is Huffman's bound itself; with unequal prices it counts every dear test that somebody
cannot do without.

What two suspects are left together by does not hang on the others, so the classes of all groups are found
once, with the height for which each lasts; of a set it is what it has of each class that counts.
"""

from collections.abc import Iterator

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
        self._ways = max((len(test.parts) for test in problem.tests), default=2)
        self._lasting = list(_lasting(problem))
        self._trees: dict[int, int] = {}
        prices = {test.cost for test in problem.tests if len(test.parts) > 1}
        #: The one price of all tests; then there is one layer, and 0 where prices differ.
        self.flat = prices.pop() if len(prices) == 1 else 0

    def __call__(self, groups: int) -> int:
        """The bound of a set."""
        if self.flat:
            return self.flat * self._grown(groups)  # each set is asked for once
        tree, total = self._tree, 0
        for group, height in self._lasting:
            left = groups & group
            if left & (left - 1):
                total += height * tree(left)
        return total

    def _tree(self, groups: int) -> int:
        """Huffman's sum of a set."""
        found = self._trees.get(groups)
        if found is None:
            found = self._trees[groups] = self._grown(groups)
        return found

    def _grown(self, groups: int) -> int:
        return binary(self._each(groups)) if self._ways == 2 else huffman(self._each(groups), self._ways)


def _lasting(problem: Problem) -> Iterator[tuple[int, int]]:
    """Each class of groups that cheaper tests leave together, and for how much of the prices it lasts."""
    since = {problem.everything: 0}
    for test in sorted(problem.tests, key=lambda test: test.cost):
        for group in [*since]:
            pieces = [piece for part in test.parts if (piece := group & part)]
            if len(pieces) > 1:
                if height := test.cost - since.pop(group):
                    yield group, height
                since |= {piece: test.cost for piece in pieces if piece & (piece - 1)}
