"""Where the walks of a tree on one vehicle may stand, and the ways between: what drafts are looked for in."""

from heapq import heappop, heappush
from typing import NamedTuple

from engine.interview.state import Frame, State
from engine.loading.library import Library
from engine.model.tree import Verdict
from engine.proof.drafts.ways import Known, Visit, first, ways
from engine.proof.first_walk import Said

#: Walks that share it go on alike.
Standing = tuple[tuple[Frame, ...], bool, tuple[str, ...]]
#: What a draft is to visit: a way out of a step, and the end of its band where that is a reading.
Goal = tuple[Visit, str]


class Edge(NamedTuple):
    """One way from one standing to another."""

    origin: Standing
    line: Said | None
    goal: Goal
    target: Standing


class Standings(NamedTuple):
    """All standings of the walks of a tree on a vehicle."""

    begin: Standing
    onward: dict[Standing, tuple[Edge, ...]]
    #: The verdicts that a walk may stand at, by standing.
    verdicts: dict[Standing, str]


def standings(library: Library, tree: str, vehicle: str) -> Standings:
    """Every standing that a walk comes to; what was read before is not part of it."""
    begin = first(library, tree, vehicle)
    onward: dict[Standing, tuple[Edge, ...]] = {}
    verdicts: dict[Standing, str] = {}
    waiting, known = [begin], Known()
    while waiting:
        state = waiting.pop()
        spot = _spot(state)
        if spot in onward:
            continue
        found = tuple(ways(state, known))
        onward[spot] = tuple(Edge(spot, way.line, (way.visit, way.side), _spot(way.after)) for way in found)
        if isinstance(state.step, Verdict) and len(state.frames) == 1:
            verdicts[spot] = state.frames[-1].step
        waiting.extend(way.after for way in found)
    return Standings(_spot(begin), onward, verdicts)


def _spot(state: State) -> Standing:
    return state.frames, state.concluded, tuple(sorted(state.followed))


def cheapest(
    within: Standings, start: Standing, dear: dict[Goal, float]
) -> dict[Standing, tuple[float, Edge | None]]:
    """The cheapest way to each standing: its cost, and the last edge of it; a goal not in `dear` costs 1."""
    best: dict[Standing, tuple[float, Edge | None]] = {start: (0.0, None)}
    heap: list[tuple[float, int, Standing]] = [(0.0, 0, start)]
    number = 0
    while heap:
        cost, _, spot = heappop(heap)
        if cost > best[spot][0]:
            continue
        for edge in within.onward[spot]:
            reached = cost + dear.get(edge.goal, 1.0)
            if edge.target not in best or reached < best[edge.target][0]:
                best[edge.target] = reached, edge
                number += 1
                heappush(heap, (reached, number, edge.target))
    return best


def path(best: dict[Standing, tuple[float, Edge | None]], to: Standing) -> tuple[Edge, ...]:
    """The edges to a standing, first to last."""
    back: list[Edge] = []
    while (edge := best[to][1]) is not None:
        back.append(edge)
        to = edge.origin
    return tuple(reversed(back))
