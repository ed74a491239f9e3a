"""From the bytes of one YAML file to data with places, or to every problem that stands in the way."""

import re
from typing import Final, NamedTuple

import yaml

from engine.errors import Problem
from engine.loading import faults
from engine.loading.data import Map, Spot
from engine.loading.events import Builder, Stop

MOST_BYTES: Final = 2 * 1024 * 1024
#: What YAML does not allow in a text; searched for only once the parser has refused.
_FORBIDDEN: Final = re.compile("[^\t\n\r\x20-\x7e\x85\xa0-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")


class Document(NamedTuple):
    """A file that was read: its text, its data where it has any, and the problems found on the way."""

    file: str
    text: str
    data: Map | None
    problems: tuple[Problem, ...]


def read(content: bytes, file: str) -> Document:
    r"""Read one document.

    Never raises, whatever the bytes. `file` is only written into the places.

    >>> read(b"level: 12:30", "a.yaml").data
    {'level': '12:30'}
    >>> print(*read(b"a: 1\na: 2", "a.yaml").problems)
    a.yaml:2:1: `a` stands here a second time; the first is in line 1. Keep one of them.
    """
    if len(content) > MOST_BYTES:
        return Document(file, "", None, (faults.too_large(len(content), MOST_BYTES).at(file, 1, 1),))
    text, bad = _decode(content)
    if bad is not None:
        return Document(file, text, None, (bad.fault.at(file, bad.line, bad.column),))
    problems: list[Problem] = []
    data = _data(Builder(file, problems), text)
    return Document(file, text, data, tuple(sorted(problems)))


class _Bad(NamedTuple):
    fault: faults.Fault
    line: int
    column: int


def _decode(content: bytes) -> tuple[str, _Bad | None]:
    coding = "utf-16" if content[:2] in (b"\xff\xfe", b"\xfe\xff") else "utf-8"
    try:
        text = content.decode(coding)
    except UnicodeDecodeError as error:
        before = content[: error.start].decode(coding, "replace")
        line = before.count("\n") + 1
        return "", _Bad(faults.not_text(coding), line, len(before) - before.rfind("\n"))
    return text.removeprefix("\ufeff"), None


def _data(builder: Builder, text: str) -> Map | None:
    try:
        root = builder.build(text)
    except yaml.MarkedYAMLError as error:
        builder.wrong(error.problem_mark or Spot(0, 0), faults.syntax(error, text))
    except yaml.reader.ReaderError:
        found = _FORBIDDEN.search(text)
        spot = _spot(text, found.start()) if found else Spot(0, 0)
        builder.wrong(spot, faults.control_character(found.group() if found else ""))
    except Stop:
        pass
    else:
        if isinstance(root, Map):
            return root
        builder.wrong(Spot(0, 0), faults.NOT_A_MAP if root is not None else faults.EMPTY)
    return None


def _spot(text: str, position: int) -> Spot:
    before = text[:position]
    return Spot(before.count("\n"), len(before) - before.rfind("\n") - 1)
