"""The shortest walk that comes to a step while certain states hold: the proof that it can happen."""

from collections import deque
from collections.abc import Iterator, Mapping
from typing import NamedTuple

from engine.graph.onward import Onward
from engine.model.tree import Document, Procedure, Run, Step, Tree, Verdict


class _At(NamedTuple):
    """Where a walk stands: the documents entered, each with its step, and which watched states hold."""

    #: (procedure or empty, step), outermost first.
    frames: tuple[tuple[str, str], ...]
    holds: frozenset[str]


class Goal(NamedTuple):
    """A step of a document (empty: the tree), with watched states that hold there and that do not."""

    procedure: str
    step: str
    hold: frozenset[str]
    lack: frozenset[str]

    def met(self, here: _At) -> bool:
        """Whether a walk that stands here has come to it."""
        there = here.frames[-1] == (self.procedure, self.step)
        return there and self.hold <= here.holds and not self.lack & here.holds


def shortest(tree: Tree, procedures: Mapping[str, Procedure], onward: Onward, goal: Goal) -> tuple[str, ...]:
    """One sentence a step, from the tree's start to the goal; empty where no walk comes to it.

    Breadth first over where the walk stands and the watched states alone, procedures entered and
    left as a walk does it.
    """
    walk = _Walk(tree, procedures, onward, goal.hold | goal.lack)
    first = _At((("", tree.start),), frozenset())
    came: dict[_At, tuple[_At, str] | None] = {first: None}
    waiting = deque([first])
    while waiting:
        here = waiting.popleft()
        if (
            here.frames[-1] == (goal.procedure, goal.step)
            and goal.hold <= here.holds
            and not goal.lack & here.holds
        ):
            return _told(came, here)
        for said, there in walk.onward_from(here):
            if there not in came:
                came[there] = (here, said)
                waiting.append(there)
    return ()


def _told(came: Mapping[_At, tuple[_At, str] | None], here: _At) -> tuple[str, ...]:
    lines = [_name(here)]
    link = came[here]
    while link is not None:
        before, said = link
        lines.append(f"{_name(before)}: {said}")
        link = came[before]
    return tuple(reversed(lines))


def _name(here: _At) -> str:
    procedure, step = here.frames[-1]
    return f"{procedure}/{step}" if procedure else step


class _Walk:
    """The moves of a walk, with only the watched states remembered."""

    def __init__(
        self, tree: Tree, procedures: Mapping[str, Procedure], onward: Onward, watched: frozenset[str]
    ) -> None:
        self._tree = tree
        self._procedures = procedures
        self._onward = onward
        self._watched = watched

    def onward_from(self, here: _At) -> Iterator[tuple[str, _At]]:
        """Every move from here, with its words."""
        step = self._open(here.frames[-1])
        if step is None:
            yield from self._left(here)
        elif isinstance(step, Run):
            yield f"runs {step.procedure}", self._entered(here, step.procedure)
        elif isinstance(step, Verdict):
            yield from ((f"verdict accepted, starts {p}", self._entered(here, p)) for p in step.follow)
        else:
            for way in self._onward.exits(step):
                holds = here.holds if way.aside else self._after(step, here.holds)
                yield way.label, _At((*here.frames[:-1], (here.frames[-1][0], way.then)), holds)

    def _open(self, frame: tuple[str, str]) -> Step | None:
        document: Document = self._procedures[frame[0]] if frame[0] else self._tree
        return document.steps.get(frame[1])

    def _entered(self, here: _At, procedure: str) -> _At:
        return _At((*here.frames, (procedure, self._procedures[procedure].start)), here.holds)

    def _left(self, here: _At) -> Iterator[tuple[str, _At]]:
        """Out of a procedure by the outcome that the innermost frame names."""
        if len(here.frames) < 2:
            return
        outcome, above = here.frames[-1][1], here.frames[-2]
        step = self._open(above)
        if isinstance(step, Run) and outcome in step.outcomes:
            frame = (above[0], step.outcomes[outcome])
            yield f"ends `{outcome}`", _At((*here.frames[:-2], frame), self._after(step, here.holds))
        elif isinstance(step, Verdict):
            yield f"ends `{outcome}`", _At(here.frames[:-1], here.holds)

    def _after(self, step: Step, holds: frozenset[str]) -> frozenset[str]:
        return (holds - frozenset(step.clears)) | (frozenset(step.sets) & self._watched)
