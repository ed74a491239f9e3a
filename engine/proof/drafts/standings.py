"""Where the walks of a tree on one vehicle may stand, and the ways between: what drafts are looked for in."""

from collections.abc import Callable, Mapping
from itertools import pairwise
from typing import TYPE_CHECKING, Final, NamedTuple

from engine.interview.state import Frame, State
from engine.loading.library import Library
from engine.model.tree import Verdict
from engine.proof.drafts.ways import Known, Visit, Way, first, ways
from engine.proof.first_walk import Said
from engine.proof.sides import End

if TYPE_CHECKING:
    from networkx import DiGraph

#: What a way costs that has to be gone anyway, where one that need not be costs 1.
_WANTED: Final = 0.01
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


#: The edges from one standing to the next, as the graph holds them.
Held = Mapping[str, tuple[Edge, ...]]


class Standings(NamedTuple):
    """All standings of the walks of a tree on a vehicle."""

    begin: Standing
    onward: dict[Standing, tuple[Edge, ...]]
    #: The same ways; each pair of standings has its `edges`.
    graph: "DiGraph[Standing]"
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
    return Standings(_spot(begin), onward, _graph(onward), verdicts)


def _graph(onward: Mapping[Standing, tuple[Edge, ...]]) -> "DiGraph[Standing]":
    from networkx import DiGraph

    graph: DiGraph[Standing] = DiGraph()
    for spot, edges in onward.items():
        graph.add_node(spot)
        for edge in edges:
            held = graph.get_edge_data(spot, edge.target, {"edges": ()})["edges"]
            graph.add_edge(spot, edge.target, edges=(*held, edge))
    return graph


def _goals(way: Way) -> frozenset[Goal]:
    return frozenset((way.visit, end) for end in (None, *way.ends))


def _spot(state: State) -> Standing:
    return state.frames, state.concluded, tuple(sorted(state.followed))


def costs(within: Standings, start: Standing, wanted: frozenset[Goal]) -> Mapping[Standing, float]:
    """What the cheapest ways from a standing to all that it leads to cost."""
    from networkx import single_source_dijkstra_path_length

    lengths: Mapping[Standing, float] = single_source_dijkstra_path_length(
        within.graph, start, weight=_weight(wanted)
    )
    return lengths


def route(within: Standings, start: Standing, end: Standing, wanted: frozenset[Goal]) -> tuple[Edge, ...]:
    """The edges of the cheapest way from a standing to another, first to last."""
    from networkx import dijkstra_path

    spots = dijkstra_path(within.graph, start, end, weight=_weight(wanted))
    return tuple(_cheapest(within.graph.edges[pair], wanted) for pair in pairwise(spots))


def _weight(wanted: frozenset[Goal]) -> Callable[[Standing, Standing, Held], float]:
    """What it costs to come from one standing to the next."""
    return lambda _from, _to, held: _cost(_cheapest(held, wanted), wanted)


def _cheapest(held: Held, wanted: frozenset[Goal]) -> Edge:
    """Of the edges from one standing to the next the first of the cheapest."""
    return min(held["edges"], key=lambda edge: _cost(edge, wanted))


def _cost(edge: Edge, wanted: frozenset[Goal]) -> float:
    return 1.0 if wanted.isdisjoint(edge.goals) else _WANTED
