"""How much is still open, and how much a step would settle of it, in bits (Shannon, 1948).

One bit is what the answer to a fair yes-or-no question tells. Looking one step ahead by entropy is the rule
of de Kleer and Williams (Artificial Intelligence 32:97-130, 1987); the best single step need not begin the
cheapest whole walk.
"""

from collections.abc import Sequence
from math import log2

from engine.belief.evidence import Table
from engine.belief.update import Belief


def entropy(shares: Sequence[float]) -> float:
    """The bits that are open: 0 where one is certain, log2(n) where n are equally probable.

    >>> entropy((0.5, 0.25, 0.25)), entropy((1, 0))
    (1.5, 0.0)
    """
    return -sum(share * log2(share) for share in shares if share > 0) + 0.0


def expected(belief: Belief, table: Table) -> float:
    """The bits that will be open on average once it is known which row of the table was met.

    A row holds how often its answer is met under each suspect, in the order of the belief.

    >>> two = Belief(("shaft", "elsewhere"), (0.5, 0.5))
    >>> expected(two, ((1, 0), (0, 1))), expected(two, ((0.5, 0.5), (0.5, 0.5)))
    (0.0, 1.0)
    """
    return sum(_open([p * likely for p, likely in zip(belief.shares, row, strict=True)]) for row in table)


def gain(belief: Belief, table: Table) -> float:
    """The bits that the step with this table settles on average; never below 0.

    >>> gain(Belief(("shaft", "elsewhere"), (0.5, 0.5)), ((1, 0), (0, 1)))
    1.0
    """
    return max(0.0, entropy(belief.shares) - expected(belief, table)) if table else 0.0


def _open(joint: Sequence[float]) -> float:
    """The probability of a row times the entropy after it."""
    whole = sum(joint)
    return whole * entropy([one / whole for one in joint]) if whole > 0 else 0.0
