"""How often a fault is the cause, from how often it was found: weights for suspects, and their bounds.

A count of none is no proof that it never happens: half a case is added to each kind, which is the least that
a prior may say.
"""

from collections.abc import Sequence
from typing import Final, NamedTuple

from engine.beta import quantile
from engine.errors import Refusal
from engine.trade.calculator import Calculator, Input, Output

#: What is added to every count, by the name of who proposed it. Source: Brown, Cai and DasGupta (2001).
PRIORS: Final = {"jeffreys": 0.5, "laplace": 1.0}


class Share(NamedTuple):
    """What counts say of a share, in per cent: what to reckon with, and what bounds it."""

    mean: float
    low: float
    high: float
    most: float


def share(found: float, of: float, confidence: float = 95, prior: str = "jeffreys") -> Share | Refusal:
    """How often something happens that was found so many times in so many cases.

    Formula: Beta(x + c, n - x + c), c = ½ (Jeffreys) or 1 (Laplace): its mean, the interval with as much
    outside on either side, and the bound that it stays below with that confidence. Found never, the interval
    begins at 0; found always, it ends at 100. Source: Brown, Cai and DasGupta, Statistical Science 16 (2001).
    Refuses counts that are none.

    Four of twenty:

    >>> [round(value, 3) for value in share(4, 20)]
    [21.429, 7.152, 40.823, 37.274]
    """
    if not (found == int(found) and of == int(of) and 0 <= found <= of and of > 0):
        message = f"{found:g} of {of:g} cannot be counted."
        return Refusal("count", message, "Give whole numbers, of cases in all and of those among them.")
    c = PRIORS[prior]
    a, b, tail = found + c, of - found + c, (1 - confidence / 100) / 2
    low = quantile(tail, a, b) if found else 0.0
    high = quantile(1 - tail, a, b) if found < of else 1.0
    return Share(*(100 * value for value in (a / (a + b), low, high, quantile(1 - 2 * tail, a, b))))


def shares(counts: Sequence[float], prior: str = "jeffreys") -> tuple[float, ...] | Refusal:
    """How probable each of several causes is, in per cent, one of which it is; from counts of each.

    Formula: (x + c) / (n + k c) for k causes, c as above: the mean of a Dirichlet distribution. Refuses
    counts that are none.

    >>> [round(value, 2) for value in shares([7, 2, 1, 0])]
    [62.5, 20.83, 12.5, 4.17]
    """
    if any(count != int(count) or count < 0 for count in counts):
        return Refusal("count", "That cannot be counted.", "Give whole numbers, nothing below zero.")
    c = PRIORS[prior]
    return tuple(100 * (count + c) / (sum(counts) + len(counts) * c) for count in counts)


def _shares(counts: Sequence[float], prior: str) -> tuple[tuple[float, ...]] | Refusal:
    found = shares(counts, prior)
    return found if isinstance(found, Refusal) else (found,)


_PRIOR: Final = Input(
    "prior", "prior", "What is added to a count", "word", default="jeffreys", choices=tuple(PRIORS)
)

CALCULATORS: Final = (
    Calculator(
        name="repair-share",
        family="records",
        title="How often a fault is the cause, from repair records",
        inputs=(
            Input("found", "x", "Times that it was found", "", least=0, most=1e6),
            Input("of", "n", "Cases in all", "", least=1, most=1e6),
            Input("confidence", "p", "Confidence of the bounds", "%", least=50, most=99.99, default="95"),
            _PRIOR,
        ),
        outputs=(
            Output("share", "s", "Reckon with", "%"),
            Output("low", "s1", "It is at least", "%"),
            Output("high", "s2", "It is at most", "%"),
            Output("most", "s3", "Asked from above only, at most", "%"),
        ),
        function=share,
        formula=(),
        source="Brown, Cai and DasGupta, Statistical Science 16 (2001): Beta(x + c, n - x + c), c ½ or 1",
        mark="published",
        valid="For cases of one kind, each looked into until the cause was known.",
        example="found=4 of=20",
    ),
    Calculator(
        name="repair-shares",
        family="records",
        title="How probable each of several causes is, from repair records",
        inputs=(
            Input("counts", "x", "Times that each was found", "", least=0, most=1e6, many=2),
            _PRIOR,
        ),
        outputs=(Output("shares", "s", "Each is the cause in", "%"),),
        function=_shares,
        formula=(),
        source="mean of a Dirichlet distribution, textbooks: (x + c) / (n + k c), c ½ or 1",
        mark="published",
        valid="Where one of them was the cause each time.",
        example="counts=7,2,1,0",
    ),
)
