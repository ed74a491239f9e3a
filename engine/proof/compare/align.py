"""Which step of the new version is which step of the old one: by name first, then by equal words."""

from collections.abc import Hashable, Iterable, Mapping
from typing import NamedTuple

from engine.model.tree import Ask, Do, Document, Measure, Procedure, Run, Sort, Step, Verdict
from engine.quantity import dimension


class Alignment(NamedTuple):
    """Old names and the new names of the same steps and outcomes; what is in neither was added or removed."""

    steps: Mapping[str, str]
    outcomes: Mapping[str, str]

    @property
    def targets(self) -> Mapping[str, str]:
        """Everything that a way out may lead to."""
        return {**self.steps, **self.outcomes}


def align(old: Document, new: Document) -> Alignment:
    """Pair the steps and outcomes of two versions.

    Steps of one name pair where they ask for the same kind of thing. Of the others, those pair whose
    words are equal and stand once in either version: they were renamed.
    """
    return Alignment(_paired(_words(old), _words(new)), _paired(_ends(old), _ends(new)))


def _words(document: Document) -> Mapping[str, tuple[Hashable, Hashable]]:
    """What each step must share to be the same under one name, and under another."""
    return {name: (kind(step), words(step)) for name, step in document.steps.items()}


def _ends(document: Document) -> Mapping[str, tuple[Hashable, Hashable]]:
    outcomes = document.outcomes if isinstance(document, Procedure) else {}
    return {name: ("outcome", text) for name, text in outcomes.items()}


def kind(step: Step) -> Hashable:
    """What a step asks for: two steps of other kinds are never the same question."""
    if isinstance(step, Measure):
        return "measure", step.figure, step.gives, dimension(step.unit)
    return type(step).__name__.lower()


def words(step: Step) -> str:
    """The words of a step: its text, what it runs, or what it sorts by."""
    match step:
        case Do() | Ask() | Measure() | Verdict():
            return step.text
        case Run():
            return step.procedure
        case Sort():
            return step.fact
        case _:
            return ""


def _paired(
    old: Mapping[str, tuple[Hashable, Hashable]], new: Mapping[str, tuple[Hashable, Hashable]]
) -> Mapping[str, str]:
    kept = {name: name for name, key in old.items() if name in new and new[name][0] == key[0]}
    before = once((key, name) for name, key in old.items() if name not in kept)
    after = once((key, name) for name, key in new.items() if name not in kept)
    return kept | {before[key]: after[key] for key in before if key in after}


def once(pairs: Iterable[tuple[Hashable, str]]) -> Mapping[Hashable, str]:
    """The names by key, of keys that stand there once only."""
    found: dict[Hashable, str] = {}
    twice: set[Hashable] = set()
    for key, name in pairs:
        if key in found:
            twice.add(key)
        found[key] = name
    return {key: name for key, name in found.items() if key not in twice}
