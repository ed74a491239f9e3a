"""The band proof against portion, a library of intervals: the very pieces, one by one."""

from fractions import Fraction
from itertools import combinations
from random import Random
from typing import Final

import portion

from engine.lint.stretch import Stretch
from tests.engine.lint.random_bands import THIRDS, Node, Written, node
from tests.engine.lint.test_against_z3 import covered

_RANDOM: Final = Random(13)
NODES: Final = [node(_RANDOM, THIRDS) for _ in range(1_000)]


def _low(limit: Written | None) -> portion.Interval:
    """All numbers that a `from` or `over` lets in."""
    if limit is None:
        return portion.open(-portion.inf, portion.inf)
    make = portion.closedopen if limit[0] == "from" else portion.open
    return make(Fraction(limit[1]), portion.inf)


def _high(limit: Written | None) -> portion.Interval:
    """All numbers that an `upto` or `below` lets in."""
    if limit is None:
        return portion.open(-portion.inf, portion.inf)
    make = portion.openclosed if limit[0] == "upto" else portion.open
    return make(-portion.inf, Fraction(limit[1]))


def _domain(node: Node) -> portion.Interval:
    return portion.closed(Fraction(node.low), Fraction(node.high))


def _bands(node: Node) -> list[portion.Interval]:
    return [_low(low) & _high(high) & _domain(node) for low, high in node.bands]


def _told(stretch: Stretch) -> portion.Interval:
    """A stretch of our answer."""
    (low, low_side), (high, high_side) = stretch
    left = portion.OPEN if low_side > 0 else portion.CLOSED
    right = portion.OPEN if high_side < 0 else portion.CLOSED
    return portion.Interval.from_atomic(left, low, high, right)


def test_the_gaps_are_the_same() -> None:
    """What the union of the bands leaves of the plausible range, piece by piece in order."""
    for each in NODES:
        left = _domain(each) - portion.Interval(*_bands(each))
        assert [_told(gap) for gap in covered(each).gaps] == list(left), each


def test_the_overlaps_are_the_same() -> None:
    """What each two bands share."""
    for each in NODES:
        pairs = combinations(enumerate(_bands(each)), 2)
        shared = {(a, b, one & other) for (a, one), (b, other) in pairs if one & other}
        assert {(a, b, _told(both)) for a, b, both in covered(each).overlaps} == shared, each


def test_the_unused_bands_are_the_same() -> None:
    """Bands that hold nothing of the plausible range."""
    for each in NODES:
        assert covered(each).unused == tuple(k for k, band in enumerate(_bands(each)) if band.empty), each
