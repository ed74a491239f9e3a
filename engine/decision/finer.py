"""What would decide a reading that is too close to call: more readings, or a finer gauge."""

from collections.abc import Callable, Sequence
from math import inf, sqrt
from typing import Final

from engine.decision.conformity import Ends, shares
from engine.decision.estimate import MOST

_HALVINGS: Final = 60


def uncertainty_needed(value: float, bands: Sequence[Ends], chosen: int, confidence: float) -> float:
    """The largest standard uncertainty with which this value is decided; 0 where none is, being on a limit.

    Infinite where there is only one band.

    >>> round(uncertainty_needed(10, [(None, 12), (12, None)], 0, 0.95), 3)  # 2 / 1.645
    1.216
    """
    ends = [end for end in bands[chosen] if end is not None]
    if not ends or len(bands) == 1:
        return inf
    high = 10 * max(abs(end - value) for end in ends)
    low = 0.0
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        if middle > 0 and shares(value, middle, bands, chosen)[chosen] >= confidence:
            low = middle
        else:
            high = middle
    return low


def readings_needed(count: int, after: Callable[[int], float], needed: float) -> int | None:
    """How many more readings like those would do, after `count` of them; None where ten would not.

    `after` gives the standard uncertainty of the mean of so many readings.

    >>> readings_needed(1, lambda n: 0.5 / sqrt(n), 0.3)
    2
    """
    return next((n - count for n in range(count + 1, MOST + 1) if after(n) <= needed), None)


def gauge_needed(needed: float) -> float:
    """The step of a gauge that scatters no more than it shows, with which one reading decides.

    Its standard uncertainty r and its rectangular part r / sqrt(12) together come to what is needed.

    >>> round(gauge_needed(1.0), 3)
    0.961
    """
    return needed / sqrt(1 + 1 / 12)
