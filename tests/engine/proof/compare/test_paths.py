"""Paths gained and lost, held against all paths written down one by one."""

from collections.abc import Iterator, Mapping

import pytest

from engine.graph.exits import exits
from engine.loading.library import Library
from engine.model.tree import Document
from engine.proof.compare.align import align
from engine.proof.compare.paths import Paths, paths
from engine.proof.compare.ways import ways
from tests.engine.proof.compare.random_pairs import pair

_Path = tuple[tuple[str, str], ...]


def _walked(document: Document, at: str, before: _Path = ()) -> Iterator[_Path]:
    """Every path from a step to an end, as (step, way out) pairs and the end."""
    step = document.steps.get(at)
    if step is None or not list(exits(step)):
        yield (*before, (at, ""))
        return
    for way in exits(step):
        yield from _walked(document, way.then, (*before, (at, way.label)))


def _as_new(old: Document, new: Document) -> Mapping[tuple[str, str], tuple[str, str]]:
    """What each step and way out of the old version is in the new one."""
    aligned = align(old, new)
    found = {(a, ""): (b, "") for a, b in aligned.targets.items()}
    for a, b in aligned.steps.items():
        for both in ways(old.steps[a], new.steps[b], aligned.targets):
            if both.old and both.new:
                found[a, both.old.label] = (b, both.new.label)
    return found


def _compared(seed: int) -> Iterator[tuple[Paths, set[_Path], set[_Path]]]:
    """For each document of a random pair: what is counted, the old paths told the new way, the new ones."""
    old, new = pair(seed)
    for was, now in _twins(old, new):
        names = _as_new(was, now)
        before = {tuple(names.get(part, ("gone", *part)) for part in p) for p in _walked(was, was.start)}
        yield paths(was, now, align(was, now)), before, set(_walked(now, now.start))  # type: ignore[misc]  # reason: what is gone is no pair, so that it equals nothing


def _twins(old: Library, new: Library) -> Iterator[tuple[Document, Document]]:
    yield old.trees["tree"], new.trees["tree"]
    yield from ((one, new.procedures[name]) for name, one in old.procedures.items())


@pytest.mark.parametrize("first", range(0, 600, 200), ids=str)
def test_counts_are_those_of_all_paths_written_down(first: int) -> None:
    """Old, new and shared, on 200 random pairs each."""
    wrong = [
        seed
        for seed in range(first, first + 200)
        for counted, before, after in _compared(seed)
        if counted[:3] != (len(before), len(after), len(before & after))
    ]

    assert wrong == []


def test_the_examples_are_the_shortest() -> None:
    """No gained path is shorter than the one shown, which is one of them; so of the lost."""
    for seed in range(300):
        for counted, before, after in _compared(seed):
            gained = after - before
            shown = tuple((line.step, line.answer) for line in counted.gained)

            assert (shown in gained) if gained else not shown
            assert len(shown) == min(map(len, gained), default=0)
            assert len(counted.lost) == min(map(len, before - after), default=0)
