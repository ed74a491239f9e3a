"""Vehicle identification numbers: structure, check digit, model year and slips. All but one are synthetic."""

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from engine.errors import Refusal
from engine.trade.vin import VALUES, YEARS, check_digit, model_years, parts, plain, products, verdict
from engine.trade.vin_slips import slips, swap_escapes, undetected

#: The worked row of 49 CFR 565.15: the number of the example, the check digit still a zero, and its products.
ROW = "1G4AH59H05G118341"
PRODUCTS = (8, 49, 24, 5, 32, 15, 18, 80, 0, 45, 56, 7, 6, 40, 12, 12, 2)
SYNTHETIC = "000AA00A5AA000001"
NUMBERS = st.text(alphabet=sorted(VALUES), min_size=17, max_size=17)
PLACES = st.integers(min_value=0, max_value=16)


def checked(number: str) -> str:
    """The number with its right check digit."""
    digit = check_digit(number)
    assert isinstance(digit, str)
    return number[:8] + digit + number[9:]


def with_sign(number: str, place: int, sign: str) -> str:
    """The number with another character at a place, counted from 0."""
    return number[:place] + sign + number[place + 1 :]


def test_the_worked_row_of_the_regulation() -> None:
    """49 CFR 565.15 prints these products; they add up to 411, which leaves 4."""
    assert products(ROW) == PRODUCTS
    assert sum(PRODUCTS) == 411
    assert check_digit(ROW) == "4"


@pytest.mark.parametrize(
    ("number", "total", "digit"), [("1" * 17, 89, "1"), ("0" * 17, 0, "0"), (SYNTHETIC, 38, "5")]
)
def test_computed_sums(number: str, total: int, digit: str) -> None:
    """Seventeen ones add up to 89 and leave 1; a synthetic number adds up to 38 and leaves 5 (computed)."""
    assert sum(products(number)) == total
    assert check_digit(number) == digit


def test_ten_is_an_x() -> None:
    """A remainder of ten is written X."""
    assert check_digit("00000000000000005") == "X"


@pytest.mark.parametrize(
    ("signs", "value"),
    [("1AJ", 1), ("2BKS", 2), ("3CLT", 3), ("4DMU", 4), ("5ENV", 5), ("6FW", 6), ("7GPX", 7), ("8HY", 8)],
)
def test_characters_of_one_value(signs: str, value: int) -> None:
    """The groups that a check digit cannot tell apart (49 CFR 565.15)."""
    assert {VALUES[sign] for sign in signs} == {value}
    assert set(undetected(signs[0], 1)) == set(signs[1:])


@given(NUMBERS, PLACES, st.sampled_from(sorted(VALUES)))
def test_a_single_slip_is_found_unless_the_value_stays(number: str, place: int, sign: str) -> None:
    """Any one misread character of another value makes the digit wrong, at every place but the ninth."""
    right = checked(number)
    assume(place != 8 and right[place] != sign)
    escapes = check_digit(with_sign(right, place, sign)) == right[8]

    assert escapes == (sign in undetected(right[place], place + 1))


@given(NUMBERS, st.integers(min_value=1, max_value=16))
def test_which_swaps_escape_is_told(number: str, place: int) -> None:
    """Two neighbours swapped leave the digit right exactly when the arithmetic says so."""
    assume(place not in (8, 9))
    right = checked(number)
    swapped = right[: place - 1] + right[place] + right[place - 1] + right[place + 1 :]

    assert (check_digit(swapped) == right[8]) == swap_escapes(right, place)


@given(NUMBERS)
def test_a_right_number_has_no_slips(number: str) -> None:
    """Where the digit fits there is nothing to suggest."""
    assert slips(checked(number)) == ()

    found = verdict(checked(number))

    assert not isinstance(found, Refusal)
    assert found[0] == "right"


@given(
    NUMBERS, PLACES, st.sampled_from([("8", "B"), ("5", "S"), ("2", "Z"), ("6", "G"), ("U", "V"), ("M", "N")])
)
def test_a_misread_look_alike_is_among_the_slips(number: str, place: int, pair: tuple[str, str]) -> None:
    """Where one character was taken for its look-alike, the number meant is suggested."""
    assume(place != 8)
    meant = checked(with_sign(number, place, pair[0]))
    found = slips(with_sign(meant, place, pair[1]))

    assert not isinstance(found, Refusal)
    assert meant in [slip.number for slip in found]


@given(NUMBERS, st.integers(min_value=0, max_value=15))
def test_swapped_neighbours_are_among_the_slips(number: str, place: int) -> None:
    """Where two neighbours changed places, the number meant is suggested, unless the digit still fits."""
    meant = checked(number)
    typed = meant[:place] + meant[place + 1] + meant[place] + meant[place + 2 :]
    assume(verdict(typed)[0] != "right")
    found = slips(typed)

    assert not isinstance(found, Refusal)
    assert meant in [slip.number for slip in found]


@given(st.text(max_size=20))
def test_every_slip_is_a_number_that_fits(text: str) -> None:
    """Whatever is typed, a suggestion is a whole number with a right digit, and each comes once."""
    found = slips(text)

    if not isinstance(found, Refusal):
        assert [verdict(slip.number)[0] for slip in found] == ["right"] * len(found)
        assert len({slip.number for slip in found}) == len(found)


def test_letters_that_are_never_used_are_read_as_digits() -> None:
    """O and Q are meant as 0, I as 1."""
    found = slips("O0QAA00A5AA00000I")

    assert not isinstance(found, Refusal)
    assert [slip.number for slip in found] == [SYNTHETIC]


@pytest.mark.parametrize("typed", ["000AA00A5AAA000001", "000AA00A5AA00001"])
def test_a_character_doubled_or_dropped_is_told(typed: str) -> None:
    """A number of 18 or 16 characters leads back to the one of 17."""
    found = slips(typed)

    assert not isinstance(found, Refusal)
    assert SYNTHETIC in [slip.number for slip in found]


@pytest.mark.parametrize("typed", ["", "123", "1" * 19, "Ä" * 17])
def test_what_is_far_away_is_refused(typed: str) -> None:
    """Nothing is guessed from a fragment."""
    assert isinstance(slips(typed), Refusal)


def test_blanks_hyphens_and_small_letters_do() -> None:
    """People write numbers in groups."""
    assert plain(" 000aa00a5-aa 000001 ") == SYNTHETIC


@pytest.mark.parametrize(("place", "sign"), [(1, "I"), (4, "O"), (17, "Q"), (9, "?"), (3, "\x1b"), (2, "Ä")])
def test_a_character_that_no_number_has_is_told_by_its_place(place: int, sign: str) -> None:
    """The place is counted from one, and nothing unprintable comes back."""
    refusal = plain(with_sign(SYNTHETIC, place - 1, sign))

    assert isinstance(refusal, Refusal)
    assert f"Character {place} " in refusal.message
    assert refusal.message.isprintable()


@pytest.mark.parametrize(("text", "words"), [("1" * 16, "One is missing"), ("1" * 20, "3 are too many")])
def test_another_length_is_told(text: str, words: str) -> None:
    """17 characters and no other length."""
    refusal = plain(text)

    assert isinstance(refusal, Refusal)
    assert words in refusal.cure


def test_the_parts_stand_where_the_standard_puts_them() -> None:
    """1-3, 4-8, 9, 10, 11 and 12-17 (ISO 3779)."""
    assert parts("ABCDEFGH1JKLMNPRS") == ("ABC", "DEFGH", "1", "J", "K", "LMNPRS", False)


def test_a_small_maker_has_a_longer_name() -> None:
    """A 9 in the third place: characters 12 to 14 go on with the maker's (49 CFR 565.15)."""
    assert parts("AB9DEFGH1JKLMNPRS") == ("AB9LMN", "DEFGH", "1", "J", "K", "PRS", True)


@pytest.mark.parametrize(("number", "word"), [("11111111211111111", "wrong"), ("W" * 17, "unchecked")])
def test_a_wrong_digit_counts_in_north_america_only(number: str, word: str) -> None:
    """Elsewhere it is no more than a hint (from memory)."""
    assert verdict(number)[0] == word


#: 49 CFR 565.15, table of years: the codes of 1980 to 2009, one a year; 2010 begins anew.
IN_ORDER = "ABCDEFGHJKLMNPRSTVWXY123456789"
#: 49 CFR 565.15: the code, and the years it stands for.
CODES = [
    ("A", 1980, 2010),
    ("L", 1990, 2020),
    ("R", 1994, 2024),
    ("S", 1995, 2025),
    ("T", 1996, 2026),
    ("Y", 2000, 2030),
    ("1", 2001, 2031),
    ("9", 2009, 2039),
]


@pytest.mark.parametrize(("code", "early", "late"), CODES)
def test_the_tenth_character_is_the_model_year(code: str, early: int, late: int) -> None:
    """A letter or digit comes back after thirty years; the seventh place tells which, on a light vehicle."""
    digit, letter = f"AAAAAA0A0{code}AAAAAAA", f"AAAAAAAA0{code}AAAAAAA"

    assert model_years(digit) == model_years(letter) == (early, late)
    assert model_years(digit, light=True) == (early,)
    assert model_years(letter, light=True) == (late,)
    assert model_years(letter, light=False) == (early, late)


@pytest.mark.parametrize("sign", ["U", "Z", "0"])
def test_some_characters_stand_for_no_year(sign: str) -> None:
    """U, Z and 0 are no year codes; outside North America the place may hold anything."""
    refusal = model_years(f"AAAAAAAA0{sign}AAAAAAA")

    assert isinstance(refusal, Refusal)
    assert refusal.kind == "no-year"


@pytest.mark.parametrize(("years", "code"), list(enumerate(IN_ORDER)))
def test_every_code_of_the_table(years: int, code: str) -> None:
    """One code a year, from 1980 and again from 2010."""
    assert model_years(f"AAAAAA0A0{code}AAAAAAA") == (1980 + years, 2010 + years)


def test_thirty_codes_for_thirty_years() -> None:
    """No code stands twice, and the five look-alikes are left out."""
    assert len(set(YEARS)) == 30
    assert not set("IOQUZ0") & set(YEARS)


@pytest.mark.parametrize("function", [parts, check_digit, verdict, model_years])
def test_what_is_no_number_is_refused_everywhere(function: object) -> None:
    """Every function turns away what `plain` turns away."""
    assert callable(function)
    assert isinstance(function("O" * 17), Refusal)
