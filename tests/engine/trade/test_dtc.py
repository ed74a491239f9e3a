"""Trouble codes by their structure."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.errors import Refusal
from engine.trade.dtc import MAKER, RESERVED, STANDARD, decode, decode_hex, read

#: The first is printed in SAE J2012 texts; the rest are computed by the same rule.
BITS = [(0x0135, "P0135"), (0x0143, "P0143"), (0x4035, "C0035"), (0xC100, "U0100"), (0x9234, "B1234")]
#: Who defines a code: SAE J2012, ISO 15031-6; the rows of P3 from memory.
OWNERS = [
    ("P0123", STANDARD),
    ("P1123", MAKER),
    ("P2123", STANDARD),
    ("P3012", MAKER),
    ("P33FF", MAKER),
    ("P3400", STANDARD),
    ("P3999", STANDARD),
    ("P3A00", RESERVED),
    ("C0035", STANDARD),
    ("C1035", MAKER),
    ("C2035", MAKER),
    ("C3035", RESERVED),
    ("B0035", STANDARD),
    ("B1035", MAKER),
    ("B2035", MAKER),
    ("B3035", RESERVED),
    ("U0100", STANDARD),
    ("U1100", MAKER),
    ("U2100", MAKER),
    ("U3100", "maker or reserved"),
]
#: What the third character of P0 and P2 says: SAE J2012; that P2A is no hybrid drive, from memory.
PARTS = [
    ("P0011", "fuel and air metering"),
    ("P0135", "fuel and air metering"),
    ("P0234", "fuel and air metering"),
    ("P0300", "ignition or misfire"),
    ("P0420", "auxiliary emission controls"),
    ("P0500", "vehicle speed and idle control"),
    ("P0600", "computer and outputs"),
    ("P0700", "transmission"),
    ("P0836", "transmission"),
    ("P0900", "transmission"),
    ("P0A00", "hybrid drive"),
    ("P0C00", "hybrid drive"),
    ("P0D00", ""),
    ("P2004", "fuel and air metering"),
    ("P2300", "ignition or misfire"),
    ("P2400", "auxiliary emission controls"),
    ("P2711", "transmission"),
    ("P2A00", "fuel and air metering"),
    ("P2B00", ""),
    ("P3400", ""),
    ("P1700", ""),
    ("C0700", ""),
]


@pytest.mark.parametrize(("bits", "code"), BITS)
def test_two_bytes_are_a_code(bits: int, code: str) -> None:
    """Letter in bits 15-14, second character in 13-12, then three hexadecimal digits."""
    assert decode(bits) == code
    assert decode_hex(f"{bits:04x}") == code
    found = read(code)
    assert not isinstance(found, Refusal)
    assert found.bits == bits


@given(st.integers(min_value=0, max_value=0xFFFF))
def test_every_two_bytes_go_there_and_back(bits: int) -> None:
    """No two codes share their bytes, and every pair of bytes is a code."""
    code = decode(bits)
    assert isinstance(code, str)
    found = read(code)

    assert not isinstance(found, Refusal)
    assert (found.bits, found.code) == (bits, code)


@given(st.integers(min_value=0x10000, max_value=0xFFFFFF))
def test_a_third_byte_is_the_failure_type(bits: int) -> None:
    """Three bytes are a code and its failure type, in either direction."""
    code = decode(bits)
    assert isinstance(code, str)
    found = read(code)

    assert decode_hex(f"0x{bits:06X}") == code
    assert not isinstance(found, Refusal)
    assert found.bits << 8 | int(found.failure, 16) == bits


@pytest.mark.parametrize(("code", "owner"), OWNERS)
def test_who_defines_a_code(code: str, owner: str) -> None:
    """The letter and the second character tell it; P2 is standard as P0 is."""
    found = read(code)

    assert not isinstance(found, Refusal)
    assert found.owner == owner


@pytest.mark.parametrize(("code", "part"), PARTS)
def test_what_part_a_standard_powertrain_code_speaks_of(code: str, part: str) -> None:
    """The third character tells it for ISO/SAE powertrain codes, and for no others."""
    found = read(code)

    assert not isinstance(found, Refusal)
    assert found.part == part


@pytest.mark.parametrize(
    ("letter", "area"), [("P", "powertrain"), ("C", "chassis"), ("B", "body"), ("U", "network")]
)
def test_the_letter_is_the_area(letter: str, area: str) -> None:
    """Four letters for four areas."""
    found = read(f"{letter}0100")

    assert not isinstance(found, Refusal)
    assert found.area == area


@pytest.mark.parametrize(
    ("typed", "kind"),
    [
        ("", "letter"),
        ("X0100", "letter"),
        ("0700", "letter"),
        ("P4100", "class"),
        ("P", "class"),
        ("PO100", "class"),
        ("P0I00", "character"),
        ("P010", "length"),
        ("P01000", "length"),
        ("P01G0", "length"),
        ("P0100-1", "length"),
        ("P٠100", "class"),
    ],
)
def test_what_is_no_code_is_refused_by_its_first_fault(typed: str, kind: str) -> None:
    """Each fault has its own cure."""
    refusal = read(typed)

    assert isinstance(refusal, Refusal)
    assert refusal.kind == kind


@pytest.mark.parametrize("typed", ["0x01 0x35", "01 35", "0135", "0X0135", " 0x01\t35 "])
def test_bytes_may_be_written_one_by_one(typed: str) -> None:
    """Each with its own 0x, or one for both, or none."""
    assert decode_hex(typed) == "P0135"


@pytest.mark.parametrize("bits", [-1, 0x1000000])
def test_more_than_three_bytes_are_refused(bits: int) -> None:
    """No code is longer."""
    assert isinstance(decode(bits), Refusal)


@pytest.mark.parametrize("typed", ["", "403", "40351", "0x", "ghij", "40351122"])
def test_other_lengths_of_hexadecimal_are_refused(typed: str) -> None:
    """Two bytes or three."""
    assert isinstance(decode_hex(typed), Refusal)
