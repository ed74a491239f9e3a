"""The quick look passes exactly those documents of which the graph has nothing to say."""

from random import Random

import pytest

from engine.graph.exits import exits
from engine.graph.look import loopless, plain
from engine.graph.view import acyclic, calls, endless, unreachable, view
from engine.model.tree import Document, Verdict
from tests.engine.graph.random_documents import procedure, run, tangle, tree, verdict

TRIED = 500


def _nothing_to_say(document: Document) -> bool:
    """The same by the graph: all reached, none endless, no circle, no target that is not there."""
    graph = view(document)
    told = unreachable(document, graph) or endless(document, graph) or not acyclic(graph)
    there = all(way.then in graph for step in document.steps.values() for way in exits(step))
    blind = any(not graph.out_degree(n) and not isinstance(s, Verdict) for n, s in document.steps.items())
    return document.start in graph and not told and there and not blind


@pytest.mark.parametrize("part", range(4))
def test_look_agrees_with_the_graph(part: int) -> None:
    """Over random documents the look and the graph decide alike."""
    for seed in range(part * TRIED // 4, (part + 1) * TRIED // 4):
        document = tangle(Random(seed)).document

        assert plain(document) is _nothing_to_say(document), seed


def test_some_random_documents_pass_and_some_do_not() -> None:
    """The random documents are of both sorts, else the comparison would prove nothing."""
    assert {plain(tangle(Random(seed)).document) for seed in range(TRIED)} == {True, False}


def test_a_verdict_alone_is_plain() -> None:
    """A tree of one verdict is reached, ends, and leads nowhere."""
    assert plain(tree({"s0": verdict("s0")}))


@pytest.mark.parametrize(
    ("first", "second", "expected"), [("b", "c", True), ("b", "a", False), ("a", "c", False)]
)
def test_procedures_that_run_each_other(first: str, second: str, *, expected: bool) -> None:
    """A circle of procedures is seen, one that is not there is passed over; as the graph has it."""
    made = {
        name: procedure(name, {"s0": run("s0", of, {"over": "over"})}, ("over",))
        for name, of in (("a", first), ("b", second))
    }

    assert loopless(made) is acyclic(calls(made)) is expected
