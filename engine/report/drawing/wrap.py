"""Text set in lines without asking for a font: widths are reckoned so wide that the usual fonts fit."""

import unicodedata
from collections.abc import Iterator
from functools import lru_cache
from typing import Final

from engine.plain import clean

#: Widths in parts of the size, after the widest of the common fonts; what is not named is `_USUAL`.
_NARROW: Final = dict.fromkeys("iljftr.,;:'|!()[]{}/\\ ·`I", 0.34)
_BROAD: Final = dict.fromkeys("mwMW%@—", 0.98)
_CAPITAL: Final = 0.7
_USUAL: Final = 0.575
#: Of a line of a language that has no blanks, and of anything not known.
_FULL: Final = 1.05


@lru_cache(maxsize=4096)
def _sign(sign: str) -> float:
    if sign in _NARROW:
        return _NARROW[sign]
    if sign in _BROAD:
        return _BROAD[sign]
    if unicodedata.combining(sign):
        return 0.0
    if ord(sign) < 0x250:
        return _CAPITAL if sign.isupper() else _USUAL
    if unicodedata.east_asian_width(sign) in "WF":
        return _FULL
    return 0.85 if sign.isalpha() else _FULL


def width(text: str, size: float) -> float:
    """How wide a text may be at most, in the unit of the size.

    >>> width("mm", 10) > width("ll", 10)
    True
    """
    return sum(map(_sign, text)) * size


def wrap(text: str, room: float, size: float) -> tuple[str, ...]:
    """The text in lines that fit the room; a word too long for it is broken, nothing is left out.

    Whatever a terminal or a reader might obey is shown instead, and line ends count as blanks.

    >>> wrap("Turn one rear wheel slowly by hand", 100, 12)
    ('Turn one rear', 'wheel slowly by', 'hand')
    """
    lines: list[str] = []
    line, used, blank = "", 0.0, _sign(" ") * size
    for word in clean(text, lines=False).split():
        for piece, wide in _pieces(word, room, size):
            if line and used + blank + wide > room:
                lines.append(line)
                line, used = "", 0.0
            line, used = (f"{line} {piece}", used + blank + wide) if line else (piece, wide)
    return (*lines, line) if line else tuple(lines)


def _pieces(word: str, room: float, size: float) -> Iterator[tuple[str, float]]:
    """A word in pieces that fit the room; a sign that joins the one before it stays with it."""
    piece, used = "", 0.0
    for sign in word:
        wide = _sign(sign) * size
        if piece and wide and used + wide > room:
            yield piece, used
            piece, used = "", 0.0
        piece, used = piece + sign, used + wide
    if piece:
        yield piece, used
