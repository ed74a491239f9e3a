"""A step that tells of a hazard, and carries no caution that is meant for it.

The cautions of the shop list the words that call for them (`words:` in cautions.yaml). Where one of these
words stands in what a step says, in any inflection, the step itself carries that caution, or another one
that lists the word: whoever comes to the step reads it then, whatever was read before.

Bad: `raise` calls for `raising`.

    lift: {do: Raise it until the wheels hang clear., then: turn}

Good:

    lift: {do: Raise it until the wheels hang clear., cautions: [raising], then: turn}
"""

from collections.abc import Iterable, Iterator, Mapping

from engine.graph.exits import targets
from engine.lint.finding import Found
from engine.lint.hazards import Hazard, Hazards
from engine.lint.rule import Scope
from engine.model.tree import Ask, Do, Document, Measure, Procedure


def check(scope: Scope) -> Iterator[Found]:
    """Every step with a word that calls for a caution which is not there; the same cautions once."""
    hazards = Hazards(scope.library.shop.cautions.values())
    for document in scope.documents:
        steps = [step for step in document.steps.values() if isinstance(step, Do | Ask | Measure)]
        if among := hazards.among(step.text for step in steps):
            read = _read(document) if isinstance(document, Procedure) else {}
            for step in steps:
                yield from _step(step, among, read.get(step.name, frozenset()))


def _read(document: Document) -> Mapping[str, frozenset[str]]:
    """The cautions that every way through the document to each step has met."""
    read = {document.start: frozenset[str]()}
    waiting = [document.start]
    while waiting:
        name = waiting.pop()
        step = document.steps.get(name)
        if step is None:
            continue  # an outcome
        after = read[name].union(step.cautions)
        for target in targets(step):
            if target not in read or not read[target] <= after:
                read[target] = read.get(target, after) & after
                waiting.append(target)
    return read


def _step(step: Do | Ask | Measure, among: Iterable[Hazard], read: frozenset[str]) -> Iterator[Found]:
    told = set()
    text = step.text.lower()
    for hazard in among:
        carried = not read.union(step.cautions).isdisjoint(hazard.cautions)
        if not carried and hazard.cautions not in told and hazard.told(text):
            told.add(hazard.cautions)
            yield Found(
                step.place,
                f"`{step.name}` says `{hazard.word}` and carries no caution for it.",
                f"Add {' or '.join(f'`{name}`' for name in hazard.cautions)} to its cautions.",
            )
