"""Findings as JUnit XML, the form in which CI servers show tests: one suite a file, one case a rule met."""

from collections.abc import Iterator
from html import escape

from engine.lint.finding import Finding
from engine.lint.review import Review
from engine.plain import clean


def junit(review: Review) -> str:
    """A suite for each file that was read; a file without findings has one case, which passed."""
    by_file: dict[str, list[Finding]] = {file: [] for file in sorted(review.files)}
    for finding in review.findings:
        by_file.setdefault(finding.file, []).append(finding)
    lines = [
        '<?xml version="1.0" encoding="UTF-8"?>',
        f'<testsuites name="witnessmark lint"{_counts(len(review.files), review.findings)}>',
    ]
    lines += [line for file, own in by_file.items() for line in _suite(file, own)]
    return "\n".join((*lines, "</testsuites>")) + "\n"


def _counts(tests: int, findings: tuple[Finding, ...] | list[Finding]) -> str:
    failures = sum(finding.severity != "note" for finding in findings)
    return f' tests="{max(tests, len(findings), 1)}" failures="{failures}"'


def _suite(file: str, findings: list[Finding]) -> Iterator[str]:
    yield f"  <testsuite name={_attribute(file)}{_counts(1, findings)}>"
    if not findings:
        yield f'    <testcase classname={_attribute(file)} name="lint"/>'
    for finding in findings:
        name = _attribute(f"{finding.rule}:{finding.line}")
        yield f"    <testcase classname={_attribute(file)} name={name}>"
        told = "\n".join((str(finding), *map(str, finding.path)))
        yield from _note(told) if finding.severity == "note" else _failure(finding, told)
        yield "    </testcase>"
    yield "  </testsuite>"


def _failure(finding: Finding, told: str) -> Iterator[str]:
    yield f"      <failure type={_attribute(finding.rule)} message={_attribute(finding.message)}>"
    yield f"{escape(clean(told))}</failure>"


def _note(told: str) -> Iterator[str]:
    """A case that has passed, with something to say."""
    yield f"      <system-out>{escape(clean(told))}</system-out>"


def _attribute(text: str) -> str:
    return f'"{escape(clean(text, lines=False))}"'
