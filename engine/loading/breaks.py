"""Where the lines of a text end: the three line ends of YAML 1.2.2 (section 5.4), and no others."""

import re
from typing import Final

from engine.loading.data import Mark, Spot

_BREAK: Final = re.compile("\r\n|[\r\n]")


def lines(text: str) -> list[str]:
    r"""The lines of a text, without their ends; the last may be empty.

    >>> lines("a\r\nb\rc\n")
    ['a', 'b', 'c', '']
    """
    return _BREAK.split(text)


def spot(text: str, position: int) -> Spot:
    r"""The place of a character, by how many stand before it.

    >>> spot("steps:\r\n  go: 1", 12)
    Spot(line=1, column=4)
    """
    before = lines(text[:position])
    return Spot(len(before) - 1, len(before[-1]))


def within(text: str, mark: Mark) -> Mark:
    """The mark, or the end of the text where it lies behind that: the parser adds a last line end."""
    last = lines(text)
    return mark if mark.line < len(last) else Spot(len(last) - 1, len(last[-1]))
