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
    if text.isprintable():
        return text  # as nearly all is: no control, no formatting and no stray character counts as that
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


def cells(text: str) -> int:
    r"""Columns that a text takes in a terminal: wide characters two, marks on top of others none.

    >>> cells("12.5 mm"), cells("後輪"), cells("e\u0301")
    (7, 4, 1)
    """
    if text.isascii():
        return len(text)
    return sum(map(_cells, text))


def _cells(character: str) -> int:
    if unicodedata.category(character) in ("Mn", "Mc", "Me", "Cf"):
        return 0
    return 2 if unicodedata.east_asian_width(character) in "WF" else 1
