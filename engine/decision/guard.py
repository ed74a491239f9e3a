"""Guard bands: how far inside its limits a reading must lie to be decided."""

from typing import Final

from engine.decision.normal import quantile

#: ISO 14253-1:2017 asks for 95 % where nothing else was agreed.
DEFAULT: Final = 0.95


def guard(uncertainty: float, confidence: float = DEFAULT) -> float:
    """The width of the guard band at one limit (JCGM 106:2012, 8.3.2; ISO 14253-1).

    `uncertainty` is a standard one; the width has its unit.

    >>> round(guard(0.5), 3)  # 1.645 times 0.5
    0.822
    """
    return quantile(confidence) * uncertainty


def acceptance(
    low: float | None, high: float | None, width: float
) -> tuple[float | None, float | None] | None:
    """The limits within which a reading is accepted; None where the guard bands leave nothing.

    A negative width relaxes the limits (JCGM 106:2012, 8.3.3).

    >>> acceptance(10, 20, 1)
    (11, 19)
    """
    inner = None if low is None else low + width
    outer = None if high is None else high - width
    if inner is not None and outer is not None and inner > outer:
        return None
    return inner, outer
