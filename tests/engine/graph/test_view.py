"""What can be reached, what cannot end and what goes round, against two ways of finding it by force."""

import os
import subprocess
import sys
from collections.abc import Iterator, Mapping
from functools import cache
from itertools import pairwise
from pathlib import Path
from random import Random

import networkx as nx
import pytest

from engine.graph.exits import exits
from engine.graph.view import endless, ends, entered, loops, stuck, unreachable, view
from engine.model.tree import Procedure, Verdict
from tests.engine.graph.random_documents import Made, do, procedure, run, tangle, tree, verdict

SEEDS = range(500)
Edges = Mapping[str, tuple[str, ...]]


@cache
def made(seed: int) -> Made:
    """A random document."""
    return tangle(Random(seed))


def goals(case: Made) -> set[str]:
    """Where a walk may stop."""
    document = case.document
    if isinstance(document, Procedure):
        return set(document.outcomes)
    return {name for name, step in document.steps.items() if isinstance(step, Verdict)}


def there(case: Made) -> dict[str, tuple[str, ...]]:
    """The edges whose target exists, and the ends."""
    names = {*case.edges, *goals(case)}
    return {name: tuple(way for way in case.edges.get(name, ()) if way in names) for name in names}


def paths(edges: Edges, path: tuple[str, ...]) -> Iterator[tuple[str, ...]]:
    """Every path that goes on from this one and comes to no step twice, itself first."""
    yield path
    for way in edges[path[-1]]:
        if way not in path:
            yield from paths(edges, (*path, way))


def reached(edges: Edges, start: str) -> set[str]:
    """Every step on a path from the start, found by walking all of them."""
    return {path[-1] for path in paths(edges, (start,))}


def circles(edges: Edges, name: str) -> list[tuple[str, ...]]:
    """Every circle through a step, beginning with it."""
    return [path for path in paths(edges, (name,)) if name in edges[path[-1]]]


def graph(edges: Edges) -> "nx.DiGraph[str]":
    """The same edges as the library keeps them."""
    found: nx.DiGraph[str] = nx.DiGraph()
    found.add_nodes_from(edges)
    found.add_edges_from((name, way) for name, ways in edges.items() for way in ways)
    return found


def wrong(check: str) -> list[int]:
    """The seeds whose document does not pass a check of this file, named by its function."""
    return [seed for seed in SEEDS if not globals()[check](made(seed))]


def ways_agree(case: Made) -> bool:
    """The ways out of each step are those that the generator gave it, in their order."""
    steps = case.document.steps
    return all(tuple(way.then for way in exits(steps[name])) == ways for name, ways in case.edges.items())


def view_agrees(case: Made) -> bool:
    """The graph has exactly the targets that exist."""
    found, meant = view(case.document), graph(there(case))
    return (set(found), set(found.edges)) == (set(meant), set(meant.edges))


def ends_agree(case: Made) -> bool:
    """Verdicts end a tree, outcomes a procedure."""
    return ends(case.document) == goals(case)


def unreachable_agrees(case: Made) -> bool:
    """What cannot be reached is what no path and no library function comes to; in the order of the text."""
    edges, start = there(case), case.document.start
    found = unreachable(case.document, view(case.document))
    by_library = {name for name in edges if not nx.has_path(graph(edges), start, name)}
    order = [name for name in view(case.document) if name in found]
    return set(found) == set(edges) - reached(edges, start) == by_library and list(found) == order


def endless_agrees(case: Made) -> bool:
    """A step cannot end when no path from it does."""
    edges = there(case)
    by_force = [name for name in case.document.steps if not reached(edges, name) & goals(case)]
    by_library = [
        name
        for name in case.document.steps
        if not any(nx.has_path(graph(edges), name, goal) for goal in goals(case))
    ]
    return list(endless(case.document, view(case.document))) == by_force == by_library


def stuck_agrees(case: Made) -> bool:
    """Every endless step leads to one that is told; of those none leads to another, each is the first."""
    edges, order = there(case), [*case.document.steps]
    found = stuck(case.document, view(case.document))
    lost = endless(case.document, view(case.document))
    return (
        all(reached(edges, name) & set(found) for name in lost)
        and set(found) <= set(lost)
        and all(reached(edges, name) & set(found) == {name} for name in found)
        and all(name == min(reached(edges, name), key=order.index) for name in found)
        and list(found) == sorted(found, key=order.index)
    )


def loops_agree(case: Made) -> bool:
    """One loop is told for each knot: the shortest real circle through its first step."""
    edges, order = there(case), [*case.document.steps]
    found = list(loops(view(case.document)))
    knots = [
        k for k in nx.strongly_connected_components(graph(edges)) if any(circles(edges, name) for name in k)
    ]
    firsts = sorted((min(knot, key=order.index) for knot in knots), key=order.index)
    return (
        [loop[0] for loop in found] == firsts
        and all(after in edges[name] for loop in found for name, after in pairwise((*loop, loop[0])))
        and all(len(loop) == min(map(len, circles(edges, loop[0]))) for loop in found)
        and all(len(set(loop)) == len(loop) for loop in found)
    )


def loops_are_told(case: Made) -> bool:
    """Something is told exactly where the library finds a simple cycle."""
    return bool(list(loops(view(case.document)))) == any(True for _ in nx.simple_cycles(graph(there(case))))


CHECKS = (
    *("ways_agree", "view_agrees", "ends_agree", "unreachable_agrees", "endless_agrees"),
    *("stuck_agrees", "loops_agree", "loops_are_told"),
)


@pytest.mark.parametrize("check", CHECKS)
def test_random_documents_pass(check: str) -> None:
    """Five hundred random documents agree with the search by force, and with the library's own primitives."""
    assert wrong(check) == []


def test_the_random_documents_hold_everything() -> None:
    """Loops, dead ends, unreachable steps, and documents without any of them are all among them."""
    kinds = [
        (bool(unreachable(d, view(d))), bool(endless(d, view(d))), bool(list(loops(view(d)))))
        for d in (made(seed).document for seed in SEEDS)
    ]

    assert len(set(kinds)) == 8


def test_a_start_that_is_not_there_reaches_nothing_and_blames_nobody() -> None:
    """The missing name is told by itself; a hundred unreachable steps would hide it."""
    document = tree({"s0": do("s0", "v"), "v": verdict("v")}, start="gone")

    assert unreachable(document, view(document)) == ()


def test_procedures_are_entered_in_the_order_met() -> None:
    """Those that are run and those that follow, each once, whatever runs what."""
    procedures = {
        "inner": procedure("inner", {"s0": do("s0", "end")}, ("end",)),
        "outer": procedure(
            "outer",
            {"s0": run("s0", "inner", {"end": "s1"}), "s1": run("s1", "outer", {"end": "end"})},
            ("end",),
        ),
        "other": procedure("other", {"s0": do("s0", "end")}, ("end",)),
    }
    document = tree({"s0": run("s0", "outer", {"end": "s1"}), "s1": run("s1", "gone", {}), "v": verdict("v")})

    assert entered(document, procedures) == ("outer", "inner")


KNOT = """
from engine.graph.view import loops, view
from tests.engine.graph.random_documents import tangle
from random import Random
print([tuple(loops(view(tangle(Random(seed)).document))) for seed in range(60)])
"""


def test_the_same_loop_is_told_on_every_run() -> None:
    """The order that sets of names have in one process or another changes nothing."""
    home = Path(__file__).parents[3]
    told = {
        subprocess.run(
            [sys.executable, "-c", KNOT],
            env={**os.environ, "PYTHONHASHSEED": seed},
            cwd=home,
            check=True,
            capture_output=True,
            text=True,
        ).stdout
        for seed in ("1", "2", "3")
    }

    assert len(told) == 1
