"""Findings for editors and for search: one a line, with the steps that show it below."""

from collections.abc import Iterator

from engine.lint.finding import SEVERITIES, Finding
from engine.lint.review import Review
from engine.plain import clean


def lines(review: Review) -> str:
    """Every finding with its place, then how many there are."""
    told = (line for each in review.findings for line in _told(each))
    return "\n".join((*told, summary(review))) + "\n"


def _told(finding: Finding) -> Iterator[str]:
    yield clean(str(finding), lines=False)
    yield from numbered(finding)


def numbered(finding: Finding) -> Iterator[str]:
    """The steps that show a finding, one a line."""
    yield from (f"    {k}. {clean(str(stop), lines=False)}" for k, stop in enumerate(finding.path, 1))


def summary(review: Review) -> str:
    """What was read, what was found, and what is not told because somebody knows it already."""
    read = f"{_count(len(review.files), 'file')}, {_count(review.trees, 'tree')}"
    counts = {word: sum(each.severity == word for each in review.findings) for word in SEVERITIES}
    found = "nothing found"
    if review.findings:
        told = (_count(number, word) for word, number in counts.items() if number or word != "note")
        found = ", ".join(told)
    return f"{read}: {found}{''.join(_known(review))}."


def _known(review: Review) -> Iterator[str]:
    if review.accepted:
        yield f"; {len(review.accepted)} accepted"
    if review.old or review.mended:
        yield f"; {len(review.old)} in the backlog"
    if review.mended:
        yield f", {review.mended} of it mended (write it anew)"
    if review.left_out:
        yield f"; {review.left_out} not told by choice"


def _count(number: int, what: str) -> str:
    return f"{number} {what}{'' if number == 1 else 's'}"
