"""What would decide readings that are too close to call: which to repeat, and how fine a gauge for which."""

from collections.abc import Iterator, Sequence
from fractions import Fraction
from math import floor, hypot, log10, sqrt
from typing import NamedTuple

from engine.decision.finer import gauge_needed, readings_needed
from engine.errors import Refusal
from engine.interview import limits
from engine.interview.state import State
from engine.interview.sure import Sure, alone, length, percent
from engine.model.tree import Measure, Wanted
from engine.quantity import Quantity, dimension, write


class _Room(NamedTuple):
    """The reading with a gauge that matters most, and the standard uncertainty that it may have."""

    want: Wanted
    allowed: float


def close(state: State, step: Measure, figure: Quantity, band: int, sure: Sure) -> Refusal:
    """Too close to call: how close, and what would decide."""
    words = limits.words(step.bands[band], step.unit, state.sheet)
    wanted = float(state.tree.confidence) * 100
    told = f"{percent(sure.probability)} sure, {wanted:g} % is wanted"
    message = f"Too close to call: {write(figure)}, {words}: {told}."
    ways = [*_repeats(state, step, sure), *_finer(state, step, sure)]
    lead = "" if ways else "It lies so near the limit that no gauge here decides it. "
    ways += ["say that it cannot be told"] if step.unsure else []
    told = ", or ".join((*ways, "take it as it stands"))
    return Refusal("too-close", message, f"{lead}{told[0].upper()}{told[1:]}.", insist=True)


# -- once more


class _Again(NamedTuple):
    """Readings to repeat, and how often: any one of them, or each."""

    wants: Sequence[Wanted]
    times: int
    each: bool = False
    misread: bool = False


def proposed(state: State, step: Measure, sure: Sure) -> tuple[str, ...]:
    """The readings that it is proposed to repeat, by name, that which was read least often first."""
    wants = (want for again in _again(state, step, sure) for want in again.wants)
    return tuple(sorted((want.name for want in wants), key=lambda name: sure.found[name].readings))


def _repeats(state: State, step: Measure, sure: Sure) -> Iterator[str]:
    for again in _again(state, step, sure):
        names = _names(step, again.wants, "and" if again.each else "or")
        why = ", as the readings lie too far apart and one was misread" if again.misread else ""
        yield f"read {names} {_times(again.times)}{' each' if again.each else ''}{why}"


def _again(state: State, step: Measure, sure: Sure) -> Iterator[_Again]:
    """Which reading is to be repeated, and how often: one alone where that does, else all that matter."""
    apart = [want for want in step.readings if sure.found[want.name].apart]
    if apart:
        yield _Again(apart[:1], 1, misread=True)
        return
    matter = [want for want in step.readings if sure.parts[want.name] > 0]
    times = {want: more for want in matter if (more := _more(state, sure, [want])) is not None}
    if times:
        fewest = min(times.values())
        yield _Again([want for want, more in times.items() if more == fewest], fewest)
    elif len(matter) > 1 and (together := _more(state, sure, matter)) is not None:
        yield _Again(matter, together, each=True)


def _more(state: State, sure: Sure, wants: Sequence[Wanted]) -> int | None:
    """How many more readings of each of these would decide; None where ten would not."""
    taken = max(sure.found[want.name].readings for want in wants)
    rest = _rest(sure, wants)

    def after(count: int) -> float:
        return hypot(rest, *(_repeated(state, sure, want, count - taken) for want in wants))

    return readings_needed(taken, after, sure.needed)


def _repeated(state: State, sure: Sure, want: Wanted, more: int) -> float:
    """What a reading adds to the uncertainty of the figure once it was taken so many more times."""
    found = sure.found[want.name]
    repeated = alone(want, state.library.shop.gauges[want.gauge], found.readings + more)
    return sure.parts[want.name] * repeated / found.uncertainty


def _times(more: int) -> str:
    return "once more" if more == 1 else f"{more} more times"


# -- a finer gauge


def _finer(state: State, step: Measure, sure: Sure) -> list[str]:
    """How fine a gauge decides: instead of that which matters most, or all of them finer together."""
    by_gauge: dict[str, list[Wanted]] = {}
    for want in step.readings:
        if sure.parts[want.name] > 0:
            by_gauge.setdefault(want.gauge, []).append(want)
    groups = sorted(by_gauge.values(), key=lambda wants: -_own(sure, wants))
    for wants in groups:
        told = _gauge(state, _room(sure, wants))
        if told:
            for_what = f" for {_names(step, wants, 'and')}" if len(groups) > 1 else ""
            return [f"use a gauge good to {told}{for_what}"]
    scale = sure.needed / sure.uncertainty
    each = [(wants, _gauge(state, _scaled(sure, wants, scale))) for wants in groups]
    if len(each) < 2 or not all(told for _, told in each):
        return []
    fine = (f"{told} for {_names(step, wants, 'and')}" for wants, told in each)
    return [f"use gauges good to {' and '.join(fine)}"]


def _room(sure: Sure, wants: Sequence[Wanted]) -> _Room:
    """What the other readings leave to these."""
    left = sure.needed**2 - _rest(sure, wants) ** 2
    return _scaled(sure, wants, sqrt(max(left, 0.0)) / _own(sure, wants))


def _scaled(sure: Sure, wants: Sequence[Wanted], scale: float) -> _Room:
    most = max(wants, key=lambda want: sure.parts[want.name])
    return _Room(most, sure.found[most.name].uncertainty * scale)


def _gauge(state: State, room: _Room) -> str:
    """How fine, and which gauges of the shop are; empty where none is as fine as that."""
    want, allowed = room
    if allowed <= 0:
        return ""
    shop = state.library.shop.gauges
    fine = sorted(
        gauge.title
        for name, gauge in shop.items()
        if name != want.gauge
        and dimension(gauge.unit) == dimension(want.unit)
        and alone(want, gauge) <= allowed
    )
    mark = _below(gauge_needed(allowed))
    if not fine and mark < length(want, shop[want.gauge]) / 1000:
        return ""
    return write(Quantity(mark, want.unit)) + (f" ({', '.join(fine)})" if fine else "")


def _below(step: float) -> Fraction:
    """A step of one digit that is no coarser.

    >>> str(_below(0.2919)), str(_below(17.5))
    ('1/5', '10')
    """
    unit = Fraction(10) ** floor(log10(step))
    return Fraction(step) // unit * unit


# -- what both ask


def _own(sure: Sure, wants: Sequence[Wanted]) -> float:
    """What these readings add to the uncertainty of the figure together."""
    return hypot(*(sure.parts[want.name] for want in wants))


def _rest(sure: Sure, wants: Sequence[Wanted]) -> float:
    """What all others add."""
    names = {want.name for want in wants}
    return hypot(*(part for name, part in sure.parts.items() if name not in names))


def _names(step: Measure, wants: Sequence[Wanted], word: str) -> str:
    """The readings by their names; `it` where the step has only one."""
    if len(step.readings) == 1:
        return "it"
    names = [want.name for want in wants]
    return f" {word} ".join((", ".join(names[:-1]), names[-1])) if len(names) > 1 else names[0]
