"""One figure of a plain function, as a calculator gives it."""

from fractions import Fraction

from engine.errors import Refusal
from engine.trade.inputs import Values


def single(value: float | Fraction | str | Refusal) -> Values | Refusal:
    """The figure alone in its tuple; a refusal as it is.

    >>> single(2.5)
    (2.5,)
    """
    return value if isinstance(value, Refusal) else (value,)


def finite(value: float) -> float | None:
    """The figure, or None for one that has no end: `no limit` is not told as a number.

    >>> finite(18.5), finite(float("inf"))
    (18.5, None)
    """
    return value if value < float("inf") else None
