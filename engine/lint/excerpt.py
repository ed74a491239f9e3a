"""The line that a finding is about, with a mark below the word."""

import re
from typing import Final

from engine.plain import cells, clean

#: The line ends of YAML 1.2 (section 5.4).
_LINE_END: Final = re.compile("\r\n|\n|\r")
#: A quoted text, a word, or one sign.
_WORD: Final = re.compile(r"\"[^\"]*\"|'[^']*'|[\w.-]+|.")
_COLUMNS: Final = 80


def decoded(content: bytes) -> str:
    """The text of a file as far as it is one, for people to look at; marks of replacement for the rest."""
    coding = "utf-16" if content[:2] in (b"\xff\xfe", b"\xfe\xff") else "utf-8"
    return content.decode(coding, "replace").removeprefix("\ufeff")


def lines(text: str) -> list[str]:
    r"""The lines of a document.

    >>> lines("tree: a\r\nformat: 1\r")
    ['tree: a', 'format: 1', '']
    """
    return _LINE_END.split(text)


def excerpt(written: list[str], line: int, column: int) -> tuple[str, ...]:
    r"""The line and the mark below it, in at most 80 columns; nothing where there is no such line.

    Lines and columns count from 1, columns in characters.

    >>> print("\n".join(excerpt(["first:", "  {say: All, then: brke}"], 2, 20)))
       2 |   {say: All, then: brke}
         |                    ^^^^
    """
    if line > len(written) or column > len(written[line - 1]) + 1:
        return ()
    head = f"{line:>4} | "
    before, word, after = _parts(written[line - 1], column)
    room = _COLUMNS - len(head)
    before = _last(before, room // 2)
    shown = _first(word + after, room - cells(before))
    mark = "^" * max(1, min(cells(word), cells(shown)))
    return (f"{head}{before}{shown}", f"{' ' * (len(head) - 2)}| {' ' * cells(before)}{mark}")


def _parts(line: str, column: int) -> tuple[str, str, str]:
    """What stands before the word at the column, the word, and what follows it."""
    before, rest = line[: column - 1], line[column - 1 :]
    found = _WORD.match(rest)
    end = found.end() if found else 0
    return clean(before, lines=False), clean(rest[:end], lines=False), clean(rest[end:], lines=False)


def _last(text: str, room: int) -> str:
    """The end of a text, after `...` where the whole does not fit."""
    if cells(text) <= room:
        return text
    while cells(text) > room - 3:
        text = text[max(1, len(text) - room) :]
    return f"...{text}"


def _first(text: str, room: int) -> str:
    """The beginning of a text, before `...` where the whole does not fit."""
    if cells(text) <= room:
        return text
    while cells(text) > room - 3:
        text = text[: min(len(text) - 1, room)]
    return f"{text}..."
