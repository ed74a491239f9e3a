"""Readings on both sides of every limit of a measuring step, as a gauge would show them."""

from collections.abc import Callable, Iterator, Mapping
from fractions import Fraction
from functools import cache
from itertools import pairwise
from typing import Final, NamedTuple

from engine.errors import Refusal
from engine.interview.limits import chosen
from engine.interview.reading import compared, taken
from engine.interview.state import State
from engine.model.tree import Measure, Wanted
from engine.proof.first_walk import typed
from engine.proof.sides import End, mark, sides, tried

#: Between the least and the most that is believed of a reading, so many places are looked at.
_PLACES: Final = 40
#: Where the other readings stand meanwhile, as a share of what is believed of them.
_SHARES: Final = tuple(map(Fraction, ("1/2", "1/4", "3/4", "0", "1/10", "9/10", "1")))


class Banded(NamedTuple):
    """Readings as they would be typed, the number of their band, and the ends of it that they try."""

    band: int
    typed: Mapping[str, str]
    ends: frozenset[End] = frozenset()


def beside_limits(state: State, step: Measure) -> tuple[Banded, ...]:
    """For each band that readings come to, readings that try each of its limits: two at most.

    One reading moves while the others stand; where the band changes, the two neighbouring marks of its
    gauge are taken. A band whose limits nothing tries within what is believed gets whatever comes to it.
    """
    found: dict[tuple[int, End | None], Banded] = {}
    wanted = {*sides(step)}
    for base in _bases(state, step):
        for want in step.readings:
            for banded in _turning(state, step, base, want):
                for end in banded.ends or (None,):
                    found.setdefault((banded.band, end), banded)
        if wanted <= found.keys() and {band for band, _ in found} == set(range(len(step.bands))):
            break
    limited = {band for band, end in found if end}
    kept = [key for key in found if key[1] or key[0] not in limited]
    ordered = sorted(kept, key=lambda key: (key[0], key[1] == "high"))
    return tuple({id(found[key]): found[key] for key in ordered}.values())


def _bases(state: State, step: Measure) -> Iterator[Mapping[str, Fraction]]:
    """Where all readings stand at first: at what the sheet calls normal, then at shares of the range."""
    for reference in step.show:
        held = state.sheet.limits.get(reference) if reference.endswith(".nominal") else None
        if held and all(w.unit == held.unit and w.low <= held.value <= w.high for w in step.readings):
            yield {want.name: held.value for want in step.readings}
    for share in _SHARES:
        yield {want.name: _mark(state, want, share) for want in step.readings}


def _turning(state: State, step: Measure, base: Mapping[str, Fraction], want: Wanted) -> Iterator[Banded]:
    """What is met as one reading moves up: any band, both ends, and the marks beside each change."""

    @cache
    def banded(value: Fraction) -> Banded:
        read = {name: typed(each) for name, each in {**base, want.name: value}.items()}
        return Banded(_band(state, step, read), read)

    by = mark(want, state.library.shop.gauges[want.gauge])
    marks = [_mark(state, want, Fraction(place, _PLACES)) for place in range(_PLACES + 1)]
    for last in (want.low, want.high):
        if banded(last).band >= 0:
            yield _trying(state, step, banded(last))
    for low, high in pairwise(marks):
        if banded(low).band >= 0:
            yield banded(low)
        at = low
        while -1 < banded(at).band != banded(high).band > -1:  # several limits may lie between two places
            last, at = _first_change(banded, at, high, by)
            yield _trying(state, step, banded(last))
            yield _trying(state, step, banded(at))


def _band(state: State, step: Measure, read: Mapping[str, str]) -> int:
    """The number of the band that believable readings come to, however near to its end; -1 where to none."""
    made = taken(step, read)
    if isinstance(made, Refusal):
        return -1
    values = {name: each for name, (each,) in made.items()}
    if not all(want.low <= values[want.name].value <= want.high for want in step.readings):
        return -1
    figure = compared(step, values, state.sheet)
    band = None if isinstance(figure, Refusal) else chosen(step, figure.value, state.sheet)
    return -1 if band is None else band


def _trying(state: State, step: Measure, banded: Banded) -> Banded:
    """The same, with the ends of its band that it tries."""
    made = taken(step, banded.typed)
    assert not isinstance(made, Refusal), "it came to a band"
    read = {name: values[0] for name, values in made.items()}
    ends = {end for _, end in tried(step, read, state.sheet, state.library.shop.gauges)}
    return banded._replace(ends=frozenset(ends))


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
    step = mark(want, state.library.shop.gauges[want.gauge])
    return want.low + share * (want.high - want.low) // step * step
