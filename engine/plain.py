"""Text from trees and from people, made harmless: data, never an instruction to a terminal."""

import unicodedata
from typing import Final

#: Formatting characters that reorder or hide what a reader sees.
_SLY: Final = frozenset("\u061c\u200e\u200f\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069\ufeff")


def clean(text: str, *, lines: bool = True) -> str:
    r"""The text with every control character shown instead of obeyed.

    Line ends stay where `lines` allows them, else they become spaces.

    >>> clean("red\x1b[31m")
    'red\u241b[31m'
    """
    return "".join(_harmless(character, lines=lines) for character in text)


def _harmless(character: str, *, lines: bool) -> str:
    if character == "\n":
        return "\n" if lines else " "
    if character == "\t":
        return " "
    code = ord(character)
    if code < 0x20:
        return chr(0x2400 + code)  # the control pictures of Unicode
    if code == 0x7F:
        return "\u2421"
    if character in _SLY or unicodedata.category(character) in ("Cc", "Cs"):
        return "\ufffd"
    return character
