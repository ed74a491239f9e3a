"""The shortest walk that comes to a step while certain states hold: the proof that it can happen."""

from collections import deque
from typing import NamedTuple

from engine.graph.moves import At, Moves
from engine.model.stop import Stop


class Goal(NamedTuple):
    """A step of a document (empty: the tree), with watched states that hold there and that do not."""

    procedure: str
    step: str
    hold: frozenset[str]
    lack: frozenset[str]

    def met(self, here: At) -> bool:
        """Whether a walk that stands here has come to it."""
        there = here.frames[-1] == (self.procedure, self.step)
        return there and self.hold <= here.holds and not self.lack & here.holds


def shortest(moves: Moves, goal: Goal) -> tuple[Stop, ...]:
    """One sentence a step, from the tree's start to the goal; empty where no walk comes to it.

    The moves must watch the goal's states. Breadth first over where the walk stands, the watched states
    and what is known alone.
    """
    first = moves.first()
    came: dict[At, tuple[At, str] | None] = {first: None}
    waiting = deque([first])
    while waiting:
        here = waiting.popleft()
        if goal.met(here):
            return _told(moves, came, here)
        for said, there, _ in moves.onward_from(here):
            if there not in came:
                came[there] = (here, said)
                waiting.append(there)
    return ()


def _told(moves: Moves, came: dict[At, tuple[At, str] | None], here: At) -> tuple[Stop, ...]:
    stops = [Stop(_name(here), moves.place(here.frames[-1]))]
    link = came[here]
    while link is not None:
        before, said = link
        stops.append(Stop(f"{_name(before)}: {said}", moves.place(before.frames[-1])))
        link = came[before]
    return tuple(reversed(stops))


def _name(here: At) -> str:
    procedure, step = here.frames[-1]
    return f"{procedure}/{step}" if procedure else step
