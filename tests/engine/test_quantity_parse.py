"""What a technician types: what is read, and what is refused with which cure."""

from fractions import Fraction

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from engine.errors import Refusal
from engine.quantity import Quantity, convert, dimension, parse, units

#: typed, wanted unit, expected number in that unit
READ = [
    # plain numbers mean the wanted unit
    ("12.5", "mm", "12.5"),
    ("0", "mm", "0"),
    ("0 mm", "mm", "0"),
    ("-3", "°C", "-3"),
    ("+5", "mm", "5"),
    ("−3 °C", "°C", "-3"),
    ("- 3", "mm", "-3"),
    ("–3", "mm", "-3"),
    (".5", "in", "0.5"),
    ("12.", "mm", "12"),
    ("1e3", "mm", "1000"),
    ("1.5E-2 m", "mm", "15"),
    ("0.0000000000001234 km", "mm", "0.0000001234"),
    ("  12 mm  ", "mm", "12"),
    ("12\u00a0mm", "mm", "12"),
    ("12\u202fmm", "mm", "12"),
    ("12mm", "mm", "12"),
    # a comma that can only be a decimal comma
    ("12,5 mm", "mm", "12.5"),
    (",5", "mm", "0.5"),
    ("0,123", "mm", "0.123"),
    ("1,2345", "mm", "1.2345"),
    ("1,23", "mm", "1.23"),
    ("1234,567", "mm", "1234.567"),
    ("1.234", "mm", "1.234"),
    # fractions
    ("1/2 in", "in", "1/2"),
    ('1 3/8"', "in", "11/8"),
    ("1-3/8 in", "in", "11/8"),
    ("-1 3/8 in", "in", "-11/8"),
    ("11/8", "in", "11/8"),
    ("½", "in", "1/2"),
    ("1½″", "in", "3/2"),
    ("1 ½ in", "in", "3/2"),
    ("2⅞ in", "in", "23/8"),
    ("3⁄4 in", "in", "3/4"),
    # the same thing in another unit
    ("1/2 in", "mm", "12.7"),
    ("1 3/8”", "mm", "34.925"),
    ("212 F", "°C", "100"),
    ("25 ft-lb", "lbf·in", "300"),
    ("2 quarts", "L", "1.892705892"),
    ("1136522500 US gal", "imp qt", "3785411784"),
    ("1 imp pt", "mL", "568.26125"),
    ("1 bar", "kPa", "100"),
    ("10 kp·m", "N·m", "98.0665"),
    ("50 Hz", "rpm", "3000"),
    ("100 cSt", "mm²/s", "100"),
    ("1.5 h", "min", "90"),
]

#: typed spelling -> unit
SPELT = {
    "N·m": "Nm|N.m|N m|N-m|nm|NM|N⋅m|N•m|Newton metres|newton-meter|newton metre",
    "lbf·ft": "lb-ft|ft-lb|ft·lbf|lbf-ft|lb ft|lb.ft|ft lbs|FT-LBS|foot-pounds|pound-feet|lbf ft",
    "lbf·in": "lb·in|in-lb|in lbs|lbf-in|inch-pounds|in·lbf|in.-lb.",
    "kgf·m": "kgf m|kg·m|kgm|mkp",
    "°C": "deg C|C|c|℃|degrees Celsius|celsius|º C|° C|degC",
    "°F": "deg F|F|f|℉|fahrenheit|degrees F",
    "US qt": "qt|QT|quart|quarts|US quart|U.S. qt|us qt",
    "imp qt": "imp quart|imperial quarts|UK qt|imp. qt",
    "L": "l|litre|litres|liter|liters|Litres",
    "mL": "ml|millilitres",
    "cm³": "cm3|cc|CC|cm^3",
    "in": '″|"|”|inch|inches|IN|in.',
    "ft": "'|′|feet|foot",
    "rpm": "r/min|rev/min|RPM",
    "Ω": "ohm|ohms|Ohm|ω|\u2126",
    "kΩ": "kohm|kilohm|KΩ|k\u2126",
    "km/h": "kmh|kph|KM/H",
    "mm²/s": "mm2/s|cSt|CST",
    "%": "percent|per cent",
    "°": "deg|degrees|º",
    "psi": "PSI|lbf/in²|lb/in2",
    "inHg": 'in Hg|inhg|"Hg',
    "s": "sec|seconds|S",
    "kW": "KW|kw|kilowatts",
}
SPELLINGS = [(word, unit) for unit, words in SPELT.items() for word in words.split("|")]

#: typed, wanted unit, kind of refusal, words of the message or of the cure
REFUSED = [
    ("1,234", "mm", "ambiguous", ["`1.234 mm`", "`1234 mm`"]),
    ("-12,500 in", "mm", "ambiguous", ["`-12.500 in`", "`-12500 in`"]),
    ("1,234e2", "mm", "ambiguous", ["1.234e2", "1234e2"]),
    ("2 qt", "imp qt", "ambiguous", ["`US qt`", "`imp qt`"]),
    ("3 pints", "imp pt", "ambiguous", ["`US pt`", "`imp pt`"]),
    ("1,234.5", "mm", "number", ["thousands"]),
    ("1.234,5", "mm", "number", ["thousands"]),
    ("1 234 mm", "mm", "number", ["thousands"]),
    ("1'234", "mm", "number", ["thousands"]),
    ("12_000", "mm", "number", ["thousands"]),
    ("5-6 mm", "mm", "number", ["one number"]),
    ("5–6 mm", "mm", "number", ["one number"]),
    ("1/2/3", "in", "number", ["one number"]),
    ("1.5/2", "in", "number", ["one number"]),
    ("½½", "in", "number", ["one number"]),
    ("1.5½", "in", "number", ["one number"]),
    ("1/0", "in", "fraction", ["`1 3/8`"]),
    ("1 11/8", "in", "fraction", ["`1 3/8`"]),
    ("1 8/8", "in", "fraction", ["`1 3/8`"]),
    ("1e16", "mm", "digits", ["15"]),
    ("1e-16", "mm", "digits", ["15"]),
    ("1e99999999999999999999", "mm", "digits", ["15"]),
    ("1234567890.123456", "mm", "digits", ["15"]),
    ("1" * 41, "mm", "too-long", ["40"]),
    ("", "mm", "no-number", ["Nothing was typed", "`12.5 mm`"]),
    (" \u00a0 ", "mm", "no-number", ["Nothing was typed"]),
    ("mm", "mm", "no-number", ["`mm`"]),
    ("nan", "mm", "no-number", ["`nan`"]),
    ("inf", "mm", "no-number", ["`inf`"]),
    ("-infinity", "mm", "no-number", ["-infinity"]),
    ("about 5", "mm", "no-number", ["about 5"]),
    ("٣", "mm", "no-number", ["٣"]),
    (".", "mm", "no-number", ["`.`"]),
    ("--5", "mm", "no-number", ["--5"]),
    ("12 milimeter", "mm", "unknown-unit", ["Did you mean `mm`"]),
    ("12 newton meeters", "N·m", "unknown-unit", ["Did you mean `N·m`"]),
    ("4.7 k", "Ω", "unknown-unit", ["Did you mean `kΩ`?"]),
    ("5 MV", "mV", "unknown-unit", ["Did you mean `mV`"]),
    ("12 `mm`", "mm", "unknown-unit", ["`'mm'`"]),
    ("12 bananas", "mm", "unknown-unit", ["`bananas`", "`mm` or `in`"]),
    ("5' 6\"", "ft", "unknown-unit", ["no unit"]),
    ("1e", "mm", "unknown-unit", ["`e`"]),
    ("32 kPa", "mm", "other-dimension", ["`kPa` is a pressure", "a length", "`mm` or `in`"]),
    ("90°", "°C", "other-dimension", ["is an angle", "`°C` or `°F`"]),
    ("25 lb", "lbf·ft", "other-dimension", ["is a mass", "a torque"]),
    ("5 kg", "N", "other-dimension", ["is a mass", "a force"]),
    ("5 V", "A", "other-dimension", ["is a voltage", "a current", "`A`."]),
]

#: Signs that make a parser of readings stumble, more often than any text would have them.
TRICKY = st.text(alphabet="0123456789.,/+-−eE_'\"½⅞ \u00a0°mMinNCFkΩ·²%\n\x1b\u202e\ud800", max_size=45)


@pytest.mark.parametrize(("typed", "unit", "expected"), READ)
def test_what_is_typed_is_read_exactly(typed: str, unit: str, expected: str) -> None:
    """Decimals, commas, fractions and units are read exactly, and convert into the wanted unit."""
    found = parse(typed, unit)

    assert isinstance(found, Quantity)
    assert convert(found, unit) == Quantity(Fraction(expected), unit)


def test_a_reading_keeps_the_unit_that_was_typed() -> None:
    """Whoever types inches where millimetres are wanted sees inches first, then what they make."""
    assert parse("1/2 in", "mm") == Quantity(Fraction(1, 2), "in")


@pytest.mark.parametrize(("word", "unit"), SPELLINGS)
def test_a_unit_is_known_by_its_usual_spellings(word: str, unit: str) -> None:
    """However a unit is usually written, seven of it are seven of it."""
    assert parse(f"7 {word}", unit) == Quantity(Fraction(7), unit)
    assert parse(f"7{word}", unit) == Quantity(Fraction(7), unit)


@pytest.mark.parametrize(("typed", "unit", "kind", "words"), REFUSED)
def test_what_is_unclear_is_refused_with_its_cure(typed: str, unit: str, kind: str, words: list[str]) -> None:
    """Nothing is guessed: the refusal says what is wrong and what to type."""
    refusal = parse(typed, unit)

    assert isinstance(refusal, Refusal)
    assert refusal.kind == kind
    assert [word for word in words if word not in str(refusal)] == []


@pytest.mark.parametrize("typed", ["`1.234 mm`", "`1234 mm`"])
def test_the_cure_of_an_ambiguous_comma_can_be_typed(typed: str) -> None:
    """Both meanings offered for `1,234` are taken when typed as offered."""
    refusal = parse("1,234", "mm")

    assert isinstance(refusal, Refusal)
    assert typed in refusal.cure
    assert isinstance(parse(typed.strip("`"), "mm"), Quantity)


@given(typed=st.text() | TRICKY, unit=st.sampled_from(units()))
@example(typed="1e-999999999999999999999999", unit="mm")
@example(typed="\ud800", unit="mm")
@example(typed="5\x1b[2J", unit="mm")
def test_any_text_is_read_or_refused(typed: str, unit: str) -> None:
    """No text whatever makes the reader fail, and no refusal carries a control sign to the terminal."""
    found = parse(typed, unit)

    assert str(found).isprintable()
    assert isinstance(found, Refusal) or dimension(found.unit) == dimension(unit)


@given(value=st.decimals(allow_nan=False, allow_infinity=False, min_value=-9999, max_value=9999, places=4))
def test_point_and_comma_mean_the_same(value: object) -> None:
    """A number with four decimals is read alike with a point and with a comma."""
    point = str(value)

    assert parse(point, "mm") == Quantity(Fraction(point), "mm")
    assert parse(point.replace(".", ","), "mm") == Quantity(Fraction(point), "mm")


@given(whole=st.integers(0, 99), top=st.integers(1, 63), bits=st.integers(1, 6))
def test_fractions_of_an_inch_are_exact(whole: int, top: int, bits: int) -> None:
    """A whole number and a proper fraction are added, with a space or a hyphen between them."""
    bottom = 2**bits
    top = top % bottom
    expected = Quantity(whole + Fraction(top, bottom), "in")

    assert parse(f'{whole} {top}/{bottom}"', "in") == expected
    assert parse(f"{whole}-{top}/{bottom} in", "in") == expected


def test_an_unknown_wanted_unit_is_the_callers_mistake() -> None:
    """Whoever asks for a reading names a unit that exists."""
    with pytest.raises(ValueError, match="furlong"):
        parse("1", "furlong")
