"""What is believed of each suspect: weights before any evidence, then Bayes' rule, one sign at a time.

One suspect is to blame, or something that the tree does not name (`ELSEWHERE`). It is always there: a list
of causes is never whole, and without it the last suspect left would be certain, whatever was seen. Where a
tree does not say its weight, it has that of the lightest suspect: what nobody found worth naming is taken to
be no more common than the rarest cause that somebody did. That holds whatever scale the weights are on.

Each sign multiplies the probability of every suspect by how often it is met where that one is to blame, and
all are made to add up to one (Bayes, 1763). Signs are taken to be independent of each other as long as one
suspect is to blame; then their order does not matter.
"""

from collections.abc import Mapping, Sequence
from fractions import Fraction
from math import inf
from typing import NamedTuple

from engine.model.tree import ELSEWHERE


class Belief(NamedTuple):
    """The probability of each suspect: they add up to one."""

    #: In the order of the tree; `ELSEWHERE` is the last.
    suspects: tuple[str, ...]
    #: In the same order, each from 0 to 1.
    shares: tuple[float, ...]
    #: No suspect of the tree can be to blame for all that was seen: something else is, or a sign misled.
    contradicted: bool = False

    def share(self, *suspects: str) -> float:
        """The probability that one of these is to blame; whoever is named twice counts once.

        >>> prior({"shaft": Fraction(2), "tyre": Fraction(1)}).share("shaft", "tyre")
        0.75
        """
        return sum(share for name, share in zip(self.suspects, self.shares, strict=True) if name in suspects)


def prior(weights: Mapping[str, Fraction], elsewhere: Fraction | None = None) -> Belief:
    """What is believed before any evidence: each suspect by its weight against all.

    Weights are over 0, on any scale. Raises ValueError where none is given or one is not over 0.

    >>> prior({"shaft": Fraction(2), "tyre": Fraction(1)})
    Belief(suspects=('shaft', 'tyre', 'elsewhere'), shares=(0.5, 0.25, 0.25), contradicted=False)
    """
    if not weights:
        raise ValueError("A belief needs a suspect.")
    every = {**weights, ELSEWHERE: min(weights.values()) if elsewhere is None else elsewhere}
    if min(every.values()) <= 0:
        raise ValueError("Every weight is over 0.")
    total = sum(every.values())
    return Belief(tuple(every), tuple(float(weight / total) for weight in every.values()))


def updated(belief: Belief, likelihoods: Sequence[float]) -> Belief:
    """The belief after one more sign; `likelihoods` says how often it is met under each suspect, in order.

    Where all that the tree names is ruled out, `ELSEWHERE` has the whole and the belief says so, whatever the
    sign makes of `ELSEWHERE` itself. Raises ValueError for a likelihood below 0 and for too few or too many.

    A test that finds nine faults in ten and errs on two sound parts in ten, for a fault found in one of ten:

    >>> before = Belief(("worn", "elsewhere"), (0.1, 0.9))
    >>> round(updated(before, (0.9, 0.2)).share("worn"), 6)
    0.333333
    """
    if not all(0 <= likely < inf for likely in likelihoods):
        raise ValueError("A likelihood is a number from 0 on.")
    if likelihoods[0] > 0 and len({*likelihoods}) == 1 and len(likelihoods) == len(belief.shares):
        return belief  # met equally often under all it tells nothing, and must not leave a rounding behind
    made = [share * likely for share, likely in zip(belief.shares, likelihoods, strict=True)]
    if not any(made[:-1]):
        return Belief(belief.suspects, (*(0.0 for _ in made[1:]), 1.0), contradicted=True)
    total = sum(made)
    return Belief(belief.suspects, tuple([share / total for share in made]), belief.contradicted)
