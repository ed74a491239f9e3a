"""An integral over a stretch, by Gauss and Legendre's five points in each of so many panels."""

from collections.abc import Callable
from math import sqrt
from typing import Final

#: Place and weight on -1 to 1. Source: Abramowitz and Stegun, table 25.4.
_POINTS: Final = (
    (0.0, 128 / 225),
    *(
        (sign * sqrt(5 + side * 2 * sqrt(10 / 7)) / 3, (322 - side * 13 * sqrt(70)) / 900)
        for side in (-1, 1)
        for sign in (-1, 1)
    ),
)


def integral(function: Callable[[float], float], low: float, high: float, panels: int) -> float:
    """The integral of a smooth function from low to high; nothing where they stand the wrong way round.

    Exact for polynomials up to the ninth power, whatever the panels.

    >>> round(integral(lambda x: x * x, 0, 3, panels=1), 12)
    9.0
    """
    if low >= high:
        return 0.0
    half = (high - low) / panels / 2
    middles = (low + (2 * panel + 1) * half for panel in range(panels))
    return half * sum(weight * function(m + half * at) for m in middles for at, weight in _POINTS)
