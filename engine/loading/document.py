"""From the bytes of one YAML file to data with places, or to every problem that stands in the way."""

import re
from typing import Final, NamedTuple

import yaml

from engine.errors import Problem
from engine.loading import faults
from engine.loading.breaks import spot
from engine.loading.data import Map, Spot
from engine.loading.events import Builder, Stop
from engine.loading.slips import slip

MOST_BYTES: Final = 2 * 1024 * 1024
#: Line ends of YAML 1.1 that are none in YAML 1.2 (section 5.4), where this parser still ends a line,
#: and the mark that may only begin a text. No editor shows them, so none of them is meant.
_UNSEEN: Final = re.compile("[\x85\u2028\u2029\ufeff]")
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
        return Document(file, text, None, (bad.fault.at(file, bad.line + 1, bad.column + 1),))
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
        text = content.decode(coding).removeprefix("\ufeff")
    except UnicodeDecodeError as error:
        before = content[: error.start].decode(coding, "replace").removeprefix("\ufeff")
        return "", _Bad(faults.not_text(coding), *spot(before, len(before)))
    found = None if text.isascii() else _UNSEEN.search(text)
    if found:
        return text, _Bad(faults.control_character(found.group()), *spot(text, found.start()))
    return text, None


def _data(builder: Builder, text: str) -> Map | None:
    try:
        root = builder.build(text)
    except yaml.MarkedYAMLError as error:
        builder.note(*slip(error, text))
    except yaml.reader.ReaderError:
        found = _FORBIDDEN.search(text)
        character, start = (found.group(), found.start()) if found else ("", 0)
        builder.note(faults.control_character(character), spot(text, start))
    except Stop:
        pass
    else:
        if isinstance(root, Map):
            return root
        builder.note(faults.NOT_A_MAP if root is not None else faults.EMPTY, Spot(0, 0))
    return None
