"""Fewest and most minutes to each end, against every walk that there is, counted one by one."""

from collections.abc import Callable, Iterator
from fractions import Fraction
from functools import cache
from random import Random

import pytest

from engine.graph.onward import NOTHING, Onward, Span
from engine.model.tree import Ask, Do, Document, Measure, Run, Sort, Step, Verdict
from tests.engine.graph.random_documents import FACTS, Shelf, do, procedure, run, shelf, tree, verdict

SEEDS = range(300)
Walk = tuple[str, Fraction]


@cache
def made(seed: int) -> Shelf:
    """A random library."""
    return shelf(Random(seed))


def walks(held: Shelf, document: Document, name: str) -> Iterator[Walk]:
    """Every walk from a step to an end, through every procedure that it runs: the end and the minutes."""
    step = document.steps.get(name)
    if step is None:
        yield name, Fraction(0)
    elif isinstance(step, Verdict):
        yield name, step.minutes
    else:
        for then, before in onward(held, step):
            yield from ((end, step.minutes + before + after) for end, after in walks(held, document, then))


def onward(held: Shelf, step: Step) -> Iterator[Walk]:
    """Each target of a step, with the minutes spent inside whatever it runs."""
    if isinstance(step, Run):
        inner = held.procedures[step.procedure]
        for outcome, minutes in walks(held, inner, inner.start):
            yield step.outcomes[outcome], minutes
        return
    for then in targets(step):
        yield then, Fraction(0)


def targets(step: Step) -> tuple[str, ...]:
    """Where a step leads to on the one vehicle."""
    if isinstance(step, Do):
        return (step.then, step.unsure) if step.unsure else (step.then,)
    if isinstance(step, Ask):
        return tuple(answer.then for answer in step.answers)
    if isinstance(step, Measure):
        return tuple(band.then for band in step.bands)
    assert isinstance(step, Sort)
    return (step.cases[FACTS[step.fact]],) if FACTS[step.fact] in step.cases else ()


def spans(found: Iterator[Walk]) -> dict[str, Span]:
    """Fewest and most minutes to each end."""
    by_end: dict[str, list[Fraction]] = {}
    for end, minutes in found:
        by_end.setdefault(end, []).append(minutes)
    return {end: Span(min(minutes), max(minutes)) for end, minutes in by_end.items()}


def from_every_step(seed: int) -> bool:
    """From each step of each document of the library."""
    held = made(seed)
    return all(
        Onward(held.procedures, FACTS).spans(document, name) == spans(walks(held, document, name))
        for document in held.documents()
        for name in document.steps
    )


def remembered(seed: int) -> bool:
    """The same with one memory for all, asked from the last step to the first and again."""
    held = made(seed)
    asked = Onward(held.procedures, FACTS)
    return all(
        asked.spans(document, name) == spans(walks(held, document, name))
        for document in [*held.documents()] * 2
        for name in reversed([*document.steps])
    )


def from_inside(seed: int) -> bool:
    """From each step inside a procedure, out of it and on to the ends of the document that runs it."""
    held = made(seed)
    asked = Onward(held.procedures, FACTS)
    return all(
        asked.leave(document, step, asked.spans(held.procedures[step.procedure], inside))
        == spans(out(held, document, step, inside))
        for document in held.documents()
        for step in document.steps.values()
        if isinstance(step, Run)
        for inside in held.procedures[step.procedure].steps
    )


def out(held: Shelf, document: Document, step: Run, inside: str) -> Iterator[Walk]:
    """Every walk from inside a procedure to the ends of the document that runs it."""
    for outcome, first in walks(held, held.procedures[step.procedure], inside):
        yield from ((end, first + rest) for end, rest in walks(held, document, step.outcomes[outcome]))


@pytest.mark.parametrize("check", [from_every_step, remembered, from_inside])
def test_minutes_agree_with_every_walk(check: Callable[[int], bool]) -> None:
    """Three hundred random libraries, with procedures that run procedures: exactly the same fractions."""
    assert [seed for seed in SEEDS if not check(seed)] == []


def test_the_random_libraries_hold_everything() -> None:
    """Runs inside runs, sorts without a case, and ends that several walks come to are among them."""
    held = [made(seed) for seed in SEEDS]
    nested = [
        h for h in held if any(isinstance(s, Run) for p in h.procedures.values() for s in p.steps.values())
    ]
    stranded = [h for h in held if not list(walks(h, h.tree, "s0"))]
    spread = [h for h in held if any(a != b for a, b in spans(walks(h, h.tree, "s0")).values())]

    assert all(len(some) >= 10 for some in (nested, stranded, spread))


def test_minutes_of_a_repair_counted_by_hand() -> None:
    """Back off at once (1), or lift (4), look (1) and lower (2); the verdict takes 3 more."""
    lift = procedure(
        "lift",
        {
            "s0": do("s0", "up", unsure="cannot", minutes=Fraction(1)),
            "up": do("up", "raised", minutes=Fraction(3)),
        },
        ("raised", "cannot"),
    )
    document = tree(
        {
            "s0": run("s0", "lift", {"raised": "look", "cannot": "refer"}),
            "look": do("look", "lower", minutes=Fraction(1)),
            "lower": do("lower", "refer", minutes=Fraction(2)),
            "refer": verdict("refer", minutes=Fraction(3)),
        }
    )

    assert Onward({"lift": lift}, {}).spans(document, "s0") == {"refer": Span(Fraction(4), Fraction(10))}


def test_an_end_is_no_minutes_away_from_itself() -> None:
    """An outcome is where a procedure ends; nothing is left to do."""
    document = procedure("p", {"s0": do("s0", "end")}, ("end",))

    assert Onward({}, {}).spans(document, "end") == {"end": NOTHING}
