"""Texts of people and trees in a Markdown page: shown letter by letter, meaning nothing to Markdown.

By CommonMark 0.31 a backslash before ASCII punctuation takes its meaning; what means something only at the
start of a line is escaped there alone, so that the page stays readable as it is.
"""

import re
from typing import Final

from engine.plain import clean

#: Means something anywhere in a line; the dollar sign to readers that set formulas.
_ANYWHERE: Final = str.maketrans({sign: "\\" + sign for sign in "\\`*_{}[]<>#|~&$"})
#: A list or a line across, where a line begins with it.
_AT_START: Final = re.compile(r"^(|\d+(?=[.)](?:\s|$)))(?=[-+.)])")


def plain(text: str) -> str:
    r"""A text in one line, as Markdown shows it letter by letter.

    >>> print(plain("*red*\nline & <b>"), plain("1. not a list"), plain("- nor this"))
    \*red\* line \& \<b\> 1\. not a list \- nor this
    """
    return _AT_START.sub(r"\1\\", clean(text, lines=False).strip().translate(_ANYWHERE))


def code(name: str) -> str:
    """A name set apart as code; a name that holds the mark itself is shown as plain text."""
    return plain(name) if "`" in name else f"`{clean(name, lines=False)}`"
