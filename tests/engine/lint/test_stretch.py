"""Gaps and overlaps on the number line, against trying out every number that could matter."""

from fractions import Fraction
from itertools import combinations

from hypothesis import given
from hypothesis import strategies as st

from engine.lint.stretch import End, Stretch, cover, said

DOMAIN = Stretch(End(Fraction(0), 0), End(Fraction(5), 0))
_NUMBERS = st.integers(0, 10).map(lambda n: Fraction(n, 2))
_STRETCHES = st.builds(
    Stretch,
    st.builds(End, _NUMBERS, st.sampled_from((0, 1))),
    st.builds(End, _NUMBERS, st.sampled_from((-1, 0))),
)


def _holds(stretch: Stretch, number: Fraction) -> bool:
    """Whether a stretch holds a number, told from its ends as a person reads them."""
    low, high = stretch
    above = number > low.number or (number == low.number and low.side == 0)
    return above and (number < high.number or (number == high.number and high.side == 0))


#: Every end that the strategy can give, and a number between each two of them.
_TRIED = tuple(Fraction(n, 4) for n in range(21))


@given(st.lists(_STRETCHES, max_size=6))
def test_gaps_are_the_numbers_that_nothing_holds(stretches: list[Stretch]) -> None:
    """A number lies in a gap exactly when no stretch holds it, whichever ends are open."""
    gaps = cover(stretches, DOMAIN).gaps

    for number in _TRIED:
        assert any(_holds(gap, number) for gap in gaps) is not any(_holds(s, number) for s in stretches)


@given(st.lists(_STRETCHES, max_size=6))
def test_overlaps_are_the_numbers_that_two_hold(stretches: list[Stretch]) -> None:
    """Two stretches are told to overlap on exactly the numbers that both hold."""
    told = {(a, b): both for a, b, both in cover(stretches, DOMAIN).overlaps}

    for (a, first), (b, second) in combinations(enumerate(stretches), 2):
        shared = [n for n in _TRIED if _holds(first, n) and _holds(second, n)]
        both = told.get((a, b))
        assert shared == [n for n in _TRIED if both is not None and _holds(both, n)]


@given(st.lists(_STRETCHES, max_size=6))
def test_unused_hold_nothing(stretches: list[Stretch]) -> None:
    """A stretch is unused exactly when it holds no number of the domain."""
    empty = {k for k, s in enumerate(stretches) if not any(_holds(s, n) for n in _TRIED)}

    assert set(cover(stretches, DOMAIN).unused) == empty


def test_one_number_can_be_a_gap_and_another_an_overlap() -> None:
    """Over [0, 5]: below 0.2, 0.2 to 0.5, 0.5 to below 1, over 1 leave out 1 and share 0.5."""
    fifth, half, one = Fraction("0.2"), Fraction("0.5"), Fraction(1)
    stretches = [
        Stretch(DOMAIN.low, End(fifth, -1)),
        Stretch(End(fifth, 0), End(half, 0)),
        Stretch(End(half, 0), End(one, -1)),
        Stretch(End(one, 1), DOMAIN.high),
    ]
    covered = cover(stretches, DOMAIN)

    assert [said(*gap, "mm") for gap in covered.gaps] == ["1 mm"]
    assert [(a, b, said(*both, "mm")) for a, b, both in covered.overlaps] == [(1, 2, "0.5 mm")]


def test_a_fifth_and_its_decimal_are_one_number() -> None:
    """0.2 and 1/5 leave neither a gap nor an overlap between them."""
    stretches = [Stretch(DOMAIN.low, End(Fraction("0.2"), -1)), Stretch(End(Fraction(1, 5), 0), DOMAIN.high)]

    assert cover(stretches, DOMAIN) == ((), (), ())
