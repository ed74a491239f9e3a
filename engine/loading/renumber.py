"""Other numbers in the text of a document: every word, comment and blank of it stays where it is.

The places are those that the parser gives, not what a line looks like; the changed text is read again, and
where anything but the wanted numbers reads otherwise than before, nothing is changed.
"""

import re
from collections.abc import Mapping
from typing import Any, Final

from engine.errors import Problem, Refusal
from engine.loading.data import Map, Mark, Seq
from engine.loading.document import read

#: Where a number stands in a document: keys and, in lists, places from 0.
Path = tuple[str | int, ...]

_NUMBER: Final = re.compile(r"[-+.0-9][-+.0-9eE_]*")
_LINE_END: Final = re.compile("\r\n|\n|\r")


def renumbered(text: str, numbers: Mapping[Path, str]) -> str | Refusal:
    r"""The text with other numbers at these places, each written as it is given.

    Refuses where one of them is not there, or cannot be changed alone (an alias of another one).

    >>> renumbered("shaft: {weight: 2}  # weight: 2\n", {("shaft", "weight"): "2.5"})
    'shaft: {weight: 2.5}  # weight: 2\n'
    """
    before = read(text.encode(), "").data
    # the mark that a text may begin with is no part of its first line
    starts = [
        len(text) - len(text.removeprefix("\ufeff")),
        *(found.end() for found in _LINE_END.finditer(text)),
    ]
    spots: list[tuple[int, int, str]] = []
    for path, number in numbers.items():
        mark = None if before is None else _mark(before, path)
        found = _NUMBER.match(text, starts[mark.line] + mark.column) if mark else None
        if found is None:
            return Refusal("not-there", f"There is no number at {told(path)}.", "Write one there first.")
        spots.append((found.start(), found.end(), number))
    for start, end, number in sorted(set(spots), reverse=True):
        text = text[:start] + number + text[end:]
    again = read(text.encode(), "")
    assert before is not None or not numbers
    if before is not None and not _as_wanted(before, again.data, again.problems, numbers):
        message = "The numbers cannot be changed without changing something else, too."
        return Refusal("not-alone", message, "Write out what stands there as an alias (`*name`).")
    return text


def told(path: Path) -> str:
    """A place as people read it.

    >>> told(("steps", "first", "answers", 0, "fits", "shaft"))
    'steps, first, answers, 1, fits, shaft'
    """
    return ", ".join(str(part + 1) if isinstance(part, int) else part for part in path)


def at(data: Any, path: Path) -> Any:
    """What stands at a path; None where nothing does."""
    for part in path:
        if isinstance(data, Map) and part in data:
            data = data[str(part)]
        elif isinstance(data, Seq) and isinstance(part, int) and part < len(data):
            data = data[part]
        else:
            return None
    return data


def _mark(root: Map, path: Path) -> Mark | None:
    """The mark of the number at a path; None where no number stands there."""
    value, holder = at(root, path), at(root, path[:-1])
    if type(value) not in (int, float) or not isinstance(holder, Map):
        return None
    return holder.marks[str(path[-1])][1]


def _as_wanted(
    before: Map, after: Map | None, problems: tuple[Problem, ...], numbers: Mapping[Path, str]
) -> bool:
    """Whether the text reads as before but for the wanted numbers."""
    if after is None or problems:
        return False
    if any(at(after, path) != float(number) for path, number in numbers.items()):
        return False
    same: bool = _blank(before, (), numbers) == _blank(after, (), numbers)
    return same


def _blank(data: Any, path: Path, numbers: Mapping[Path, str]) -> Any:
    """The data with nothing at these places."""
    if path in numbers:
        return None
    if isinstance(data, Map):
        return [(key, _blank(value, (*path, key), numbers)) for key, value in data.items()]
    if isinstance(data, Seq):
        return [_blank(value, (*path, number), numbers) for number, value in enumerate(data)]
    return data, type(data).__name__
