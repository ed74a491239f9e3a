"""An acceptance that accepts nothing.

A document may let a finding stand, and says why: `accept` names the rule, the step where it is about one,
and the reason, which lint prints for whoever asks. An acceptance that no finding needs any more is told, so
that it does not hide the next one. What keeps a tree from being walked cannot be accepted: neither what a
file breaks while it is read, nor a rule that proves a tree wrong, such as `left-unsafe` or `band-gap`.

Bad: the step was mended, the acceptance was forgotten.

    accept:
      - {rule: no-unsure, step: look, reason: The joint is at eye level; nobody can fail to see it.}
    steps:
      look: {ask: Is it there?, answers: [{say: It is, then: a}, {say: It is not, then: b}], unsure: refer}

Good: the step is still as the acceptance says.

    accept:
      - {rule: no-unsure, step: look, reason: The joint is at eye level; nobody can fail to see it.}
    steps:
      look: {ask: Is it there?, answers: [{say: It is, then: a}, {say: It is not, then: b}]}
"""

from bisect import bisect_right
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from typing import Final

from engine.lint.finding import Finding
from engine.lint.review import Accepted
from engine.loading.library import Library
from engine.model.acceptance import Acceptance
from engine.nearest import meant

SLUG: Final = "accepts-nothing"


@dataclass(frozen=True)
class Acceptances:
    """What the documents of a library accept."""

    library: Library
    #: Every rule, and whether what it finds may be accepted.
    rules: Mapping[str, bool]
    _used: set[Acceptance] = field(default_factory=set)

    def part(self, findings: Iterable[Finding]) -> tuple[list[Finding], list[Accepted]]:
        """The findings that stand, and those that are accepted."""
        told: list[Finding] = []
        accepted: list[Accepted] = []
        for finding in findings:
            by = self._by(finding)
            if by is None:
                told.append(finding)
            else:
                self._used.add(by)
                accepted.append(Accepted(finding, by.reason))
        return told, accepted

    def _by(self, finding: Finding) -> Acceptance | None:
        for each in self.library.accepted.get(finding.file, ()):
            meant_here = each.rule == finding.rule and self.rules.get(each.rule)
            if meant_here and each.step in ("", self._step(finding)):
                return each
        return None

    def _step(self, finding: Finding) -> str:
        """The step that a place lies in: the last one that begins before it."""
        steps = self._steps(finding.file)
        number = bisect_right(steps, (finding.line, finding.column, "~"))
        return steps[number - 1][2] if number else ""

    def _steps(self, file: str) -> list[tuple[int, int, str]]:
        documents = (*self.library.trees.values(), *self.library.procedures.values())
        own = (
            step for document in documents if document.place.file == file for step in document.steps.values()
        )
        return sorted((step.place.line, step.place.column, step.name) for step in own)

    def idle(self, files: Iterable[str]) -> Iterator[Finding]:
        """A finding for each acceptance in these files that nothing needed."""
        for file in files:
            for each in self.library.accepted.get(file, ()):
                if each not in self._used:
                    yield Finding(*each.place, SLUG, "warning", *self._why(each))

    def _why(self, idle: Acceptance) -> tuple[str, str]:
        """Message and cure."""
        if idle.rule not in self.rules:
            return f"There is no rule `{idle.rule}`.", meant(idle.rule, self.rules)
        if not self.rules[idle.rule]:
            told = f"`{idle.rule}` cannot be accepted: what it finds fault with is not walked."
            return told, "Mend the document, and take the acceptance away."
        names = [name for _, _, name in self._steps(idle.place.file)]
        if idle.step and idle.step not in names:
            return f"There is no step `{idle.step}` here.", meant(idle.step, names)
        return f"`{idle.rule}` finds nothing here to be accepted.", "Take the acceptance away."
