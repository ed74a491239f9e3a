"""Questions about dominators, put to the state analysis.

Each node becomes a step that sets a state of its own. What holds for certain when a step is come to is
then the set of nodes that every path to it passes: its dominators. A state set by one node and cleared
by another is left at the exit unless the second stands on every path onward: post-dominators.

A document has no circles, so a graph that has some is unrolled into layers: a step leads to the next layer,
and all copies of a node set the same state. A walk without repetition fits into as many layers as there
are nodes, and no walk passes fewer nodes than the one that is left when its circles are cut out of it; so
the unrolled document has the dominators of the graph.
"""

from collections.abc import Iterable, Iterator, Mapping
from typing import Final, NamedTuple

from engine.graph.holding import Bits, Holding, May
from engine.graph.onward import Onward
from engine.model.tree import Answer, Ask, Step, Tree
from tests.engine.graph.random_documents import PLACE, tree, verdict

Graph = Mapping[str, tuple[str, ...]]
END: Final = "end"


class Changes(NamedTuple):
    """The states that a node sets and clears."""

    sets: tuple[str, ...] = ()
    clears: tuple[str, ...] = ()


def graph(edges: Iterable[tuple[str, str]]) -> Graph:
    """What each node leads to."""
    out: dict[str, tuple[str, ...]] = {}
    for one, other in edges:
        out[one] = (*out.get(one, ()), other)
        out.setdefault(other, ())
    return out


def unrolled(given: Graph, start: str, changes: Mapping[str, Changes], layers: int, leave: str = "") -> Tree:
    """The graph as a tree of that many layers; left at the node `leave`, or where nothing leads on.

    Steps from which the last layer leaves no way to `leave` are left out.
    """
    steps: dict[str, Step] = {}
    for layer in reversed(range(layers)):
        for node, targets in given.items():
            then = [f"{target}@{layer + 1}" for target in targets if f"{target}@{layer + 1}" in steps]
            if node == leave or (not leave and not then):
                then.append(END)
            if then:
                steps[f"{node}@{layer}"] = _step(f"{node}@{layer}", then, changes.get(node, Changes()))
    return tree({**steps, END: verdict(END)}, f"{start}@0")


def _step(name: str, then: list[str], changes: Changes) -> Ask:
    answers = tuple(Answer(f"Way {k}", way, {}, PLACE) for k, way in enumerate(then))
    return Ask(
        name=name, place=PLACE, text="What?", answers=answers, sets=changes.sets, clears=changes.clears
    )


def _found(document: Tree, states: list[str]) -> Iterator[tuple[str, May, Bits]]:
    """Each node come to (its copies one by one), and what may hold of the states there."""
    bits = Bits(iter(states))
    relations = Holding(bits, {}, Onward({}, {})).relations(document)
    for name, relation in relations.items():
        yield name.partition("@")[0], May(0, bits.all).through(relation), bits


def dominators(given: Graph, start: str, layers: int = 0) -> dict[str, set[str]]:
    """The nodes that every path to a node passes before it; of nodes that no path comes to nothing."""
    changes = {node: Changes(sets=(node,)) for node in given}
    document = unrolled(given, start, changes, layers or len(given))
    out: dict[str, set[str]] = {}
    for node, may, bits in _found(document, list(given)):
        sure = set(given) - set(bits.listed(may.lack)) - {node}
        out[node] = out.get(node, sure) & sure
    return {node: sure for node, sure in out.items() if node != END}


def after(given: Graph, start: str, leave: str, layers: int = 0) -> dict[str, set[str]]:
    """The nodes that every path from a node to the exit passes behind it."""
    pairs = [(one, other) for one in given for other in given if one != other]
    changes = {
        node: Changes(
            tuple(f"{a} {b}" for a, b in pairs if a == node),
            tuple(f"{a} {b}" for a, b in pairs if b == node),
        )
        for node in given
    }
    document = unrolled(given, start, changes, layers or 2 * len(given), leave)
    found = {node: (may, bits) for node, may, bits in _found(document, [f"{a} {b}" for a, b in pairs])}
    may, bits = found[END]
    left = set(bits.listed(may.hold))
    return {node: {other for other in given if other != node} - _others(node, left) for node in given}


def _others(node: str, left: set[str]) -> set[str]:
    return {other for one, _, other in (pair.partition(" ") for pair in left) if one == node}


def nearest(sets: Mapping[str, set[str]]) -> dict[str, str]:
    """The immediate one of each node's dominators: the one that all others dominate."""
    return {node: max(sure, key=lambda one: len(sets[one])) for node, sure in sets.items() if sure}


def frontiers(given: Graph, sets: Mapping[str, set[str]]) -> dict[str, set[str]]:
    """Where each node's power ends: what follows a node that it dominates (or is), and is not dominated."""
    return {
        node: {
            target
            for one, targets in given.items()
            for target in targets
            if (one == node or node in sets[one]) and node not in sets[target]
        }
        for node in given
    }
