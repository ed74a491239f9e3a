"""The beta distribution with `math` alone: what a count of so many leaves open about how often it happens."""

from math import exp, lgamma, log, log1p
from typing import Final

_TINY: Final = 1e-300
_CLOSE: Final = 1e-15
_MOST: Final = 10_000


def below(x: float, a: float, b: float) -> float:
    """The probability that a share with the distribution Beta(a, b) lies below x.

    Formula: the regularised incomplete beta function by its continued fraction. Source: Abramowitz and
    Stegun, 26.5.8. Raises ValueError where a or b is not above zero.

    >>> below(0.5, 2, 2), round(below(0.25, 1, 3), 6)
    (0.5, 0.578125)
    """
    if not (a > 0 and b > 0):
        raise ValueError(f"There is no beta distribution of {a} and {b}.")
    if not 0 < x < 1:
        return 0.0 if x <= 0 else 1.0
    if x > (a + 1) / (a + b + 2):
        return 1 - below(1 - x, b, a)
    front = exp(lgamma(a + b) - lgamma(a) - lgamma(b) + a * log(x) + b * log1p(-x))
    return front / a * _fraction(x, a, b)


def quantile(probability: float, a: float, b: float) -> float:
    """The share below which lies so much of the distribution, found by halving.

    Raises ValueError outside 0 to 1.

    >>> round(quantile(0.578125, 1, 3), 9)
    0.25
    """
    if not 0 <= probability <= 1:
        raise ValueError(f"{probability} is no probability.")
    if probability in (0, 1):
        return float(probability)
    low, high = 0.0, 1.0
    while low < (middle := (low + high) / 2) < high:
        low, high = (middle, high) if below(middle, a, b) < probability else (low, middle)
    return high


def _fraction(x: float, a: float, b: float) -> float:
    """Lentz's rule for the continued fraction, from the top down."""
    up, down = 1.0, 1 / _solid(1 - (a + b) * x / (a + 1))
    value = down
    for n in range(1, _MOST):
        before = value
        for part in (
            n * (b - n) * x / ((a + 2 * n - 1) * (a + 2 * n)),
            -(a + n) * (a + b + n) * x / ((a + 2 * n) * (a + 2 * n + 1)),
        ):
            down = 1 / _solid(1 + part * down)
            up = _solid(1 + part / up)
            value *= up * down
        if abs(value - before) <= _CLOSE * abs(value):
            break
    return value


def _solid(value: float) -> float:
    """A number that may be divided by."""
    return value if abs(value) > _TINY else _TINY
