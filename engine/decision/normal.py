"""The normal distribution with `math` alone, good in both tails."""

from math import erfc, exp, inf, isnan, pi, sqrt
from typing import Final

_ROOT: Final = sqrt(2)
_STEPS: Final = 200
#: Beyond it, no number but 0 or 1 is left.
_FAR: Final = 40.0


def below(z: float) -> float:
    """The probability that a standard normal value lies below z.

    >>> round(below(1.6449), 3)
    0.95
    """
    return erfc(-z / _ROOT) / 2


def between(low: float, high: float) -> float:
    """The probability that a standard normal value lies between two; 0 where they are not in order.

    Far out on the right the left tail is taken instead, in which numbers near 0 are exact.

    >>> round(between(-1.96, 1.96), 3)
    0.95
    """
    if low >= high:
        return 0.0
    if low > 0:
        low, high = -high, -low
    return below(high) - below(low)


def density(z: float) -> float:
    """The density of the standard normal distribution.

    >>> round(density(0), 4)
    0.3989
    """
    return exp(-z * z / 2) / sqrt(2 * pi)


def quantile(probability: float) -> float:
    """The z below which a standard normal value lies with this probability, found by halving.

    Raises ValueError outside 0 to 1.

    >>> round(quantile(0.95), 4)
    1.6449
    """
    if isnan(probability) or not 0 <= probability <= 1:
        raise ValueError(f"{probability} is no probability.")
    if probability in (0, 1):
        return inf if probability else -inf
    if probability > 1 / 2:
        return -quantile(1 - probability)  # near 1 only the distance from it has digits left
    low, high = -_FAR, 0.0
    for _ in range(_STEPS):
        middle = (low + high) / 2
        if below(middle) < probability:
            low = middle
        else:
            high = middle
    return (low + high) / 2
