"""The findings about states, from text, against the dominators of networkx."""

import json
from random import Random
from typing import Any

import networkx as nx
import pytest

from engine.lint.rule import Scope
from engine.lint.runner import run
from engine.lint.safety import faults
from engine.loading.leaf import File
from engine.loading.library import Library, gather

_VERDICT = {"verdict": "So", "suspects": [], "grade": "refer", "correction": "Ask"}


def _file(name: str, data: Any) -> File:
    return File(name, name, json.dumps(data).encode())  # what is JSON is YAML as well


def _library(steps: dict[str, Any], states: dict[str, Any]) -> Library:
    tree = {
        "tree": "tried", "format": 1, "revision": 1, "title": "Tried", "complaint": "It is tried",
        "suspects": {"worn": {"name": "Worn", "weight": 1}}, "start": "s0",
        "steps": {**steps, "end": _VERDICT},
    }  # fmt: skip
    sheet = {"vehicle": "one", "format": 1, "revision": 1, "title": "One", "facts": {"drive": "all-wheel"}}
    shop = {"states": states, "format": 1}
    return gather([_file("tree.yaml", tree), _file("sheet.yaml", sheet), _file("states.yaml", shop)])


def _graph(seed: int) -> "nx.DiGraph[str]":
    """Up to nine steps that lead on to later ones, all of them reached, and one end."""
    random = Random(seed)
    nodes = [*(f"s{k}" for k in range(random.randint(1, 9))), "end"]
    graph: nx.DiGraph[str] = nx.DiGraph(
        (one, random.choice(nodes[k:])) for k, one in enumerate(nodes[:-1], 1) for _ in "ab"
    )
    return graph.subgraph({"s0", *nx.descendants(graph, "s0")}).copy()


def _ask(graph: "nx.DiGraph[str]", node: str, **changes: list[str]) -> dict[str, Any]:
    answers = [{"say": f"Way {k}", "then": then} for k, then in enumerate((*graph[node], *graph[node])[:2])]
    return {"ask": f"What of {node}?", "answers": answers, **changes}


def _above(graph: "nx.DiGraph[str]", start: str) -> dict[str, set[str]]:
    """The strict dominators of each node."""
    immediate = nx.immediate_dominators(graph, start)
    out: dict[str, set[str]] = {start: set()}
    for node in nx.bfs_tree(nx.DiGraph((b, a) for a, b in immediate.items() if b), start):
        if node != start:
            out[node] = out[immediate[node]] | {immediate[node]}
    return out


@pytest.mark.parametrize("seed", range(40))
def test_a_state_is_missing_where_its_step_does_not_dominate(seed: int) -> None:
    """Where every step needs what each step sets, it lacks just what those set that do not dominate it."""
    graph = _graph(seed)
    nodes = [node for node in graph if node != "end"]
    above = _above(graph, "s0")
    steps = {
        node: _ask(graph, node, sets=[f"past-{node}"], needs=[f"past-{n}" for n in nodes]) for node in nodes
    }
    library = _library(steps, {f"past-{node}": {"title": node} for node in nodes})
    lacks = {(f.step, f.states[0].removeprefix("past-")) for f in faults(Scope(library)) if f.kind == "lacks"}

    assert lacks == {(node, other) for node in nodes for other in nodes if other not in above[node]}


@pytest.mark.parametrize("seed", range(40))
def test_a_vehicle_is_left_unsafe_where_no_step_behind_must_be_passed(seed: int) -> None:
    """A state set by one step and cleared by another is left where the other does not post-dominate."""
    graph = _graph(seed)
    nodes = [node for node in graph if node != "end"]
    behind = _above(graph.reverse(), "end")
    pairs = [(a, b) for a in nodes for b in nodes if a != b]
    steps = {
        node: _ask(
            graph, node,
            sets=[f"{a}-{b}" for a, b in pairs if a == node],
            clears=[f"{a}-{b}" for a, b in pairs if b == node],
        )
        for node in nodes
    }  # fmt: skip
    library = _library(steps, {f"{a}-{b}": {"title": "So", "must-clear": True} for a, b in pairs})
    left = {f.states[0] for f in faults(Scope(library)) if f.kind == "left"}

    assert left == {f"{a}-{b}" for a, b in pairs if b not in behind[a]}
    assert len([f for f in run(library) if f.rule == "left-unsafe"]) == len(left)
