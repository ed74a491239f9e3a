"""Suspects that no path tells apart.

Two suspects are alike where every verdict convicts both or neither, and no answer or band has another
share for the one than for the other in `fits` (what `fits` leaves out shares the rest equally). Whoever
walks the tree can never learn which of them it was. Each group is told once, at its first suspect.

Bad: the only verdict that names one of them names both, and no `fits` differ.

    look: {ask: Is there play?, answers: [{say: Play, then: joints}, {say: None, then: refer}]}
    joints: {verdict: Joint worn, suspects: [left-joint, right-joint], grade: repair, correction: Renew it.}

Good: each has a verdict of its own; or they are one suspect, `joint`.

    look: {ask: On which side is play?, answers: [{say: Left, then: left}, {say: Right, then: right}]}
    left: {verdict: Left joint worn, suspects: [left-joint], grade: repair, correction: Renew it.}
    right: {verdict: Right joint worn, suspects: [right-joint], grade: repair, correction: Renew it.}
"""

from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction

from engine.belief.shares import rows, shares
from engine.lint.convicting import reached
from engine.lint.finding import Found
from engine.lint.rule import Scope
from engine.model.tree import Step, Tree, Verdict

Shares = tuple[Fraction, ...]


def check(scope: Scope) -> Iterator[Found]:
    """Every group of two or more suspects that are convicted alike and fit alike."""
    for tree in scope.trees:
        steps: Sequence[Step] | None = None
        for named in _convicted_alike(tree.suspects, tuple(tree.steps.values())):
            steps = steps or [tree.steps[name] for name in reached(scope, tree)]
            yield from _fit_alike(tree, named, steps)


def _convicted_alike(suspects: Mapping[str, object], steps: Sequence[Step]) -> list[list[str]]:
    """The suspects that the same verdicts convict, where some verdict does, in groups of two or more."""
    verdicts = [step for step in steps if isinstance(step, Verdict) and step.suspects]
    groups: dict[tuple[str, ...], list[str]] = {}
    for name in suspects:
        groups.setdefault(tuple(v.name for v in verdicts if name in v.suspects), []).append(name)
    return [named for convicted, named in groups.items() if convicted and len(named) > 1]


def _fit_alike(tree: Tree, named: Sequence[str], steps: Sequence[Step]) -> Iterator[Found]:
    groups: dict[tuple[Shares, ...], list[str]] = {}
    for name in named:
        groups.setdefault(tuple(_shares(step, name) for step in steps), []).append(name)
    for alike in groups.values():
        if len(alike) > 1:
            words = ", ".join(f"`{name}`" for name in alike[:-1]) + f" and `{alike[-1]}`"
            cure = "Add a step that tells them apart, or make them one suspect."
            yield Found(tree.suspects[alike[0]].place, f"No path tells {words} apart.", cure)


def _shares(step: Step, suspect: str) -> Shares:
    """How often each answer or band is met where this suspect is to blame."""
    said = rows(step)
    return shares(said, suspect) if said else ()
