"""How probable it is that the true value lies where the reading lies."""

from collections.abc import Sequence
from math import inf

from engine.decision.normal import between

#: The ends of a band as numbers; None where it is open.
Ends = tuple[float | None, float | None]


def conformity(value: float, uncertainty: float, low: float | None, high: float | None) -> float:
    """The probability that the true value lies between the limits (JCGM 106:2012, 7.2 to 7.4).

    `uncertainty` is a standard one, in the unit of the value; without any, the value is the true one, and
    both limits belong to what they bound.

    >>> round(conformity(-5.47, 0.05, None, -5.40), 4)  # JCGM 106, 7.3.3 example 1
    0.9192
    """
    floor = -inf if low is None else low
    ceiling = inf if high is None else high
    if uncertainty == 0:
        return 1.0 if floor <= value <= ceiling else 0.0
    return between((floor - value) / uncertainty, (ceiling - value) / uncertainty)


def shares(value: float, uncertainty: float, bands: Sequence[Ends], chosen: int) -> tuple[float, ...]:
    """The probability of each band, one in sum: what no band covers is known to be impossible.

    Where not even the bands together have any probability that a number can hold, or there is no
    uncertainty, the band `chosen`, in which the value lies, has all of it.

    >>> [round(share, 3) for share in shares(10, 1, [(None, 10), (10, 12), (12, None)], 0)]
    [0.5, 0.477, 0.023]
    """
    each = [conformity(value, uncertainty, low, high) for low, high in bands]
    total = sum(each)
    if uncertainty == 0 or total <= 0:
        return tuple(float(k == chosen) for k in range(len(bands)))
    return tuple(one / total for one in each)
