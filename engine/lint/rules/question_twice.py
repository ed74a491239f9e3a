"""Two steps of one tree that ask in the same words.

A technician who reads the same question again takes it for the same question: the answer of before is
given, or the program is believed to be stuck. And whoever mends one of them forgets the other. Case and
spaces do not count.

Bad:

    look: {ask: Is the joint loose?, answers: [{say: Loose, then: tighten}, {say: Firm, then: end}]}
    tighten: {do: Tighten the bolts., then: look-again}
    look-again: {ask: Is the joint loose?, answers: [{say: Loose, then: renew}, {say: Firm, then: end}]}

Good: or both paths lead to one step.

    look: {ask: Is the joint loose?, answers: [{say: Loose, then: tighten}, {say: Firm, then: end}]}
    tighten: {do: Tighten the bolts., then: look-again}
    look-again:
      ask: With the bolts tightened, is the joint still loose?
      answers: [{say: Loose, then: renew}, {say: Firm, then: end}]
"""

from collections.abc import Iterator

from engine.lint.finding import Found
from engine.lint.rule import Scope
from engine.model.tree import Ask, Document, Measure


def check(scope: Scope) -> Iterator[Found]:
    """Every question or measurement in words that an earlier step of the document has used."""
    for document in scope.documents:
        yield from _document(document)


def _document(document: Document) -> Iterator[Found]:
    asked: dict[str, Ask | Measure] = {}
    for step in document.steps.values():
        if isinstance(step, Ask | Measure):
            first = asked.setdefault(" ".join(step.text.split()).casefold(), step)
            if first is not step:
                message = f"`{step.name}` asks in the same words as `{first.name}` at {first.place}."
                cure = "Say what is different this time, or let both paths lead to one step."
                yield Found(step.place, message, cure)
