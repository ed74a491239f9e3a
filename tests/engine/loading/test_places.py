"""Every key and value keeps its line and column, whatever the coding, the line ends and the script."""

import codecs
import re
from collections.abc import Iterator
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.loading.data import Map, Mark, Seq, locate
from engine.loading.document import read
from tests.shipped import SHIPPED

CODINGS = {
    "utf-8": ("utf-8", b""),
    "utf-8 with mark": ("utf-8", codecs.BOM_UTF8),
    "utf-16 little end first": ("utf-16-le", codecs.BOM_UTF16_LE),
    "utf-16 big end first": ("utf-16-be", codecs.BOM_UTF16_BE),
}
ENDS = {"lf": "\n", "crlf": "\r\n", "cr": "\r"}

#: Each word stands here exactly once, so that it can be searched for. `:` marks a key, `=` a value.
TEXT = """\
# größer als ein Kommentar 🔧
first: =first
"größe": 'maß'
東京: {🔧: тяга, after-emoji: "ε", 𝔘𝔫𝔦: [α, 🚗🚙, omega]}
deep:
  - - inner
    - "second 🔩 inner"
  - key-in-list: |
      a block that
      has lines
    next-key: >-
      folded 漢字
      text
  - !!str tagged
  - &anchor anchored
"quoted: colon": plain # comment 🔧
spaces   :    far
empty:
last: the-end
"""

#: What is found in the text, key or value, with the text that begins it there.
KEYS = {
    ("first",): "first",
    ("größe",): '"größe"',
    ("東京",): "東京",
    ("東京", "🔧"): "🔧: т",
    ("東京", "after-emoji"): "after-emoji",
    ("東京", "𝔘𝔫𝔦"): "𝔘𝔫𝔦",
    ("deep",): "deep",
    ("deep", 1, "key-in-list"): "key-in-list",
    ("deep", 1, "next-key"): "next-key",
    ("quoted: colon",): '"quoted: colon"',
    ("spaces",): "spaces",
    ("empty",): "empty",
    ("last",): "last",
}
VALUES = {
    ("first",): "=first",
    ("größe",): "'maß'",
    ("東京",): "{🔧",
    ("東京", "🔧"): "тяга",
    ("東京", "after-emoji"): '"ε"',
    ("東京", "𝔘𝔫𝔦"): "[α",
    ("東京", "𝔘𝔫𝔦", 0): "α",
    ("東京", "𝔘𝔫𝔦", 1): "🚗🚙",
    ("東京", "𝔘𝔫𝔦", 2): "omega",
    ("deep", 0): "- inner",
    ("deep", 0, 0): "inner",
    ("deep", 0, 1): '"second',
    ("deep", 1): "key-in-list",
    ("deep", 1, "key-in-list"): "|",
    ("deep", 1, "next-key"): ">-",
    ("deep", 2): "!!str",
    ("deep", 3): "&anchor",
    ("quoted: colon",): "plain",
    ("spaces",): "far",
    ("last",): "the-end",
}


def searched(text: str, word: str) -> tuple[int, int]:
    """Line and column of the first place where a word stands, by counting line ends and characters."""
    before = text[: text.index(word)]
    ends = list(re.finditer("\r\n|\r|\n", before))
    return len(ends) + 1, len(before) - (ends[-1].end() if ends else 0) + 1


@pytest.mark.parametrize("coding", CODINGS)
@pytest.mark.parametrize("end", ENDS)
@pytest.mark.parametrize(("sought", "key"), [(KEYS, True), (VALUES, False)], ids=["keys", "values"])
def test_places_are_where_the_words_stand(
    coding: str, end: str, sought: dict[tuple[str | int, ...], str], *, key: bool
) -> None:
    """Lines and columns agree with a search in the text; columns count characters, not bytes or halves."""
    text = TEXT.replace("\n", ENDS[end])
    name, mark = CODINGS[coding]
    document = read(mark + text.encode(name), "a.yaml")
    assert document.data is not None

    found = {path: locate("a.yaml", document.data, path, key=key)[1:] for path in sought}

    assert found == {path: searched(text, word) for path, word in sought.items()}


def test_the_content_of_every_coding_is_the_same() -> None:
    """Coding and line ends change nothing of what a document says."""
    read_as = [
        read(mark + TEXT.replace("\n", end).encode(name), "a.yaml").data
        for name, mark in CODINGS.values()
        for end in ENDS.values()
    ]

    assert all(data == read_as[0] for data in read_as)
    assert read_as[0] is not None
    assert read_as[0]["deep"][1] == {
        "key-in-list": "a block that\nhas lines\n",
        "next-key": "folded 漢字 text",
    }


def leaves(node: Any) -> Iterator[tuple[str, Mark, str, bool]]:
    """Each key, and each plain or quoted text with its mark: what, where, and whether it is a key."""
    if isinstance(node, Map):
        for key, value in node.items():
            yield "key", node.marks[key][0], key, True
            if isinstance(value, str):
                yield "text", node.marks[key][1], value, False
            yield from leaves(value)
    elif isinstance(node, Seq):
        for value, mark in zip(node, node.marks, strict=True):
            if isinstance(value, str):
                yield "text", mark, value, False
            yield from leaves(value)


@pytest.mark.parametrize("name", SHIPPED)
def test_places_in_a_shipped_document_show_what_stands_there(name: str) -> None:
    """At its place stands each key, and the first word of each text, or the mark that begins a block."""
    text = SHIPPED[name].read_text("utf-8")
    rows = text.split("\n")
    wrong = []
    for what, mark, word, is_key in leaves(read(text.encode(), name).data):
        there = rows[mark.line][mark.column :]
        begins = there.startswith((word.split()[0], f'"{word.split()[0]}', f"'{word.split()[0]}"))
        if not (begins or (not is_key and there[:1] in "|>")):
            wrong.append((what, word, there))

    assert wrong == []


WORDS = st.text(st.sampled_from("aßαя漢🔧𝔘"), min_size=1, max_size=4)


@given(
    keys=st.lists(WORDS, min_size=1, max_size=6, unique=True),
    fillers=st.lists(WORDS, min_size=1, max_size=6),
    flow=st.booleans(),
)
def test_columns_count_characters(keys: list[str], fillers: list[str], *, flow: bool) -> None:
    """Whatever stands before it in its line, a key is where a search for it ends."""
    marked = [f"k{number}-{key}" for number, key in enumerate(keys)]
    pairs = [f"{key}: {fillers[number % len(fillers)]}" for number, key in enumerate(marked)]
    text = "{" + ", ".join(pairs) + "}" if flow else "\n".join(pairs)
    data = read(text.encode(), "a.yaml").data
    assert data is not None

    assert {k: locate("a", data, (k,), key=True)[1:] for k in marked} == {
        k: searched(text, k) for k in marked
    }


@pytest.mark.parametrize(
    ("content", "line", "column", "rule"),
    [
        ("größe: 1\n🔧: {a: \x01}".encode(), 2, 8, "control-character"),
        (codecs.BOM_UTF8 + b"a: \x07", 1, 4, "control-character"),
        ("ö: 1\r\nü: \x00".encode(), 2, 4, "control-character"),
        ("ö: 1\rü: \x1b".encode(), 2, 4, "control-character"),
        (codecs.BOM_UTF16_BE + "a: 1\n🔧: \x02".encode("utf-16-be"), 2, 4, "control-character"),
        ("a: 🔧\u2028b: 1".encode(), 1, 5, "control-character"),
        ("a: 1\n🔧🔧: x\ufeffy".encode(), 2, 6, "control-character"),
        ("a: x\x85y".encode(), 1, 5, "control-character"),
        ("🔧: 1\nab: ".encode() + b"\xff", 2, 5, "not-text"),
        (codecs.BOM_UTF8 + "ö: ".encode() + b"\xc3", 1, 4, "not-text"),
        ("ö: 1\rab: ".encode() + b"\x80", 2, 5, "not-text"),
        (codecs.BOM_UTF16_LE + "a: 🔧\nb: ".encode("utf-16-le") + b"x", 2, 4, "not-text"),
        (codecs.BOM_UTF16_LE + "a: ".encode("utf-16-le") + b"\x00\xd8a\x00", 1, 4, "not-text"),
        ("🔧: 1\n🔧: 2".encode(), 2, 1, "duplicate-key"),
        ("a: {🔧: 1, 🔧: 2}".encode(), 1, 11, "duplicate-key"),
    ],
)
def test_a_problem_stands_at_its_character(content: bytes, line: int, column: int, rule: str) -> None:
    """Problems of the text itself count lines and columns like everything else."""
    found = read(content, "a.yaml").problems

    assert [(p.line, p.column, p.rule) for p in found] == [(line, column, rule)]
