"""The shortest way to a step, told step by step."""

from itertools import pairwise
from typing import TYPE_CHECKING

from engine.graph.exits import exits
from engine.model.stop import Stop
from engine.model.tree import Document

if TYPE_CHECKING:
    from engine.graph.view import Graph


def shortest(document: Document, graph: "Graph", name: str) -> tuple[Stop, ...]:
    """One sentence a step, from the start to the step; empty where it cannot be reached."""
    import networkx as nx

    if document.start not in graph or not nx.has_path(graph, document.start, name):
        return ()
    steps: list[str] = nx.shortest_path(graph, document.start, name)
    told = [
        f"{here}: {next(way.label for way in exits(document.steps[here]) if way.then == after)}"
        for here, after in pairwise(steps)
    ]
    places = (document.steps[step].place for step in steps)
    return tuple(Stop(said, place) for said, place in zip((*told, name), places, strict=True))
