"""What may be read, parted so finely that both versions of a measuring step lead each part one way."""

from collections.abc import Iterator
from fractions import Fraction
from itertools import chain
from typing import NamedTuple

from engine.lint.bands import number
from engine.lint.stretch import End, Stretch
from engine.model.tree import Band, Limit, Measure
from engine.model.vehicle import Sheet
from engine.quantity import Quantity, convert, dimension


class Part(NamedTuple):
    """Readings that go one way in each version; empty where a version has no band for them."""

    #: In the unit of the old step, or of the one that is there.
    stretch: Stretch
    old: str
    new: str


class Standing(NamedTuple):
    """A measuring step for one vehicle; without a sheet its limits must be plain numbers."""

    step: Measure
    sheet: Sheet | None

    @property
    def known(self) -> bool:
        """Whether every limit of the step is a number here."""
        ends = (end for band in self.step.bands for end in (band.low, band.high) if end and end.sheet)
        return all(self._has(end.sheet or "") for end in ends)

    def _has(self, name: str) -> bool:
        amount = self.sheet.limits.get(name) if self.sheet else None
        return amount is not None and dimension(amount.unit) == dimension(self.step.unit)


def refined(old: Standing | None, new: Standing | None) -> tuple[Part, ...]:
    """The parts of all that may be read, from the least to the greatest; neighbours that agree are one."""
    unit = next(side.step.unit for side in (old, new) if side)
    was, now = _placed(old, unit), _placed(new, unit)
    cuts = sorted(_cuts((*was, *now), _domain(old, new, unit)))
    parts: list[Part] = []
    for low, high in zip(cuts[:-1], (cut.before() for cut in cuts[1:]), strict=True):
        stretch = Stretch(low, high)
        if stretch.empty:
            continue
        part = Part(stretch, _then(was, stretch), _then(now, stretch))
        if parts and parts[-1][1:] == part[1:]:
            parts[-1] = parts[-1]._replace(stretch=Stretch(parts[-1].stretch.low, high))
        else:
            parts.append(part)
    return tuple(parts)


_Placed = tuple[tuple[End | None, End | None, str], ...]


def _placed(side: Standing | None, unit: str) -> _Placed:
    """The bands with their ends in one unit; None is an open end."""
    if side is None:
        return ()
    return tuple((_low(side, band, unit), _high(side, band, unit), band.then) for band in side.step.bands)


def _low(side: Standing, band: Band, unit: str) -> End | None:
    return band.low and End(_number(side, band.low, unit), 0 if band.low.owned else 1)


def _high(side: Standing, band: Band, unit: str) -> End | None:
    return band.high and End(_number(side, band.high, unit), 0 if band.high.owned else -1)


def _number(side: Standing, limit: Limit, unit: str) -> Fraction:
    own = side.step.unit
    return convert(Quantity(number(limit, own, side.sheet), own), unit).value


def _cuts(bands: _Placed, domain: Stretch) -> set[End]:
    """Where a part may begin, and the place after the last."""
    ends = chain.from_iterable((low, high and high.after()) for low, high, _ in bands)
    return {domain.low, domain.high.after(), *(end for end in ends if end)}


def _domain(old: Standing | None, new: Standing | None, unit: str) -> Stretch:
    """From the least to the greatest number that is plausible or a limit."""
    numbers = [value for side in (old, new) if side for value in _plausible(side.step, unit)]
    bands = (*_placed(old, unit), *_placed(new, unit))
    numbers += [end.number for low, high, _ in bands for end in (low, high) if end]
    return Stretch(End(min(numbers), 0), End(max(numbers), 0))


def _plausible(step: Measure, unit: str) -> Iterator[Fraction]:
    """The ends of what may be compared: a reading, or a figure of several, never below nought."""
    wanted = step.readings[0]
    if step.figure == "relative-spread":
        yield from (Fraction(0), Fraction(100))
    elif step.figure:
        yield from (Fraction(0), convert(Quantity(wanted.high - wanted.low, step.unit), unit).value)
    else:
        yield from (convert(Quantity(value, wanted.unit), unit).value for value in (wanted.low, wanted.high))


def _then(bands: _Placed, stretch: Stretch) -> str:
    for low, high, then in bands:
        if (low is None or low <= stretch.low) and (high is None or stretch.high <= high):
            return then
    return ""
