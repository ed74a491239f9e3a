"""One value and its uncertainty, of one reading or of several of the same thing."""

from collections.abc import Sequence
from fractions import Fraction
from math import sqrt
from statistics import median
from typing import Final, NamedTuple

#: Critical range factors f(n) of ISO 5725-6, 5.2: with 95 % the range of n readings stays below f(n) sigma.
#: To three decimals (the standard prints one): the 95 % quantiles of the range of n standard normal values.
CRITICAL_RANGE: Final = {
    2: 2.772,
    3: 3.314,
    4: 3.633,
    5: 3.858,
    6: 4.030,
    7: 4.170,
    8: 4.286,
    9: 4.387,
    10: 4.474,
}
#: More readings of one thing than this are not asked for; their critical range is that of ten.
MOST: Final = 10


class Estimate(NamedTuple):
    """What readings of one thing come to."""

    value: Fraction
    #: Standard uncertainty (one standard deviation), in the unit of the value.
    uncertainty: float
    readings: int
    #: The readings lie further apart than the critical range: the value is their median, not their mean.
    apart: bool = False


def single(gauge: float, resolution: float, count: int = 1) -> float:
    """The standard uncertainty of the mean of `count` readings with a gauge, before any was taken.

    `gauge` is the shop's `uncertainty`: a *standard* uncertainty (one standard deviation, k = 1, not the
    expanded one) by which a reading, as a person sets the gauge and reads it, scatters; so it shrinks with
    the root of the number of readings. An error that all readings with a gauge share is not in it:
    calibration must keep that small. What is shown in steps of `resolution` r lies anywhere within half a
    step: rectangular, r / sqrt(12) (JCGM 100:2008, 4.3.7 and F.2.2.1). The same mark may be read again and
    again, so that part does not shrink.

    >>> round(single(0.5, 1), 4)  # sqrt(0.25 + 1/12)
    0.5774
    """
    return sqrt(gauge * gauge / count + resolution * resolution / 12)


def estimate(readings: Sequence[Fraction], gauge: float, resolution: float) -> Estimate:
    """What repeated readings come to: their mean, and its standard uncertainty.

    Where they scatter by more than the gauge is known to (standard deviation s of n readings, JCGM 100:2008,
    4.2.2), the larger of the two is believed. Spread rejection by the critical range of ISO 5725-6: readings
    whose range exceeds f(n) times the standard uncertainty of one are `apart`; then one of them was misread,
    and the median stands for all, as 5.2.3 of that standard has it. Raises ValueError without a reading.

    >>> estimate([Fraction(12), Fraction(13)], 0.5, 1).value
    Fraction(25, 2)
    """
    count = len(readings)
    if not count:
        raise ValueError("Nothing has been read.")
    apart = count > 1 and max(readings) - min(readings) > critical_range(count, gauge, resolution)
    mean = sum(readings, Fraction(0)) / count
    value = Fraction(median(readings)) if apart else mean
    scatter = max(gauge, deviation(readings))
    return Estimate(value, single(scatter, resolution, count), count, apart)


def critical_range(count: int, gauge: float, resolution: float) -> float:
    """How far apart `count` readings of one thing may lie before one of them must be doubted.

    >>> round(critical_range(2, 0.3, 0), 3)
    0.832
    """
    return CRITICAL_RANGE[min(count, MOST)] * single(gauge, resolution)


def deviation(readings: Sequence[Fraction]) -> float:
    """The standard deviation of readings about their mean; 0 of a single one.

    >>> deviation([Fraction(1), Fraction(2), Fraction(3)])
    1.0
    """
    count = len(readings)
    if count == 1:
        return 0.0
    mean = sum(readings, Fraction(0)) / count
    return sqrt(sum((one - mean) ** 2 for one in readings) / (count - 1))
