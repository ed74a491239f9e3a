"""Where a walk may stand, and every move from there, procedures entered and left as a walk does it."""

from collections.abc import Iterator, Mapping
from typing import NamedTuple

from engine.graph.known import NOTHING, Facts, Known
from engine.graph.onward import Onward
from engine.model.place import Place
from engine.model.tree import Document, Procedure, Run, Step, Tree, Verdict

#: (procedure, or empty for the tree; step).
Frame = tuple[str, str]


class At(NamedTuple):
    """Where a walk stands: the documents entered, which watched states hold, and what is known."""

    #: Outermost first.
    frames: tuple[Frame, ...]
    holds: frozenset[str]
    facts: Facts


class Move(NamedTuple):
    """One move: its words, where it leads, and which way out of the step it is."""

    said: str
    there: At
    number: int = 0


class Moves:
    """The moves through one tree for one vehicle, with only the watched states remembered."""

    def __init__(
        self,
        tree: Tree,
        procedures: Mapping[str, Procedure],
        onward: Onward,
        known: Known,
        watched: frozenset[str] = frozenset(),
    ) -> None:
        self._tree = tree
        self._procedures = procedures
        self._onward = onward
        self._known = known
        self._watched = watched

    def first(self) -> At:
        """Where every walk begins."""
        return At((("", self._tree.start),), frozenset(), NOTHING)

    def step(self, frame: Frame) -> Step | None:
        """The step of a frame; None where it names an outcome."""
        document: Document = self._procedures[frame[0]] if frame[0] else self._tree
        return document.steps.get(frame[1])

    def place(self, frame: Frame) -> Place:
        """Where the step of a frame is written; of an outcome, where its procedure is."""
        document: Document = self._procedures[frame[0]] if frame[0] else self._tree
        step = document.steps.get(frame[1])
        return step.place if step is not None else document.place

    def onward_from(self, here: At) -> Iterator[Move]:
        """Every move from here."""
        step = self.step(here.frames[-1])
        if step is None:
            yield from self._left(here)
        elif isinstance(step, Run):
            yield Move(f"runs {step.procedure}", self._entered(here, step.procedure, here.facts))
        elif isinstance(step, Verdict):
            # the correction was made: nothing that was seen before need hold any more
            for name in step.follow:
                said = f"verdict accepted, starts {name}"
                yield Move(said, self._entered(here, name, NOTHING))
        else:
            yield from self._ways(here, step)

    def _ways(self, here: At, step: Step) -> Iterator[Move]:
        procedure = here.frames[-1][0]
        for number, way in enumerate(self._onward.exits(step)):
            facts = self._known.after(procedure, step, number, here.facts, aside=way.aside)
            if facts is not None:
                holds = here.holds if way.aside else self._after(step, here.holds)
                frames = (*here.frames[:-1], (procedure, way.then))
                yield Move(way.label, self._at(frames, holds, facts), number)

    def _at(self, frames: tuple[Frame, ...], holds: frozenset[str], facts: Facts) -> At:
        return At(frames, holds, self._known.needed(frames, facts))

    def _entered(self, here: At, procedure: str, facts: Facts) -> At:
        frames = (*here.frames, (procedure, self._procedures[procedure].start))
        return self._at(frames, here.holds, facts)

    def _left(self, here: At) -> Iterator[Move]:
        """Out of a procedure by the outcome that the innermost frame names."""
        if len(here.frames) < 2:
            return
        outcome, above = here.frames[-1][1], here.frames[-2]
        step = self.step(above)
        if isinstance(step, Run) and outcome in step.outcomes:
            frames = (*here.frames[:-2], (above[0], step.outcomes[outcome]))
            facts = self._known.before(step, here.facts)
            yield Move(f"ends `{outcome}`", self._at(frames, self._after(step, here.holds), facts))
        elif isinstance(step, Verdict):
            yield Move(f"ends `{outcome}`", At(here.frames[:-1], here.holds, NOTHING))

    def _after(self, step: Step, holds: frozenset[str]) -> frozenset[str]:
        return (holds - frozenset(step.clears)) | (frozenset(step.sets) & self._watched)
