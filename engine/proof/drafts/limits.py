"""Readings on both sides of every limit of a measuring step, as a gauge would show them."""

from collections.abc import Callable, Iterator, Mapping
from fractions import Fraction
from functools import cache
from itertools import pairwise
from typing import Final, NamedTuple

from engine.interview.reading import measure
from engine.interview.state import State
from engine.model.tree import Measure, Wanted
from engine.proof.first_walk import typed
from engine.records.event import Measured

#: Between the least and the most that is believed of a reading, so many places are looked at.
_PLACES: Final = 40
#: Where the other readings stand meanwhile, as a share of what is believed of them.
_SHARES: Final = tuple(map(Fraction, ("1/2", "1/4", "3/4", "0", "1/10", "9/10", "1")))


class Banded(NamedTuple):
    """Readings as they would be typed, and the number of the band that they come to."""

    band: int
    typed: Mapping[str, str]


def beside_limits(state: State, step: Measure) -> tuple[Banded, ...]:
    """For each band that readings come to, readings next to its limits: two at most.

    One reading moves while the others stand; where the band changes, the two neighbouring marks of its
    gauge are taken. A band that has no limit within what is believed gets whatever comes to it.
    """
    found: dict[tuple[int, str], Banded] = {}
    for base in _bases(state, step):
        for want in step.readings:
            for side, banded in _turning(state, step, base, want):
                found.setdefault((banded.band, side), banded)
        if {band for band, _ in found} == set(range(len(step.bands))):
            break
    limited = {band for band, side in found if side}
    return tuple(each for (band, side), each in sorted(found.items()) if side or band not in limited)


def _bases(state: State, step: Measure) -> Iterator[Mapping[str, Fraction]]:
    """Where all readings stand at first: at what the sheet calls normal, then at shares of the range."""
    for reference in step.show:
        held = state.sheet.limits.get(reference) if reference.endswith(".nominal") else None
        if held and all(w.unit == held.unit and w.low <= held.value <= w.high for w in step.readings):
            yield {want.name: held.value for want in step.readings}
    for share in _SHARES:
        yield {want.name: _mark(state, want, share) for want in step.readings}


def _turning(
    state: State, step: Measure, base: Mapping[str, Fraction], want: Wanted
) -> Iterator[tuple[str, Banded]]:
    """What is met as one reading moves up: any band, and the marks below and above each change of it."""

    @cache
    def banded(value: Fraction) -> Banded:
        read = {name: typed(each) for name, each in {**base, want.name: value}.items()}
        made = measure(state, step, read, insist=False, settle=True)
        return Banded(made.band if isinstance(made, Measured) else -1, read)

    marks = [_mark(state, want, Fraction(place, _PLACES)) for place in range(_PLACES + 1)]
    for low, high in pairwise(marks):
        if banded(low).band >= 0:
            yield "", banded(low)
        at = low
        while -1 < banded(at).band != banded(high).band > -1:  # several limits may lie between two places
            last, at = _first_change(banded, at, high, state.library.shop.gauges[want.gauge].resolution)
            yield "below", banded(last)
            yield "above", banded(at)


def _first_change(
    banded: Callable[[Fraction], Banded], low: Fraction, high: Fraction, step: Fraction
) -> tuple[Fraction, Fraction]:
    """The two neighbouring marks between which the band of the lower place is left."""
    band = banded(low).band
    while high - low > step:
        middle = low + (high - low) / 2 // step * step
        if banded(middle).band == band:
            low = middle
        else:
            high = middle
    return low, high


def _mark(state: State, want: Wanted, share: Fraction) -> Fraction:
    """The mark of the gauge nearest below this share of what is believed of a reading."""
    step = state.library.shop.gauges[want.gauge].resolution
    return want.low + share * (want.high - want.low) // step * step
