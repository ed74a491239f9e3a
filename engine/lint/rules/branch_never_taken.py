"""An answer or band that no walk can come to, because an earlier one rules it out.

What was seen or read holds until something is done to the vehicle: a question put again in the same words
has the same answer, and a reading of the same name lies where it lay. After a `do`, or a step that sets or
clears a state, all is open again. A branch is found only where it is ruled out on every sheet, and in a
procedure only where every tree that enters it rules it out.

Bad: whoever comes to `again` has read less than 12 mm.

    first: {measure: How much play?, bands: [{below: 12, then: again}, {from: 12, then: worn}]}
    again:
      measure: Is it near the limit?
      bands: [{below: 8, then: good}, {from: 8, upto: 12, then: watch}, {over: 12, then: worn}]

Good: one step with all the bands; or a `do` between the two, or another name for the second reading.

    first: {measure: How much play?, bands: [{below: 12, then: settle}, {from: 12, then: worn}]}
    settle: {do: Turn the shaft ten times so that it settles., then: again}
    again:
      measure: How much play is there now?
      bands: [{below: 8, then: good}, {from: 8, upto: 12, then: watch}, {over: 12, then: worn}]
"""

from collections import defaultdict
from collections.abc import Iterator
from typing import NamedTuple

from engine.lint.feasible import Feasible
from engine.lint.finding import Found
from engine.lint.rule import Scope
from engine.model.place import Place
from engine.model.tree import Ask, Document, Measure, Procedure, Step, Tree


class _Met(NamedTuple):
    """What all walks that enter a document come to; `whole` where every path of it may be taken."""

    whole: bool
    steps: frozenset[str]
    ways: frozenset[tuple[str, int]]


def check(scope: Scope) -> Iterator[Found]:
    """Every way out of a question or measurement that nobody can take, of steps that somebody comes to."""
    met: dict[Document, list[_Met]] = defaultdict(list)
    for tree in scope.library.trees.values():
        if scope.twice(tree):
            _tree(scope, tree, met)
    for document, all_met in met.items():
        known = scope.wanted(document.place.file) and _entered_alike(scope, document)
        if known and not any(one.whole for one in all_met):
            yield from _document(document, all_met)


def _tree(scope: Scope, tree: Tree, met: dict[Document, list[_Met]]) -> None:
    """Note what the walks through one tree come to, in it and in what it enters."""
    possible = [scope.feasible(tree, sheet) for sheet in scope.sheets(tree)]
    for document in scope.entered(tree):
        name = document.name if isinstance(document, Procedure) else ""
        met[document] += [_of(one, name) for one in possible] or [_of(None, name)]


def _of(possible: Feasible | None, name: str) -> _Met:
    if possible is None:
        return _Met(whole=True, steps=frozenset(), ways=frozenset())
    steps = frozenset(step for procedure, step in possible.steps if procedure == name)
    ways = frozenset((step, number) for procedure, step, number in possible.ways if procedure == name)
    return _Met(whole=False, steps=steps, ways=ways)


def _entered_alike(scope: Scope, document: Document) -> bool:
    """Whether every tree that enters the document asks something twice; in one that does not, all is open."""
    trees = (document,) if isinstance(document, Tree) else scope.library.trees.values()
    return all(scope.twice(tree) for tree in trees if document in scope.entered(tree))


def _document(document: Document, all_met: list[_Met]) -> Iterator[Found]:
    steps = frozenset[str]().union(*(one.steps for one in all_met))
    ways = frozenset[tuple[str, int]]().union(*(one.ways for one in all_met))
    for step in document.steps.values():
        if step.name in steps:
            for number, (said, place) in enumerate(_ways(step)):
                if (step.name, number) not in ways:
                    message = (
                        f"No walk takes {said} of `{step.name}`: an earlier answer or reading rules it out."
                    )
                    yield Found(place, message, "Take it out, or say with a `do` what is done in between.")


def _ways(step: Step) -> Iterator[tuple[str, Place]]:
    if isinstance(step, Ask):
        yield from ((f"the answer `{answer.say}`", answer.place) for answer in step.answers)
    elif isinstance(step, Measure):
        yield from ((f"band {number}", band.place) for number, band in enumerate(step.bands, 1))
