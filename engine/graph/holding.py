"""Which states of the vehicle may hold at a step, and which may not, over every path that leads there.

Each state is followed by itself, all of them at once as bits of whole numbers. A document is worked out
once as a relation from what holds when it is entered to what may hold at each of its steps; a procedure
that is run is then one such relation, whoever runs it. One pass in the order of the steps is exact, since
documents have no loops and a path's course does not depend on what holds.
"""

from collections.abc import Iterator, Mapping
from typing import NamedTuple

from engine.graph.onward import Onward
from engine.model.tree import Document, Procedure, Run, Step


class May(NamedTuple):
    """The states that may hold, and those that may not, as bits; a state can be in both."""

    hold: int
    lack: int

    def either(self, other: "May") -> "May":
        """What may be where one or the other path was taken."""
        return May(self.hold | other.hold, self.lack | other.lack)

    def through(self, relation: "Relation") -> "May":
        """What may be after a stretch that turns what holds as the relation says."""
        return May(
            (self.hold & relation.held.hold) | (self.lack & relation.lacked.hold),
            (self.hold & relation.held.lack) | (self.lack & relation.lacked.lack),
        )


class Relation(NamedTuple):
    """What may be of each state that held before, and of each that did not."""

    held: May
    lacked: May

    def either(self, other: "Relation") -> "Relation":
        """The relation where one or the other path was taken."""
        return Relation(self.held.either(other.held), self.lacked.either(other.lacked))

    def then(self, other: "Relation") -> "Relation":
        """The relation of one stretch after the other."""
        return Relation(self.held.through(other), self.lacked.through(other))


class Bits:
    """The states of a library, each with its bit."""

    def __init__(self, names: Iterator[str] | Mapping[str, object]) -> None:
        self.names = tuple(names)
        self.all = (1 << len(self.names)) - 1
        self.same = Relation(May(self.all, 0), May(0, self.all))
        self._bit = {name: 1 << number for number, name in enumerate(self.names)}

    def mask(self, names: tuple[str, ...]) -> int:
        """The bits of these states; a name that is none has no bit."""
        return sum(self._bit.get(name, 0) for name in dict.fromkeys(names))

    def listed(self, mask: int) -> tuple[str, ...]:
        """The states of these bits."""
        return tuple(name for name in self.names if self._bit[name] & mask)

    def change(self, step: Step) -> Relation:
        """What a step makes of each state: it sets some and clears others; what it sets it does not clear."""
        sets = self.mask(step.sets)
        clears = self.mask(step.clears) & ~sets
        kept = self.all & ~sets & ~clears
        return Relation(May(kept | sets, clears), May(sets, kept | clears))


Relations = Mapping[str, Relation]


class Holding:
    """The library as one vehicle sees it, with the relations of its documents once worked out."""

    def __init__(self, bits: Bits, procedures: Mapping[str, Procedure], onward: Onward) -> None:
        self.bits = bits
        self._procedures = procedures
        self.onward = onward
        self._known: dict[tuple[bool, str], Relations] = {}

    def relations(self, document: Document) -> Relations:
        """From the document's entry to each of its steps (and outcomes) that this vehicle can come to."""
        key = (isinstance(document, Procedure), document.name)
        if key not in self._known:
            self._known[key] = self._work_out(document)
        return self._known[key]

    def _work_out(self, document: Document) -> Relations:
        out = {document.start: self.bits.same}
        for name in self.onward.order(document):
            # a way out of a run that its procedure never takes for this vehicle leads nowhere
            for target, relation in self.beyond(document.steps[name]) if name in out else ():
                reached = out[name].then(relation)
                out[target] = out[target].either(reached) if target in out else reached
        return out

    def beyond(self, step: Step) -> Iterator[tuple[str, Relation]]:
        """Each target of a step with what the step (and what it runs) makes of the states on that way."""
        change = self.bits.change(step)
        if isinstance(step, Run):
            ends = self.relations(self._procedures[step.procedure])
            for outcome, target in step.outcomes.items():
                if outcome in ends:
                    yield target, ends[outcome].then(change)
            return
        for way in self.onward.exits(step):
            yield way.then, self.bits.same if way.aside else change
