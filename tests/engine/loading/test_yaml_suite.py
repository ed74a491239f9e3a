"""The YAML Test Suite: hostile and odd texts, none of which may surprise the reader of documents.

The reader takes a part of YAML 1.2 only (one document, a mapping with text for keys, no tags), and its
parser is one of YAML 1.1. What it refuses it must refuse with a place and a cure; what it takes it must
take for what the suite says. See `yaml_suite/SOURCE.md` for where the cases come from.
"""

import json
import time
from collections import Counter
from pathlib import Path
from typing import Any, Final, NamedTuple

import pytest

from engine.lint.runner import run
from engine.loading.document import Document, read
from engine.loading.events import Builder
from engine.loading.leaf import File
from engine.loading.library import gather


class Case(NamedTuple):
    """A text, and what it means as JSON; None where that is invalid or has no JSON."""

    name: str
    text: str
    invalid: bool
    json: str | None


def _cases() -> dict[str, Case]:
    rows = json.loads((Path(__file__).parent / "yaml_suite" / "cases.json").read_text(encoding="utf-8"))
    return {
        row["case"]: Case(row["name"], row["yaml"], row.get("fail", False), row.get("json")) for row in rows
    }


CASES: Final = _cases()
#: Invalid texts that the parser takes all the same. A person would understand each as it does.
LENIENT: Final = {
    "9C9N/0": "a list in brackets goes on at the margin",
    "DK95/1": "a quoted text goes on behind a tab",
    "QB6E/0": "a quoted text goes on at the margin",
    "S98Z/0": "blank lines of a text are indented further than the comment behind it",
    "SU5Z/0": "no space before a comment behind a quoted text",
    "X4QW/0": "no space before a comment behind the sign of a folded text",
}
#: Valid texts that the parser takes for something else.
MISREAD: Final = {
    "652Z/0": "a key in braces begins with a question mark, the sign of a key in YAML 1.1",
    "HM87/1": "an item in brackets begins with a question mark",
    "L24T/1": "spaces behind the last line end of a block text that ends without one",
    "Y2GN/0": "a colon in the name of an anchor, where YAML 1.1 ends the name",
}
#: Why valid texts are refused, and how many for each reason: what the documents of a library never need.
REFUSED: Final = {
    "not-a-document": 120,  # a list or a single value, no mapping
    "syntax": 49,  # unlike the parser's YAML 1.1, or tabs, blank keys and unknown directives
    "key-not-text": 17,
    "two-documents": 11,
    "unknown-tag": 10,
    "empty-document": 7,
    "key-empty": 3,
}


def _read(name: str) -> Document:
    return read(CASES[name].text.encode(), "suite.yaml")


def _root(name: str) -> Any:
    """What stands in a text, whatever its shape; a mapping it need not be here."""
    return Builder("suite.yaml", []).build(CASES[name].text)


def _taken() -> list[str]:
    return [name for name in CASES if not _read(name).problems]


def test_the_suite_is_whole() -> None:
    """402 cases, 94 of them invalid."""
    assert (len(CASES), sum(case.invalid for case in CASES.values())) == (402, 94)


@pytest.mark.parametrize("name", CASES)
def test_reading_tells_or_takes(name: str) -> None:
    """Never neither data nor a problem; each problem has a place in the text and a cure."""
    document = _read(name)
    rows = CASES[name].text.split("\n")

    assert document.problems or document.data is not None
    for problem in document.problems:
        assert 1 <= problem.line <= len(rows) + 1
        assert problem.column >= 1
        assert problem.message
        assert problem.cure


@pytest.mark.parametrize("name", CASES)
def test_a_library_of_it_is_linted_in_a_moment(name: str) -> None:
    """Gathered and linted by every rule, whatever it is; nothing in the suite is a document of ours."""
    began = time.process_time()
    library = gather([File("suite.yaml", "suite.yaml", CASES[name].text.encode())])

    assert run(library)
    assert time.process_time() - began < 1


def test_invalid_texts_are_refused() -> None:
    """All but those that the parser is known to be lenient with."""
    assert [name for name in _taken() if CASES[name].invalid] == [*LENIENT]


def test_what_is_taken_is_what_was_meant() -> None:
    """Each valid text that is taken equals the suite's JSON, but for those known to be misread."""
    valid = [name for name in _taken() if not CASES[name].invalid]
    unlike = [name for name in valid if _read(name).data != json.loads(CASES[name].json or "")]

    assert unlike == [name for name in MISREAD if name != "HM87/1"]
    assert len(valid) == 91


def test_other_shapes_are_read_alike() -> None:
    """Lists and single values are refused for their shape alone: what stands in them is what was meant."""
    other = [
        name
        for name in CASES
        if CASES[name].json and {"not-a-document"} == {problem.rule for problem in _read(name).problems}
    ]
    unlike = [name for name in other if _root(name) != json.loads(CASES[name].json or "")]

    assert unlike == ["HM87/1"]
    assert len(other) == 109


def test_valid_texts_are_refused_for_known_reasons() -> None:
    """How many for which reason: a change in what is read shows here."""
    refused = [_read(name) for name, case in CASES.items() if not case.invalid]

    assert Counter(document.problems[0].rule for document in refused if document.problems) == REFUSED
