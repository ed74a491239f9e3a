"""Findings for people: the place, what is wrong and its cure, the line itself, and the way there."""

from collections.abc import Iterator

from engine.lint.excerpt import excerpt, lines
from engine.lint.finding import Finding
from engine.lint.formats.lines import numbered, summary
from engine.lint.review import Review
from engine.plain import clean


def text(review: Review) -> str:
    """Every finding with its line, then how many there are."""
    written = {file: lines(content) for file, content in review.texts.items()}
    told = (line for each in review.findings for line in _told(each, written.get(each.file, [])))
    return "\n".join((*told, summary(review))) + "\n"


def _told(finding: Finding, written: list[str]) -> Iterator[str]:
    yield clean(str(finding), lines=False)
    yield from excerpt(written, finding.line, finding.column)
    yield from numbered(finding)
