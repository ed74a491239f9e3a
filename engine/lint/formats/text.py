"""Findings for people, one a line, with the steps that show them below."""

from collections.abc import Iterator

from engine.lint.finding import Finding
from engine.loading.library import Library
from engine.plain import clean


def text(findings: tuple[Finding, ...], library: Library, files: frozenset[str]) -> str:
    """Every finding with its place, then how many there are."""
    lines = [line for finding in findings for line in _finding(finding)]
    return "\n".join((*lines, _summary(findings, library, files))) + "\n"


def _finding(finding: Finding) -> Iterator[str]:
    yield clean(str(finding), lines=False)
    yield from (f"    {k}. {clean(step, lines=False)}" for k, step in enumerate(finding.path, 1))


def _summary(findings: tuple[Finding, ...], library: Library, files: frozenset[str]) -> str:
    trees = sum(tree.place.file in files for tree in library.trees.values())
    read = f"{_count(len(files), 'file')}, {_count(trees, 'tree')}"
    if not findings:
        return f"{read}: nothing found."
    errors = sum(finding.severity == "error" for finding in findings)
    return f"{read}: {_count(errors, 'error')}, {_count(len(findings) - errors, 'warning')}."


def _count(number: int, what: str) -> str:
    return f"{number} {what}{'' if number == 1 else 's'}"
