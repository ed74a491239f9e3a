"""What a run of lint has to tell, in whatever form it is told."""

from collections.abc import Mapping
from typing import NamedTuple

from engine.lint.finding import Finding


class Accepted(NamedTuple):
    """A finding that its document accepts, and why."""

    finding: Finding
    reason: str


class Review(NamedTuple):
    """The findings in the files that were asked for."""

    findings: tuple[Finding, ...]
    #: The files that were asked for, as their places are shown.
    files: frozenset[str]
    #: How many trees are in them.
    trees: int
    #: The text of each file with findings, as far as it could be read.
    texts: Mapping[str, str]
    #: What the documents accept, each with its reason; no finding counts twice.
    accepted: tuple[Accepted, ...] = ()
    #: What the backlog holds already.
    old: tuple[Finding, ...] = ()
    #: How many findings of the backlog are there no more.
    mended: int = 0
    #: How many findings are not told, because only some rules were chosen.
    left_out: int = 0

    @property
    def amiss(self) -> bool:
        """Whether anything but notes was found."""
        return any(finding.severity != "note" for finding in self.findings)
