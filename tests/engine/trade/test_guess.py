"""What may have been meant by a number that cannot be right."""

from fractions import Fraction

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from engine.quantity import Quantity, convert, dimension, units
from engine.trade.guess import asked, guesses

LENGTHS = [unit for unit in units() if dimension(unit) == "length"]
TYPED = st.builds(
    Quantity, st.fractions(-10_000, 10_000, max_denominator=1000).filter(bool), st.sampled_from(LENGTHS)
)


@pytest.mark.parametrize(
    ("typed", "unit", "low", "high", "bare", "first"),
    [
        ("125", "mm", 5, 50, False, "12.5 mm"),
        ("0.125", "mm", 5, 50, True, "0.125 ft"),
        ("77.5", "mm", 1500, 2500, True, "77.5 in"),
        ("8176", "mm", 1500, 1900, False, "1876 mm"),
        ("-5", "mm", 0, 20, False, "5 mm"),
        ("32", "kPa", 150, 400, True, "32 psi"),
        ("2.2", "kPa", 150, 400, True, "2.2 bar"),
        ("80", "rpm", 500, 1100, False, "800 rpm"),
    ],
)
def test_the_likeliest_slip_comes_first(
    typed: str, unit: str, low: int, high: int, *, bare: bool, first: str
) -> None:
    """A bare number had another unit, a number with its unit a slipped point or swapped digits."""
    assert str(guesses(Quantity(Fraction(typed), unit), low, high, unit, bare=bare)[0]) == first


def test_a_number_beyond_every_slip_has_no_guess() -> None:
    """Nothing is offered for the sake of offering."""
    assert guesses(Quantity(Fraction(0), "mm"), 10, 20, "mm") == ()
    assert asked(()) == ""


@given(typed=TYPED, low=st.integers(-2000, 2000), width=st.integers(1, 2000), bare=st.booleans())
def test_every_guess_is_within_the_bounds(*, typed: Quantity, low: int, width: int, bare: bool) -> None:
    """No more than three, each within, none the number itself."""
    found = guesses(typed, low, low + width, "mm", bare=bare)

    assert len(found) <= 3
    assert len(set(found)) == len(found)
    assert all(low <= convert(guess, "mm").value <= low + width for guess in found)
    if not low <= convert(typed, "mm").value <= low + width:
        assert typed not in found


@given(
    st.integers(100, 999), st.sampled_from([Fraction(1, 10), Fraction(10), Fraction(1, 100), Fraction(100)])
)
def test_a_slipped_point_is_found_again(number: int, slip: Fraction) -> None:
    """Whatever was meant, its digits with the point elsewhere lead back to it."""
    meant = Quantity(Fraction(number, 10), "mm")

    found = guesses(Quantity(meant.value * slip, "mm"), meant.value, meant.value, "mm")

    assert meant in found


@given(st.integers(1000, 9999), st.integers(0, 2))
def test_swapped_digits_are_found_again(number: int, at: int) -> None:
    """Two neighbours that changed places lead back to what was meant."""
    digits = list(str(number))
    assume(digits[at + 1] != "0" or at)
    digits[at], digits[at + 1] = digits[at + 1], digits[at]
    typed = Quantity(Fraction("".join(digits)), "mm")
    meant = Quantity(Fraction(number), "mm")

    found = guesses(typed, meant.value, meant.value, "mm")

    assert typed == meant or meant in found


@given(TYPED, st.sampled_from(LENGTHS))
def test_a_number_of_another_unit_is_found_again(meant: Quantity, other: str) -> None:
    """The unit that was left out is among the guesses, or one that is the same amount."""
    exact = convert(meant, "mm").value
    found = guesses(Quantity(meant.value, other), exact, exact, "mm", bare=True)

    assert other == meant.unit or exact in [convert(guess, "mm").value for guess in found]
