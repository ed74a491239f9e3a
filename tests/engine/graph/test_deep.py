"""Trees far deeper than Python's own stack, and procedures nested as deep."""

import time
from fractions import Fraction
from functools import cache

import pytest

from engine.graph.onward import Onward, Span
from engine.graph.view import endless, loops, stuck, unreachable, view
from engine.lint.runner import run as lint
from engine.loading.leaf import File
from engine.loading.library import gather
from engine.model.tree import Tree
from tests.engine.graph.random_documents import do, procedure, run, tree, verdict

DEEP = 20_000
ONE = Fraction(1)


@cache
def chain(last: str) -> Tree:
    """Twenty thousand steps of a minute each, one after the other; the last one leads where it is told."""
    steps = {f"s{k}": do(f"s{k}", f"s{k + 1}" if k + 1 < DEEP else last, minutes=ONE) for k in range(DEEP)}
    return tree({**steps, "v": verdict("v")})


def test_minutes_of_a_deep_tree() -> None:
    """Twenty thousand steps of a minute are twenty thousand minutes, to the minute."""
    assert Onward({}, {}).spans(chain("v"), "s0") == {"v": Span(Fraction(DEEP), Fraction(DEEP))}


def test_minutes_through_procedures_nested_deep() -> None:
    """So are two thousand procedures that run one another."""
    procedures = {
        f"p{k}": procedure(
            f"p{k}",
            {"s0": run("s0", f"p{k + 1}", {"end": "end"}, ONE) if k < 1999 else do("s0", "end", minutes=ONE)},
            ("end",),
        )
        for k in range(2000)
    }
    document = tree({"s0": run("s0", "p0", {"end": "v"}), "v": verdict("v")})

    assert Onward(procedures, {}).spans(document, "s0") == {"v": Span(Fraction(2000), Fraction(2000))}


@pytest.mark.parametrize(
    ("last", "lost", "resting", "round_"),
    [("v", 0, (), 0), ("s0", DEEP, ("s0",), DEEP), ("gone", DEEP, (f"s{DEEP - 1}",), 0)],
    ids=["ends", "goes round", "leads to nothing"],
)
def test_a_deep_tree_is_searched(last: str, lost: int, resting: tuple[str, ...], round_: int) -> None:
    """Reach, ends and loops of twenty thousand steps."""
    document = chain(last)
    graph = view(document)

    assert unreachable(document, graph) == (() if last == "v" else ("v",))
    assert len(endless(document, graph)) == lost
    assert stuck(document, graph) == resting
    assert [len(loop) for loop in loops(graph)] == ([round_] if round_ else [])


@pytest.mark.parametrize(
    ("last", "rules"), [("v", []), ("gone", ["dead-end", "unknown-name", "unreachable-step"])]
)
def test_a_deep_document_is_read_and_linted(last: str, rules: list[str]) -> None:
    """From the text to the findings in a few seconds: one slip is a few findings, not twenty thousand."""
    rows = "".join(f"  s{k}: {{do: Wait., then: s{k + 1}}}\n" for k in range(DEEP - 1))
    text = (
        "tree: deep\nformat: 1\nrevision: 1\ntitle: Deep\ncomplaint: It takes long.\n"
        "suspects: {shaft: {name: Shaft, weight: 1}}\nstart: s0\nsteps:\n"
        f"{rows}  s{DEEP - 1}: {{do: Wait., then: {last}}}\n"
        "  v: {verdict: So, suspects: [shaft], grade: repair, correction: Mend it.}\n"
    )
    began = time.process_time()
    found = lint(gather([File("deep.yaml", "deep.yaml", text.encode())]))

    graph_rules = {"dead-end", "loop", "unknown-name", "unreachable-step", "open-branch", "name-clash"}
    assert sorted(finding.rule for finding in found if finding.rule in graph_rules) == rules
    assert time.process_time() - began < 15
