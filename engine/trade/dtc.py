"""The structure of a trouble code: who defines it, which part of the vehicle it speaks of, how it travels.

What each code means is in lists that are not free; only the structure is told here.
"""

import re
from typing import Final, NamedTuple

from engine.errors import Refusal
from engine.trade.answers import single
from engine.trade.calculator import Calculator, Input, Output
from engine.trade.inputs import Values

_LETTERS: Final = "PCBU"
_AREAS: Final = {"P": "powertrain", "C": "chassis", "B": "body", "U": "network"}
STANDARD: Final = "ISO/SAE"
MAKER: Final = "maker"
RESERVED: Final = "reserved"
#: Who defines a code, by its letter and second character; P3 and U3 are divided further.
_OWNERS: Final = {
    "P": (STANDARD, MAKER, STANDARD, ""),
    "C": (STANDARD, MAKER, MAKER, RESERVED),
    "B": (STANDARD, MAKER, MAKER, RESERVED),
    "U": (STANDARD, MAKER, MAKER, ""),
}
#: The third character of P0 and P2, all powertrain codes that ISO/SAE defines for the parts named here.
_PARTS: Final = {
    **dict.fromkeys("012", "fuel and air metering"),
    "3": "ignition or misfire",
    "4": "auxiliary emission controls",
    "5": "vehicle speed and idle control",
    "6": "computer and outputs",
    **dict.fromkeys("789", "transmission"),
    **dict.fromkeys("ABC", "hybrid drive"),
}
#: Where P2 parts from P0: P2A goes on with mixture and emissions, and no hybrid drive follows. From memory.
_PARTS_OF_2: Final = {**_PARTS, "A": "fuel and air metering", "B": "", "C": ""}
_DIVIDED: Final = {"P0": _PARTS, "P2": _PARTS_OF_2}


class Code(NamedTuple):
    """A trouble code, taken apart."""

    code: str
    area: str
    #: `ISO/SAE`, `maker` or `reserved`; for U3 `maker or reserved`.
    owner: str
    #: What part of the powertrain an ISO/SAE code speaks of; empty where the structure does not say.
    part: str
    #: The two characters of the failure type, where they came with the code.
    failure: str
    #: As it travels in two bytes.
    bits: int


def read(text: str) -> Code | Refusal:
    """A code as it is shown: P0135, or P0135-11 with its failure type.

    Source: SAE J2012, ISO 15031-6; the halves of P3 (30-33 maker, 34-39 ISO/SAE) are from memory.

    >>> read("p0135")
    Code(code='P0135', area='powertrain', owner='ISO/SAE', part='fuel and air metering', failure='', bits=309)
    >>> read("P1135").owner, read("C3000").owner
    ('maker', 'reserved')
    """
    plain = "".join(text.split()).upper()
    found = re.fullmatch(r"([PCBU])([0-3])([0-9A-F]{3})(?:[-:]?([0-9A-F]{2}))?", plain, re.ASCII)
    if found is None:
        return _no_code(plain)
    letter, second, rest = found[1], int(found[2]), found[3]
    owner = _OWNERS[letter][second] or _third(letter, rest[0])
    part = _DIVIDED.get(plain[:2], {}).get(rest[0], "")
    bits = _LETTERS.index(letter) << 14 | second << 12 | int(rest, 16)
    return Code(plain[:5], _AREAS[letter], owner, part, found[4] or "", bits)


def decode(bits: int) -> str | Refusal:
    """The code of two bytes (0 to 65535), or of three with the failure type last.

    Source: SAE J2012: bits 15-14 the letter, 13-12 the second character, then three hexadecimal digits.

    >>> decode(0x0135), decode(0xC100), decode(0x013511)
    ('P0135', 'U0100', 'P0135-11')
    """
    if not 0 <= bits <= 0xFFFFFF:
        message = f"{bits} does not fit in two or three bytes."
        return Refusal("bits", message, "Give two bytes, or three with the failure type.")
    if bits > 0xFFFF:
        return f"{_two_bytes(bits >> 8)}-{bits & 0xFF:02X}"
    return _two_bytes(bits)


def decode_hex(text: str) -> str | Refusal:
    """The code of two or three bytes written in hexadecimal: `0x4035`, `40 35`, `0x40 0x35`, `403511`.

    >>> decode_hex("40 35"), decode_hex("0x000011")
    ('C0035', 'P0000-11')
    """
    plain = "".join(part.removeprefix("0X") for part in text.upper().split())
    if not re.fullmatch(r"[0-9A-F]{4}|[0-9A-F]{6}", plain, re.ASCII):
        message = "That is not two or three bytes in hexadecimal."
        return Refusal("bits", message, "Write four or six characters, 0 to 9 and A to F, as in `4035`.")
    tail = f"-{plain[4:]}" if plain[4:] else ""
    return _two_bytes(int(plain[:4], 16)) + tail


def _two_bytes(bits: int) -> str:
    return f"{_LETTERS[bits >> 14]}{bits >> 12 & 3}{bits & 0xFFF:03X}"


def _third(letter: str, sign: str) -> str:
    """Who defines a code of P3 or U3."""
    if letter == "U":
        return f"{MAKER} or {RESERVED}"
    if sign in "0123":
        return MAKER
    return STANDARD if sign in "456789" else RESERVED


def _no_code(plain: str) -> Refusal:
    """What is wrong with a code that is none, first fault first."""
    message = "That is no trouble code."
    if plain[:1] not in _AREAS or not plain:
        return Refusal("letter", message, "It starts with P, C, B or U, as in `P0700`.")
    if plain[1:2] not in tuple("0123"):
        return Refusal("class", message, "Its second character is 0, 1, 2 or 3, as in `P0700`.")
    if "O" in plain or "I" in plain:
        return Refusal("character", message, "O and I are no hexadecimal digits: read 0 and 1.")
    return Refusal("length", message, "Five characters, the last three 0 to 9 or A to F, as in `P0700`.")


def _read(code: str) -> Values | Refusal:
    found = read(code)
    if isinstance(found, Refusal):
        return found
    return found.area, found.owner, found.part or None, found.failure or None, f"0x{found.bits:04X}"


def _decode(bits: str) -> Values | Refusal:
    return single(decode_hex(bits))


CALCULATORS: Final = (
    Calculator(
        name="trouble-code",
        family="dtc",
        title="What the structure of a trouble code says",
        inputs=(Input("code", "code", "Code, as in P0700 or P0700-11", "text"),),
        outputs=(
            Output("area", "area", "Part of the vehicle", "text"),
            Output("owner", "owner", "Defined by", "text"),
            Output("part", "part", "Part of the powertrain", "text"),
            Output("failure", "failure", "Failure type", "text"),
            Output("bits", "bits", "In two bytes", "text"),
        ),
        function=_read,
        formula=("bits 15-14 the letter, 13-12 the second character, then three hexadecimal digits",),
        source="SAE J2012, ISO 15031-6; the halves of P3 from memory",
        mark="published",
        valid="Structure only: what a code means stands in the lists of its owner.",
        example="code=P0700",
    ),
    Calculator(
        name="trouble-code-bytes",
        family="dtc",
        title="The trouble code of two or three bytes",
        inputs=(Input("bits", "bits", "Bytes in hexadecimal, as in 40 35", "text"),),
        outputs=(Output("code", "code", "Code", "text"),),
        function=_decode,
        formula=("bits 15-14 the letter, 13-12 the second character, then three hexadecimal digits",),
        source="SAE J2012, ISO 15031-6",
        mark="published",
        valid="A third byte is the failure type.",
        example="bits=4035",
    ),
)
