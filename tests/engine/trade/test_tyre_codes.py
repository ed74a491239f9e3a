"""Size codes as they stand on sidewalls."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.errors import Refusal
from engine.trade.tyre_codes import Size, read_size

#: Code, diameter in mm, use, make, load index, speed symbol.
CODES = [
    ("205/55R16", "631.9", "car", "radial", None, ""),
    ("205/55 r 16 91V", "631.9", "car", "radial", 91, "V"),
    ("205/55ZR16", "631.9", "car", "radial", None, ""),
    ("P215/65R15", "660.5", "car", "radial", None, ""),
    ("LT245/75R16", "773.9", "light truck", "radial", None, ""),
    ("245/75R16LT 120/116Q", "773.9", "light truck", "radial", 120, "Q"),
    ("195/75R16C 107/105R", "698.9", "light truck", "radial", 107, "R"),
    ("T125/70D15", "556", "temporary spare", "diagonal", None, ""),
    ("T125/70-15 95M", "556", "temporary spare", "diagonal", 95, "M"),
    ("31x10.50R15", "787.4", "car", "radial", None, ""),
    ("31X10.50R15LT 109Q", "787.4", "light truck", "radial", 109, "Q"),
    ("33×12.5-15", "838.2", "car", "diagonal", None, ""),
    ("225/40R18 92W XL", "637.2", "car", "radial", 92, "W"),
    ("285/30R20 (99Y)", "679", "car", "radial", 99, "(Y)"),
    ("225/40R18 92H M+S", "637.2", "car", "radial", 92, "H"),
    ("P235/75R15 105S", "733.5", "car", "radial", 105, "S"),
    ("P275/60R20 114S", "838", "car", "radial", 114, "S"),
    ("LT265/70R17 121/118S", "802.8", "light truck", "radial", 121, "S"),
    ("LT265/70R17/E 121/118S", "802.8", "light truck", "radial", 121, "S"),
    ("35x12.50R20LT/E 121Q", "889", "light truck", "radial", 121, "Q"),
    ("T155/90D16 110M", "685.4", "temporary spare", "diagonal", 110, "M"),
    ("T155/90D16110M", "685.4", "temporary spare", "diagonal", 110, "M"),
    ("295/30R30 105Y", "939", "car", "radial", 105, "Y"),
    ("220/55R390 88T", "632", "car", "radial", 88, "T"),
    ("220/55R390 100T", "632", "car", "radial", 100, "T"),
    ("195/65VR15", "634.5", "car", "radial", None, "V"),
    ("185/60HR14 82H", "577.6", "car", "radial", 82, "H"),
    ("HL245/40R20 103Y", "704", "car", "radial", 103, "Y"),
    ("225/60R16 98Y RF", "676.4", "car", "radial", 98, "Y"),
    ("220/55R390", "632", "car", "radial", None, ""),
]


#: Codes without an aspect ratio, and mm over all of the standard's tables, within 0.5 % (from memory).
FULL = [("165R13", 596), ("185R14C", 650), ("185R14C 102/100R", 650), ("195R14C", 666), ("175SR13", 608)]


@pytest.mark.parametrize(("code", "diameter"), FULL)
def test_an_aspect_ratio_that_is_left_out(code: str, diameter: float) -> None:
    """Older radials are about 80 % high."""
    size = read_size(code)

    assert isinstance(size, Size)
    assert float(size.diameter) == pytest.approx(diameter, rel=5e-3)


@pytest.mark.parametrize(("code", "diameter", "use", "make", "load", "speed"), CODES)
def test_a_size_code_says_what_the_tyre_is(
    *, code: str, diameter: str, use: str, make: str, load: int | None, speed: str
) -> None:
    """Diameter, use, make and service description; geometry by UN R30, rims of 100 and more in mm."""
    size = read_size(code)

    assert isinstance(size, Size)
    assert (size.diameter, size.use, size.make) == (Fraction(diameter), use, make)
    assert (size.load, size.speed) == (load, speed)


@pytest.mark.parametrize(
    ("code", "cure"),
    [
        ("205/55R61", "Did you mean 16?"),
        ("2055/55R16", "Did you mean 205.5"),
        ("250/555R16", "Did you mean 55.5"),
        ("205/55R5", "between 8 and 30"),
        ("205/55R7.5", "between 8 and 30"),
        ("205-55-16", "as it stands on the sidewall"),
        ("14x10.50R15", "as it stands on the sidewall"),
        ("", "as it stands on the sidewall"),
        ("205/55R16 91O", "as it stands on the sidewall"),
        ("२०५/55R16", "as it stands on the sidewall"),
    ],
)
def test_what_is_no_code_is_refused_with_its_cure(code: str, cure: str) -> None:
    """A slip in a number is told as such, anything else gets an example."""
    refusal = read_size(code)

    assert isinstance(refusal, Refusal)
    assert cure in refusal.cure


@given(st.integers(100, 500), st.integers(20, 100), st.integers(8, 30))
def test_a_metric_code_is_read_back_exactly(width: int, aspect: int, rim: int) -> None:
    """The diameter is that of the formula, whatever the numbers."""
    size = read_size(f"{width}/{aspect}R{rim}")

    assert isinstance(size, Size)
    assert size.diameter == Fraction("25.4") * rim + Fraction(2 * width * aspect, 100)


@given(st.text(max_size=60))
def test_any_text_is_read_or_refused(code: str) -> None:
    """Nothing on a sidewall ends in an exception."""
    assert isinstance(read_size(code), Size | Refusal)
