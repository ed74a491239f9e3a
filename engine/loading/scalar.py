"""What a plain YAML scalar means: the core schema of YAML 1.2, nothing of YAML 1.1.

`no`, `on`, `12:30` are text and `010` is ten, because that is what an author means.
"""

import re
from functools import lru_cache
from math import isinf
from sys import float_info
from typing import Final

#: First characters that a number, a truth value or a null can have; all else is text at once.
HEADS: Final = frozenset("0123456789+-.~tTfFnN")
_LETTERS: Final = frozenset("~tTfFnN")
_INTEGER: Final = re.compile(r"[-+]?[0-9]+")
_OTHER_BASE: Final = re.compile(r"0o[0-7]+|0x[0-9a-fA-F]+")
_FLOAT: Final = re.compile(r"[-+]?(?:\.[0-9]+|[0-9]+(?:\.[0-9]*)?)(?:[eE][-+]?[0-9]+)?")
_NOT_FINITE: Final = re.compile(r"[-+]?\.(?:inf|Inf|INF)|\.(?:nan|NaN|NAN)")
_WORDS: Final[dict[str, bool | None]] = {
    "~": None,
    "null": None,
    "Null": None,
    "NULL": None,
    "true": True,
    "True": True,
    "TRUE": True,
    "false": False,
    "False": False,
    "FALSE": False,
}
#: More digits than this no gauge shows; a float keeps this many exactly.
DIGITS: Final = 15


class TooLong(ValueError):  # noqa: N818  reason: it says what the number is
    """A number with more digits than can be kept exactly."""


def meaning(text: str) -> str | int | float | bool | None:
    """The value of a plain scalar.

    Raises TooLong for a number that is infinite, not a number, too small for a float, or longer than
    fifteen digits.

    >>> [meaning(t) for t in ("no", "12:30", "010", "0x1F", "2.50", "1e3", "true", "~")]
    ['no', '12:30', 10, 31, 2.5, 1000.0, True, None]
    """
    if not text:
        return None
    if text[0] not in HEADS:
        return text
    if text[0] in _LETTERS:
        return _WORDS.get(text, text)
    return _known(text) if len(text) <= _SHORT else _number(text)


def _number(text: str) -> str | int | float:
    if _INTEGER.fullmatch(text):
        return int(_short(text, text))
    if _FLOAT.fullmatch(text):
        return _float(text, re.split("[eE]", text)[0])
    if _OTHER_BASE.fullmatch(text):
        return int(_short(text, text[2:]), 0)
    if _NOT_FINITE.fullmatch(text):
        raise TooLong
    return text


#: Documents say the same few numbers over and over; a long text that begins with a digit is not kept.
_SHORT: Final = 40
_known: Final = lru_cache(maxsize=8192)(_number)


def _short(text: str, digits: str) -> str:
    if len(digits.replace(".", "").lstrip("+-0")) > DIGITS:
        raise TooLong
    return text


def _float(text: str, digits: str) -> float:
    number = float(_short(text, digits))
    # below the least normal float digits are lost, at last all of them
    if isinf(number) or (abs(number) < float_info.min and digits.strip("+-0.")):
        raise TooLong
    return number
