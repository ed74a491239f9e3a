"""Stretches of the number line with open and closed ends, compared exactly.

Each number has three neighbours in order: just below it, itself, just above it. A limit is one of
them, so that `up to 6` ends at 6, `below 6` ends just below it, `over 6` begins just above it - and a
gap or an overlap of a single number is found like any other.
"""

from collections.abc import Iterator, Sequence
from fractions import Fraction
from typing import NamedTuple

from engine.quantity import Quantity, write


class End(NamedTuple):
    """A place on the line: a number, and -1 for just below it, 0 for itself, 1 for just above it."""

    number: Fraction
    side: int

    def after(self) -> "End":
        """The next place; just above a number comes whatever follows it, so it stays."""
        return End(self.number, self.side + 1) if self.side < 1 else self

    def before(self) -> "End":
        """The place before."""
        return End(self.number, self.side - 1) if self.side > -1 else self


class Stretch(NamedTuple):
    """All numbers from one end to another, both included; empty where they stand the wrong way round."""

    low: End
    high: End

    @property
    def empty(self) -> bool:
        """Whether it holds no number at all."""
        return self.low > self.high or (self.low == self.high and self.low.side != 0)

    def meet(self, other: "Stretch") -> "Stretch":
        """What both hold."""
        return Stretch(max(self.low, other.low), min(self.high, other.high))


class Uncovered(NamedTuple):
    """What is wrong with a set of stretches over a domain."""

    gaps: tuple[Stretch, ...]
    #: (first, second, what both hold), by their numbers.
    overlaps: tuple[tuple[int, int, Stretch], ...]
    #: Numbers of the stretches that hold nothing of the domain.
    unused: tuple[int, ...]


def cover(stretches: Sequence[Stretch], domain: Stretch) -> Uncovered:
    """How stretches fail to cover a domain once and only once.

    >>> six, ends = Fraction(6), Stretch(End(Fraction(0), 0), End(Fraction(80), 0))
    >>> below, over = Stretch(ends.low, End(six, -1)), Stretch(End(six, 1), ends.high)
    >>> [said(*gap, "mm") for gap in cover([below, over], ends).gaps]
    ['6 mm']
    """
    inside = [stretch.meet(domain) for stretch in stretches]
    used = sorted((s.low, s.high, number) for number, s in enumerate(inside) if not s.empty)
    unused = tuple(number for number, s in enumerate(inside) if s.empty)
    return Uncovered(tuple(_gaps(used, domain)), tuple(_overlaps(used)), unused)


def _gaps(used: Sequence[tuple[End, End, int]], domain: Stretch) -> Iterator[Stretch]:
    reached = domain.low.before()
    for low, high, _ in used:
        gap = Stretch(reached.after(), low.before())
        if low > reached.after() and not gap.empty:
            yield gap
        reached = max(reached, high)
    rest = Stretch(reached.after(), domain.high)
    if reached < domain.high and not rest.empty:
        yield rest


def _overlaps(used: Sequence[tuple[End, End, int]]) -> Iterator[tuple[int, int, Stretch]]:
    for place, (_, high, number) in enumerate(used):
        for low, other_high, other in used[place + 1 :]:
            if low > high:
                break
            both = Stretch(low, min(high, other_high))
            if not both.empty:
                yield (*sorted((number, other)), both)  # type: ignore[misc]  # reason: two numbers stay two


def said(low: End | None, high: End | None, unit: str) -> str:
    """A stretch in words, without an end that is none.

    >>> six, eight = End(Fraction(6), 1), End(Fraction(8), -1)
    >>> said(six, six, "mm"), said(six, eight, "mm"), said(None, eight, "mm"), said(None, None, "mm")
    ('6 mm', 'over 6 mm, below 8 mm', 'anything below 8 mm', 'anything')
    """
    if low is not None and low == high:
        return write(Quantity(low.number, unit))
    words = []
    if low is not None:
        words.append(f"{('from', 'from', 'over')[low.side + 1]} {write(Quantity(low.number, unit))}")
    if high is not None:
        words.append(f"{('below', 'up to', 'up to')[high.side + 1]} {write(Quantity(high.number, unit))}")
    return ", ".join(words) if len(words) == 2 else " ".join(("anything", *words))
