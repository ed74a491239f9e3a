"""What can happen on one vehicle, given all that was seen and read on the way there."""

from collections.abc import Mapping
from typing import Final, NamedTuple

from engine.graph.known import Known
from engine.graph.moves import Frame, Moves

#: So many places a walk may stand in are looked at; beyond that everything is taken to be possible.
MOST: Final = 200_000


class Feasible(NamedTuple):
    """The steps that a walk can come to, and the ways out of them that it can take."""

    steps: frozenset[Frame]
    #: (procedure, step, number of the way out).
    ways: frozenset[tuple[str, str, int]]
    #: At each step that asks for something asked elsewhere too, the values that it may have there.
    values: Mapping[Frame, int]


def feasible(moves: Moves, known: Known) -> Feasible | None:
    """What can happen; None where there is too much to look at."""
    first = moves.first()
    seen = {first}
    waiting = [first]
    ways: set[tuple[str, str, int]] = set()
    values: dict[Frame, int] = {}
    while waiting:
        here = waiting.pop()
        frame = here.frames[-1]
        asking, step = known.askings.get(frame), moves.step(frame)
        if asking is not None and step is not None:
            held = asking.left(known.before(step, here.facts))
            values[frame] = values.get(frame, 0) | held
        for _, there, number in moves.onward_from(here):
            ways.add((*frame, number))
            if there not in seen:
                if len(seen) >= MOST:
                    return None
                seen.add(there)
                waiting.append(there)
    return Feasible(frozenset(at.frames[-1] for at in seen), frozenset(ways), values)
