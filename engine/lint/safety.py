"""What may go wrong with the states of the vehicle, over every path of every tree for every vehicle.

A tree's steps are looked at as they stand; those of a procedure under every tree and step that runs or
follows it. Sheets that answer all sorts alike are one vehicle here.
"""

from collections.abc import Iterator, Mapping
from typing import TYPE_CHECKING, Literal, NamedTuple

from engine.graph.holding import Bits, Holding, May
from engine.graph.moves import Moves
from engine.graph.onward import Onward
from engine.graph.witness import Goal, shortest
from engine.lint.asked import limits_used
from engine.model.place import Place
from engine.model.stop import Stop
from engine.model.tree import Document, Procedure, Run, Sort, Step, Tree, Verdict
from engine.model.vehicle import Sheet

if TYPE_CHECKING:
    from engine.lint.rule import Scope

Kind = Literal["lacks", "holds", "left", "together", "twice", "unset"]


class Fault(NamedTuple):
    """One state (or two) at one step, with the shortest walk that shows it."""

    kind: Kind
    tree: str
    step: str
    place: Place
    states: tuple[str, ...]
    path: tuple[Stop, ...]


def faults(scope: "Scope") -> Iterator[Fault]:
    """Every fault that can happen on some path, and every set or clear that never changes anything."""
    bits = Bits(scope.library.shop.states)
    seen: dict[str, Holding] = {}
    met: dict[tuple[bool, str, str], May] = {}
    told: set[tuple[str, Place, tuple[str, ...]]] = set()
    for tree in scope.library.trees.values():
        if not _sound(scope, tree):
            continue
        for sheet in _vehicles(scope, tree):
            if sheet.name not in seen:
                procedures = scope.library.procedures
                seen[sheet.name] = Holding(bits, procedures, Onward(procedures, sheet.facts))
            course = _Course(scope, tree, sheet, seen[sheet.name])
            course.note(met)
            for fault in course.faults():
                key = (fault.kind, fault.place, fault.states)
                if key not in told and scope.wanted(fault.place.file):
                    told.add(key)
                    yield fault
    yield from _idle(scope, bits, met)


def _sound(scope: "Scope", tree: Tree) -> bool:
    """Whether there is something to prove, and walks end; what keeps them from it is told elsewhere."""
    return "state" in scope.kinds(tree) and scope.walkable(tree)  # else nothing of the vehicle is said at all


def _vehicles(scope: "Scope", tree: Tree) -> list[Sheet]:
    """The vehicles that the tree is for, one of those on which every walk goes the same ways."""
    steps = (step for document in scope.entered(tree) for step in document.steps.values())
    facts = sorted({step.fact for step in steps if isinstance(step, Sort)})
    limits = sorted(limits_used(scope.twice(tree)))
    kinds = {
        (
            *(sheet.facts.get(fact, "") for fact in facts),
            *((sheet.limits[limit][:2] if limit in sheet.limits else None) for limit in limits),
        ): sheet
        for sheet in scope.sheets(tree)
    }
    return list(kinds.values())


class _Course:
    """One tree for one vehicle: what may hold at every step of it and of what it enters."""

    def __init__(self, scope: "Scope", tree: Tree, sheet: Sheet, holding: Holding) -> None:
        self._scope = scope
        self._tree = tree
        self._bits = holding.bits
        self._procedures = scope.library.procedures
        self._known = scope.known(tree, sheet)
        self._holding = holding
        self._entries: dict[str, May] = {"": May(0, holding.bits.all)}
        self._spread()

    def _document(self, name: str) -> Document:
        return self._procedures[name] if name else self._tree

    def _spread(self) -> None:
        """Hand what may hold to every procedure entered, until nothing is new."""
        waiting = [""]
        while waiting:
            document = self._document(waiting.pop())
            for step, may in self._steps(document):
                for name, entry in self._enters(step, may):
                    before = self._entries.get(name)
                    after = entry if before is None else before.either(entry)
                    if after != before:
                        self._entries[name] = after
                        waiting.append(name)

    def _enters(self, step: Step, may: May) -> Iterator[tuple[str, May]]:
        if isinstance(step, Run):
            yield step.procedure, may
        elif isinstance(step, Verdict):
            after = self._after_follows(step, may)
            yield from ((name, after) for name in step.follow)

    def _after_follows(self, step: Verdict, may: May) -> May:
        """What may hold at a verdict once its procedures have been followed, in any order and number."""
        while True:
            after = may
            for name in step.follow:
                document = self._procedures[name]
                relations = self._holding.relations(document)
                for outcome in document.outcomes:
                    if outcome in relations:
                        after = after.either(may.through(relations[outcome]))
            if after == may:
                return may
            may = after

    def _steps(self, document: Document) -> Iterator[tuple[Step, May]]:
        entry = self._entries[document.name if isinstance(document, Procedure) else ""]
        relations = self._holding.relations(document)
        for name, step in document.steps.items():
            if name in relations:
                yield step, entry.through(relations[name])

    def note(self, met: dict[tuple[bool, str, str], May]) -> None:
        """Add what may hold at each step to what may hold there under other trees and vehicles."""
        for name in self._entries:
            document = self._document(name)
            for step, may in self._steps(document):
                key = (bool(name), document.name, step.name)
                met[key] = met[key].either(may) if key in met else may

    def faults(self) -> Iterator[Fault]:
        """Every fault of this course."""
        states = self._scope.library.shop.states
        must_clear = self._bits.mask(tuple(name for name, state in states.items() if state.must_clear))
        for name in self._entries:
            for step, may in self._steps(self._document(name)):
                yield from self._each("lacks", name, step, self._bits.mask(step.needs) & may.lack)
                yield from self._each("holds", name, step, self._bits.mask(step.forbids) & may.hold)
                yield from self._together(name, step, may)
                if isinstance(step, Verdict):
                    left = self._after_follows(step, may)
                    yield from self._each("left", name, step, must_clear & left.hold)

    def _each(self, kind: Kind, procedure: str, step: Step, mask: int) -> Iterator[Fault]:
        for state in self._bits.listed(mask):
            hold = frozenset(() if kind == "lacks" else (state,))
            path = self._path(procedure, step, hold, frozenset((state,)) - hold)
            if path:
                yield Fault(kind, self._tree.name, step.name, step.place, (state,), path)

    def _together(self, procedure: str, step: Step, may: May) -> Iterator[Fault]:
        """The step sets a state while one that it excludes may hold and is not cleared here."""
        kept = may.hold & ~self._bits.mask(step.clears) | self._bits.mask(step.sets)
        for state in step.sets:
            for other in self._excluded(state):
                if self._bits.mask((other,)) & kept:
                    hold = frozenset((other,)) - frozenset(step.sets)
                    path = self._path(procedure, step, hold, frozenset())
                    if path:
                        both = tuple(sorted((state, other)))
                        yield Fault("together", self._tree.name, step.name, step.place, both, path)

    def _excluded(self, state: str) -> tuple[str, ...]:
        """The states that cannot hold together with this one, whichever of the two says so."""
        states = self._scope.library.shop.states
        own = states[state].excludes if state in states else ()
        return tuple(
            dict.fromkeys((*own, *(name for name, other in states.items() if state in other.excludes)))
        )

    def _path(
        self, procedure: str, step: Step, hold: frozenset[str], lack: frozenset[str]
    ) -> tuple[Stop, ...]:
        moves = Moves(self._tree, self._procedures, self._holding.onward, self._known, hold | lack)
        return shortest(moves, Goal(procedure, step.name, hold, lack))


def _idle(scope: "Scope", bits: Bits, met: Mapping[tuple[bool, str, str], May]) -> Iterator[Fault]:
    """A state set where it holds already, or cleared where it does not, on all paths of all trees."""
    for document in scope.documents if met else ():
        for step in document.steps.values():
            may = met.get((isinstance(document, Procedure), document.name, step.name))
            if may is None:
                continue
            for state in bits.listed(bits.mask(step.sets) & ~may.lack):
                yield Fault("twice", "", step.name, step.place, (state,), ())
            for state in bits.listed(bits.mask(step.clears) & ~may.hold):
                yield Fault("unset", "", step.name, step.place, (state,), ())
