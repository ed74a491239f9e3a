"""Where a walk stands: a frozen value that the events of its case have made."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from types import MappingProxyType
from typing import NamedTuple

from engine.belief.update import Belief
from engine.interview.question import TrailLine
from engine.loading.library import Library
from engine.model.tree import Document, Step, Tree
from engine.model.vehicle import Sheet
from engine.records.event import Confirmed, Undecided


class Frame(NamedTuple):
    """One document that the walk is inside of, and the step it stands at there."""

    #: Empty for the tree itself, else the procedure's name.
    procedure: str
    step: str


@dataclass(frozen=True, slots=True)
class Past:
    """Something settled: its line of the trail, and the whole state just before it."""

    line: TrailLine
    #: Follows from the events as the rest does; compared or written out, each would again hold all before it.
    before: "State" = field(compare=False, repr=False)


class State(NamedTuple):
    """The walk after its last event. Stepping back returns to a `before`, so it is exact by design."""

    library: Library
    tree: Tree
    sheet: Sheet
    #: Number of the last event.
    sequence: int
    #: Outermost first; never empty.
    frames: tuple[Frame, ...]
    #: What is believed of each suspect by all that was settled so far.
    belief: Belief
    #: States of the vehicle that hold.
    holds: frozenset[str] = frozenset()
    #: Cautions acknowledged for the step that stands open.
    acknowledged: tuple[str, ...] = ()
    past: tuple[Past, ...] = ()
    #: Remarks written down, with the step they were written at.
    notes: tuple[tuple[str, str], ...] = ()
    #: States that differ between the vehicle and the walk since a step back.
    reminders: tuple[str, ...] = ()
    concluded: bool = False
    #: What was read at the open step and is too close to call; its line is then the last of the past.
    undecided: Undecided | None = None
    #: What was told last after the repair of the accepted verdict.
    confirmed: Confirmed | None = None
    #: How each followed procedure ended.
    followed: Mapping[str, str] = MappingProxyType({})

    @property
    def document(self) -> Document:
        """The document that the walk is in."""
        name = self.frames[-1].procedure
        return self.library.procedures[name] if name else self.tree

    @property
    def step(self) -> Step:
        """The step that stands open."""
        return self.document.steps[self.frames[-1].step]

    @property
    def where(self) -> str:
        """The open step as `step` or `procedure/step`."""
        frame = self.frames[-1]
        return f"{frame.procedure}/{frame.step}" if frame.procedure else frame.step

    @property
    def settled(self) -> tuple[Past, ...]:
        """The past without the line of a reading that has yet to be decided."""
        return self.past[:-1] if self.undecided else self.past

    @property
    def accepted(self) -> bool:
        """Whether the walk stands at its accepted verdict, outside every procedure that follows it."""
        return self.concluded and len(self.frames) == 1

    @property
    def pending(self) -> tuple[str, ...]:
        """Cautions of the open step that are not acknowledged yet; those of an accepted verdict were."""
        if self.accepted:
            return ()
        return tuple(name for name in self.step.cautions if name not in self.acknowledged)
