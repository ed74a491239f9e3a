"""What the state analysis holds for certain, against dominators: published ones, and those of networkx."""

from functools import cache
from random import Random
from typing import Final

import networkx as nx
import pytest

from engine.graph.holding import Bits, Holding, May
from engine.graph.onward import Onward
from engine.graph.view import unreachable, view
from tests.engine.graph.dominance import (
    Changes,
    Graph,
    after,
    dominators,
    frontiers,
    graph,
    nearest,
    unrolled,
)
from tests.engine.graph.published_graphs import PUBLISHED
from tests.engine.graph.random_documents import tangle

RANDOM_GRAPHS: Final = 2_000


@pytest.mark.parametrize("name", PUBLISHED)
def test_published_dominators(name: str) -> None:
    """The last of the checks that stand on every path to a node is its published immediate dominator."""
    published = PUBLISHED[name]

    assert nearest(dominators(graph(published.edges), published.start)) == published.immediate


@pytest.mark.parametrize("name", [name for name, one in PUBLISHED.items() if one.after])
def test_published_post_dominators(name: str) -> None:
    """The first clearing step that no way out can miss is the published immediate post-dominator."""
    published = PUBLISHED[name]

    assert nearest(after(graph(published.edges), published.start, published.exit)) == published.after


@pytest.mark.parametrize("name", [name for name, one in PUBLISHED.items() if one.frontiers])
def test_published_frontiers(name: str) -> None:
    """Where a state that was certain ceases to be so is the published dominance frontier."""
    published = PUBLISHED[name]
    found = frontiers(graph(published.edges), dominators(graph(published.edges), published.start))

    assert {node: found[node] for node in published.frontiers} == {
        node: set(told) for node, told in published.frontiers.items()
    }


@cache
def acyclic() -> tuple[Graph, ...]:
    """Two thousand graphs without circles of up to sixteen nodes, some of them out of reach."""
    return tuple(_acyclic(Random(seed)) for seed in range(RANDOM_GRAPHS))


def _acyclic(random: Random) -> Graph:
    nodes = [str(k) for k in range(random.randint(2, 16))]
    most = random.choice((1, 2, 2, 3))
    return {
        node: tuple(sorted({random.choice(nodes[k:]) for _ in range(random.randint(1, most))}))
        if nodes[k:]
        else ()
        for k, node in enumerate(nodes, 1)
    }


def _networkx(given: Graph) -> "nx.DiGraph[str]":
    other: nx.DiGraph[str] = nx.DiGraph()
    other.add_nodes_from(given)
    other.add_edges_from((node, target) for node, targets in given.items() for target in targets)
    return other


def _immediate(of: "nx.DiGraph[str]", start: str) -> dict[str, str]:
    """The immediate dominators by networkx, without the start's own."""
    return {
        node: above for node, above in nx.immediate_dominators(of, start).items() if above not in (node, None)
    }


def test_dominators_of_random_graphs() -> None:
    """What holds for certain on every path agrees with networkx, which works by another method."""
    for given in acyclic():
        assert nearest(dominators(given, "0")) == _immediate(_networkx(given), "0"), given


def test_post_dominators_of_random_graphs() -> None:
    """What no way to the end can miss agrees with networkx on the graph turned round."""
    for given in acyclic():
        leave = str(len(given) - 1)
        reached = nx.descendants(_networkx(given), "0") | {"0"}
        ending = nx.ancestors(_networkx(given), leave) | {leave}
        part = {
            node: tuple(target for target in targets if target in reached & ending)
            for node, targets in given.items()
            if node in reached & ending
        }
        if part:
            backwards = _networkx(part).reverse()
            assert nearest(after(part, "0", leave, len(part))) == _immediate(backwards, leave), given


def test_one_of_several_checks() -> None:
    """A state that several steps set is certain where nothing is left of a way once they are all deleted."""
    for seed, given in enumerate(acyclic()):
        random = Random(seed)
        checks = set(random.sample(sorted(given), random.randint(1, len(given))))
        document = unrolled(given, "0", {node: Changes(sets=("checked",)) for node in checks}, len(given))
        bits = Bits(iter(("checked",)))
        relations = Holding(bits, {}, Onward({}, {})).relations(document)
        lacking = {
            name.partition("@")[0] for name, way in relations.items() if May(0, bits.all).through(way).lack
        } - {"end"}

        assert lacking == _unchecked(given, checks), given


def _unchecked(given: Graph, checks: set[str]) -> set[str]:
    """Nodes that can be come to without having passed a check: leaving one is what is deleted."""
    other = _networkx({node: () if node in checks else targets for node, targets in given.items()})
    return nx.descendants(other, "0") | {"0"}


def test_deleting_a_step_cuts_off_what_it_dominates() -> None:
    """In documents with circles and blind alleys, what a deleted step makes unreachable it dominates."""
    for seed in range(RANDOM_GRAPHS):
        document = tangle(Random(seed)).document
        whole = view(document)
        above = nx.immediate_dominators(whole, document.start)
        before = set(unreachable(document, whole))
        for gone in set(above) - {document.start}:
            less = whole.copy()
            less.remove_node(gone)
            cut = set(unreachable(document, less)) - before

            assert cut == {node for node in above if node != gone and gone in _chain(node, above)}, seed


def _chain(node: str, above: dict[str, str]) -> list[str]:
    out = [node]
    while above.get(out[-1]) not in (out[-1], None):
        out.append(above[out[-1]])
    return out
