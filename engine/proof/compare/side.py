"""One version of a document as one vehicle walks it: where a walk stands, and where each way out leads."""

from collections.abc import Iterator, Mapping
from typing import NamedTuple

from engine.graph.exits import targets
from engine.model.place import Place
from engine.model.tree import Document, Procedure, Run, Sort, Step, Verdict
from engine.model.vehicle import Sheet

#: Where a walk stands: the runs it is inside of, outermost first, and at last the step or the end. Each is
#: (document, step), the document walked itself under the empty name.
Position = tuple[tuple[str, str], ...]
#: What is asked there, by the old names: equal in both versions where the same is asked.
Key = tuple[tuple[str, str], ...]
#: The version has no way on.
NOWHERE: Position = ()


class Names(NamedTuple):
    """How what is asked is told in both versions alike."""

    #: The old names by the new ones, for each document; empty for the old version itself.
    old: Mapping[str, Mapping[str, str]]
    #: A number for each key, shared by both versions.
    numbers: dict[Key, int]

    def key(self, position: Position) -> Key:
        """What is asked at a position: steps by their old names, new ones with a mark before."""
        return tuple((d, self.old[d].get(n, f"+{n}")) if d in self.old else (d, n) for d, n in position)

    def bit(self, key: Key) -> int:
        """The bit that stands for a key in a set of them."""
        return 1 << self.numbers.setdefault(key, len(self.numbers))


class Side:
    """A document in one version of its library, for one vehicle.

    Procedures named in `whole` are not entered: their outcomes are what is answered.
    """

    def __init__(
        self,
        document: Document,
        procedures: Mapping[str, Procedure],
        sheet: Sheet | None,
        whole: frozenset[str],
        names: Names,
    ) -> None:
        self.root = document
        self.procedures = procedures
        self.sheet = sheet
        self.key = names.key
        self.bit = names.bit
        self.whole = whole
        self._ahead: dict[Position, int] = {NOWHERE: 0}

    def document(self, name: str) -> Document:
        """The document that a position names."""
        return self.procedures[name] if name else self.root

    def has(self, document: str, step: str) -> bool:
        """Whether this version has a step."""
        held = self.procedures.get(document) if document else self.root
        return held is not None and step in held.steps

    def start(self) -> Position:
        """Where the walk begins."""
        return self._settle((), "", self.root.start)

    def step(self, position: Position) -> Step | None:
        """The step at a position; None at an outcome, and nowhere."""
        if not position:
            return None
        document, name = position[-1]
        return self.document(document).steps.get(name)

    def asks(self, position: Position) -> bool:
        """Whether something is asked there: it is neither nowhere nor an end."""
        step = self.step(position)
        return step is not None and not isinstance(step, Verdict)

    def place(self, position: Position) -> Place | None:
        """Where what stands there is written."""
        step = self.step(position)
        if step is not None:
            return step.place
        return self.root.place if position else None

    def leave(self, position: Position, then: str) -> Position:
        """Where a way out of the step at a position leads; nowhere where `then` is empty."""
        return self._settle(position[:-1], position[-1][0], then)

    def _settle(self, calls: Position, document: str, name: str) -> Position:
        """The next position where something is asked or all is over: sorts, runs and returns are passed."""
        while True:
            step = self.document(document).steps.get(name)
            if isinstance(step, Sort):
                name = step.cases.get(self.sheet.facts.get(step.fact, ""), "") if self.sheet else ""
            elif isinstance(step, Run) and step.procedure not in self.whole:
                if step.procedure not in self.procedures:
                    return NOWHERE
                calls = (*calls, (document, name))
                document, name = step.procedure, self.procedures[step.procedure].start
            elif step is None and calls:
                calls, (document, run) = calls[:-1], calls[-1]
                step = self.document(document).steps[run]
                assert isinstance(step, Run)
                name = step.outcomes.get(name, "")
            elif step is None and not self._outcome(name):
                return NOWHERE
            else:
                return (*calls, (document, name))

    def _outcome(self, name: str) -> bool:
        return isinstance(self.root, Procedure) and name in self.root.outcomes

    def ahead(self, position: Position) -> int:
        """All that may still be asked from a position on, that which is asked there included.

        As bits of one number, each the `bit` of its key: a large tree has many such sets.
        """
        waiting = [position]
        while waiting:
            here = waiting[-1]
            following = [p for p in self._following(here) if p not in self._ahead]
            if here in self._ahead or not following:
                waiting.pop()
                self._note(here)
            else:
                waiting.extend(following)
        return self._ahead[position]

    def _note(self, here: Position) -> None:
        if here not in self._ahead:
            bits = self.bit(self.key(here)) if self.asks(here) else 0
            for after in self._following(here):
                bits |= self._ahead[after]
            self._ahead[here] = bits

    def _following(self, position: Position) -> Iterator[Position]:
        step = self.step(position)
        if step is not None:
            yield from (self.leave(position, then) for then in targets(step))
