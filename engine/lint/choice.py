"""Which rules are told: all of them, only some, or all but some."""

from collections.abc import Iterable
from typing import NamedTuple

from engine.errors import Failure
from engine.lint.finding import Finding
from engine.lint.pages import READING, slugs
from engine.nearest import meant


class Choice(NamedTuple):
    """Rules by their slugs. What keeps a file from being read at all is always told."""

    only: frozenset[str]
    without: frozenset[str]

    def tells(self, finding: Finding) -> bool:
        """Whether a finding is told."""
        if finding.rule in READING:
            return True
        return (not self.only or finding.rule in self.only) and finding.rule not in self.without


def choice(only: Iterable[str], without: Iterable[str]) -> Choice:
    """The choice that was asked for; Failure for a slug that is none, or that cannot be left out.

    >>> choice([], ["loop"]).without
    frozenset({'loop'})
    """
    chosen = Choice(frozenset(only), frozenset(without))
    for slug in sorted(chosen.only | chosen.without):
        if slug in READING:
            told = f"`{slug}` is told whatever is chosen: a file that cannot be read was not checked."
            raise Failure(told, "Mend the file, or leave it out.")
        if slug not in slugs():
            raise Failure(f"There is no rule `{slug}`.", meant(slug, slugs()))
    return chosen
