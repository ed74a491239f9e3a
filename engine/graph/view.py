"""A document as a networkx graph: what can be reached, what can end, what goes round in circles."""

from collections.abc import Iterator, Mapping
from typing import TYPE_CHECKING

from engine.graph.exits import targets
from engine.model.tree import Document, Procedure, Run, Step, Verdict

if TYPE_CHECKING:
    import networkx as nx

    Graph = nx.DiGraph[str]


def view(document: Document) -> "Graph":
    """The steps of a document and the targets they lead to; only targets that exist become edges."""
    import networkx as nx

    ends = document.outcomes if isinstance(document, Procedure) else {}
    graph: Graph = nx.DiGraph()
    graph.add_nodes_from(document.steps)
    graph.add_nodes_from(ends)
    graph.add_edges_from(
        (name, then) for name, step in document.steps.items() for then in targets(step) if then in graph
    )
    return graph


def ends(document: Document) -> frozenset[str]:
    """Where a walk through the document can stop: its verdicts, or its outcomes."""
    if isinstance(document, Procedure):
        return frozenset(document.outcomes)
    return frozenset(name for name, step in document.steps.items() if isinstance(step, Verdict))


def unreachable(document: Document, graph: "Graph") -> tuple[str, ...]:
    """Steps (and outcomes) that no path from the start comes to, in the order of the text."""
    import networkx as nx

    if document.start not in graph:
        return ()
    reached = nx.descendants(graph, document.start) | {document.start}
    return tuple(name for name in graph if name not in reached)


def endless(document: Document, graph: "Graph") -> tuple[str, ...]:
    """Steps from which no end can be reached, in the order of the text."""
    import networkx as nx

    goal = ends(document)
    if acyclic(graph) and all(out or name in goal for name, out in graph.out_degree()):
        return ()  # no circle and no blind alley: whoever goes on must come to an end

    backwards = graph.reverse(copy=False)
    ending = set(goal).union(*(nx.descendants(backwards, end) for end in goal))
    return tuple(name for name in document.steps if name not in ending)


def stuck(document: Document, graph: "Graph") -> tuple[str, ...]:
    """Where walks that cannot end come to rest: of each such step or knot of steps the first in the text.

    Every endless step leads to one of these; to mend them is to mend all.
    """
    import networkx as nx

    order = {name: number for number, name in enumerate(graph)}
    # a copy, since a view of the graph would filter every edge again at every look
    resting = nx.attracting_components(graph.subgraph(endless(document, graph)).copy())
    return tuple(sorted((min(knot, key=order.__getitem__) for knot in resting), key=order.__getitem__))


def acyclic(graph: "Graph") -> bool:
    """Whether no path of the graph comes back to where it was; worked out once a graph."""
    import networkx as nx

    if "acyclic" not in graph.graph:
        graph.graph["acyclic"] = nx.is_directed_acyclic_graph(graph)
    return bool(graph.graph["acyclic"])


def loops(graph: "Graph") -> Iterator[tuple[str, ...]]:
    """One loop for each knot of steps that go round in circles: the shortest through its first step.

    The same for the same text, whatever order a set of names may have today.
    """
    import networkx as nx

    if acyclic(graph):
        return
    order = {name: number for number, name in enumerate(graph)}
    knots = (sorted(knot, key=order.__getitem__) for knot in nx.strongly_connected_components(graph))
    for knot in sorted(knots, key=lambda names: order[names[0]]):
        inside = set(knot)
        within: Graph = nx.DiGraph((a, b) for a in knot for b in graph[a] if b in inside)
        if within:
            back = (nx.shortest_path(within, after, knot[0]) for after in within[knot[0]])
            yield (knot[0], *min(back, key=len)[:-1])


def calls(procedures: Mapping[str, Document]) -> "Graph":
    """Which procedure runs which."""
    import networkx as nx

    graph: Graph = nx.DiGraph()
    graph.add_nodes_from(procedures)
    for name, document in procedures.items():
        runs = (step.procedure for step in document.steps.values() if isinstance(step, Run))
        graph.add_edges_from((name, run) for run in runs if run in procedures)
    return graph


def entered(document: Document, procedures: Mapping[str, Procedure]) -> tuple[str, ...]:
    """Every procedure that a walk through the document may enter, run or followed, in the order met."""
    met: dict[str, None] = {}
    waiting: list[Document] = [document]
    while waiting:
        for step in waiting.pop().steps.values():
            for name in called(step):
                if name not in met and name in procedures:
                    met[name] = None
                    waiting.append(procedures[name])
    return tuple(met)


def called(step: Step) -> tuple[str, ...]:
    """The procedures that a step names: the one it runs, or those that follow it."""
    if isinstance(step, Run):
        return (step.procedure,)
    return step.follow if isinstance(step, Verdict) else ()
