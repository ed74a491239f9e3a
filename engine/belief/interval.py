"""A share from counts: its mean, and where it lies with 95 %.

Half a case is added to each kind (Jeffreys; for several causes Dirichlet with one half each): the least that
may be said beforehand. Source: Brown, Cai and DasGupta, Statistical Science 16(2):101-133, 2001.
"""

from typing import Final, NamedTuple

from engine.beta import quantile

#: Cases for each kind from which on counts are proposed: what the half cases add is then less than a tenth
#: of what was counted, and says less than the cases do. Common practice, no source.
_EACH: Final = 5


class Interval(NamedTuple):
    """A share from counts: its mean, and where it lies with 95 %.

    The interval asks of this kind alone; the mean divides the whole among all of them. Where there are many
    and all cases were of one, the half cases of the others keep its mean below the interval.
    """

    found: int
    of: int
    mean: float
    low: float
    high: float

    def holds(self, share: float) -> bool:
        """Whether a share lies in it."""
        return self.low <= share <= self.high


def interval(found: int, of: int, kinds: int = 2) -> Interval:
    """Jeffreys' interval of so many of so many, and the mean where there are so many kinds.

    Found never, it begins at 0; found always, it ends at 1. Four of twenty:

    >>> [round(value, 6) for value in interval(4, 20)[2:]]
    [0.214286, 0.07152, 0.408226]
    """
    a, b = found + 0.5, of - found + 0.5
    low = quantile(0.025, a, b) if found else 0.0
    high = quantile(0.975, a, b) if found < of else 1.0
    return Interval(found, of, (found + 0.5) / (of + 0.5 * kinds), low, high)


def enough(kinds: int) -> int:
    """How many cases are enough to propose shares of so many kinds.

    >>> enough(2), enough(7)
    (10, 35)
    """
    return _EACH * kinds
