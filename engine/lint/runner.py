"""All rules over a library: the findings, sorted by place."""

from engine.lint.finding import Finding, of
from engine.lint.registry import RULES
from engine.lint.rule import Scope
from engine.loading.library import Library


def run(library: Library, files: frozenset[str] = frozenset(), vehicle: str = "") -> tuple[Finding, ...]:
    """Every finding in these files (all files where none are named), sorted and each told once.

    With a vehicle, only what is amiss on that one.
    """
    scope = Scope(library, files, vehicle)
    findings = {of(problem) for problem in library.problems if scope.wanted(problem.file)}
    for rule in RULES:
        findings.update(
            Finding(*found.place, rule.slug, rule.severity, found.message, found.cure, found.path)
            for found in rule.check(scope)
        )
    return tuple(sorted(findings))
