"""Findings as workflow commands, which CI servers show beside the lines of a change.

The form is `::error file=...,line=...,col=...,title=...::message`; `%`, line ends, and in properties
also `:` and `,` are escaped. Servers show few of them, so the worst come first.
"""

from engine.lint.finding import SEVERITIES, Finding
from engine.lint.review import Review
from engine.plain import clean


def annotations(review: Review) -> str:
    """One command a finding, errors before warnings before notes."""
    ordered = sorted(review.findings, key=lambda finding: (SEVERITIES.index(finding.severity), finding))
    return "".join(f"{_command(finding)}\n" for finding in ordered)


def _command(finding: Finding) -> str:
    properties = (
        ("file", finding.file),
        ("line", finding.line),
        ("col", finding.column),
        ("title", finding.rule),
    )
    told = ",".join(f"{name}={_property(str(value))}" for name, value in properties)
    path = "".join(f"\n{number}. {stop}" for number, stop in enumerate(finding.path, 1))
    command = "notice" if finding.severity == "note" else finding.severity
    return f"::{command} {told}::{_data(f'{finding.message} {finding.cure}{path}')}"


def _data(text: str) -> str:
    return clean(text).replace("%", "%25").replace("\r", "%0D").replace("\n", "%0A")


def _property(text: str) -> str:
    return _data(text).replace(":", "%3A").replace(",", "%2C")
