"""All rules over a library: the findings, sorted by place."""

from typing import NamedTuple

from engine.lint.accepting import Acceptances
from engine.lint.finding import Finding, of
from engine.lint.registry import RULES
from engine.lint.review import Accepted
from engine.lint.rule import Rule, Scope
from engine.loading.library import Library


class Weighed(NamedTuple):
    """The findings that stand, and those that their documents accept."""

    findings: tuple[Finding, ...]
    accepted: tuple[Accepted, ...] = ()


def run(library: Library, files: frozenset[str] = frozenset(), vehicle: str = "") -> tuple[Finding, ...]:
    """Every finding in these files (all files where none are named) that stands, sorted, each told once.

    With a vehicle, only what is amiss on that one.
    """
    return weigh(library, files, vehicle).findings


def weigh(library: Library, files: frozenset[str] = frozenset(), vehicle: str = "") -> Weighed:
    """The same, and beside it what the documents accept."""
    every = met(library, files, vehicle)
    if not library.accepted:
        return Weighed(every)
    acceptances = Acceptances(library, {rule.slug: not rule.bars for rule in RULES})
    told, accepted = acceptances.part(every)
    if not vehicle:  # another vehicle may need what this one does not
        told.extend(acceptances.idle(files or library.accepted))
    return Weighed(tuple(sorted(told)), tuple(accepted))


def met(
    library: Library,
    files: frozenset[str] = frozenset(),
    vehicle: str = "",
    rules: tuple[Rule, ...] = RULES,
) -> tuple[Finding, ...]:
    """Every finding of these rules, whether or not a document accepts it."""
    scope = Scope(library, files, vehicle)
    findings = {of(problem) for problem in library.problems if scope.wanted(problem.file)}
    for rule in rules:
        findings.update(
            Finding(*found.place, rule.slug, rule.severity, found.message, found.cure, found.path)
            for found in rule.check(scope)
        )
    return tuple(sorted(findings))
