"""Where the walks of a tree on one vehicle may stand, and the ways between: what drafts are looked for in."""

from collections.abc import Callable, Mapping
from itertools import pairwise
from typing import NamedTuple

from engine.interview.state import Frame, State
from engine.loading.library import Library
from engine.model.tree import Verdict
from engine.proof.drafts.ways import Known, Visit, Way, first, ways
from engine.proof.first_walk import Said
from engine.proof.sides import End

#: Walks that share it go on alike.
Standing = tuple[tuple[Frame, ...], bool, tuple[str, ...]]
#: What a draft is to do: to visit a way out of a step (and nothing), or to try an end of its band.
Goal = tuple[Visit, End | None]


class Edge(NamedTuple):
    """One way from one standing to another."""

    origin: Standing
    line: Said | None
    goals: frozenset[Goal]
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
        onward[spot] = tuple(Edge(spot, way.line, _goals(way), _spot(way.after)) for way in found)
        if isinstance(state.step, Verdict) and len(state.frames) == 1:
            verdicts[spot] = state.frames[-1].step
        waiting.extend(way.after for way in found)
    return Standings(_spot(begin), onward, verdicts)


def _goals(way: Way) -> frozenset[Goal]:
    return frozenset((way.visit, end) for end in (None, *way.ends))


def _spot(state: State) -> Standing:
    return state.frames, state.concluded, tuple(sorted(state.followed))


class Routes(NamedTuple):
    """The cheapest ways from one standing to every other."""

    cost: Mapping[Standing, float]
    #: The edges to a standing, first to last.
    to: Callable[[Standing], tuple[Edge, ...]]


def routes(within: Standings, start: Standing, dear: Mapping[Goal, float]) -> Routes:
    """The cheapest ways from a standing; an edge to a goal that is not in `dear` costs 1."""
    from networkx import DiGraph, dijkstra_path, single_source_dijkstra_path_length

    best: dict[tuple[Standing, Standing], Edge] = {}
    for edge in (each for edges in within.onward.values() for each in edges):
        held = best.setdefault((edge.origin, edge.target), edge)
        if _cost(edge, dear) < _cost(held, dear):
            best[edge.origin, edge.target] = edge
    graph: DiGraph[Standing] = DiGraph()
    graph.add_node(start)
    graph.add_weighted_edges_from((*pair, _cost(edge, dear)) for pair, edge in best.items())
    return Routes(
        single_source_dijkstra_path_length(graph, start),
        lambda spot: tuple(best[pair] for pair in pairwise(dijkstra_path(graph, start, spot))),
    )


def _cost(edge: Edge, dear: Mapping[Goal, float]) -> float:
    return min(dear.get(goal, 1.0) for goal in edge.goals)
