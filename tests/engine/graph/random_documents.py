"""Random small documents, the same for the same seed, with their edges written down beside them.

The edges are what the generator meant; nothing of the engine's graph code is asked for them.
"""

from collections.abc import Iterator, Mapping
from fractions import Fraction
from random import Random
from typing import NamedTuple

from engine.model.place import Place
from engine.model.tree import (
    Answer,
    Ask,
    Band,
    Do,
    Document,
    Measure,
    Procedure,
    Run,
    Sort,
    Step,
    Tree,
    Verdict,
    Wanted,
)

PLACE = Place("random.yaml", 1, 1)
#: The facts of the one vehicle, and the values that a sort may have cases for.
FACTS = {"drive": "all-wheel", "box": "automatic"}
_VALUES = {"drive": ("all-wheel", "front-wheel"), "box": ("manual", "automatic")}
_WANTED = Wanted("gap", "mm", "steel-rule", Fraction(0), Fraction(80), PLACE)


class Made(NamedTuple):
    """A document, and for each of its steps the targets it leads to."""

    document: Document
    edges: Mapping[str, tuple[str, ...]]


def tree(steps: Mapping[str, Step], start: str = "s0", name: str = "random") -> Tree:
    """A tree of these steps, with nothing else in it."""
    return Tree(
        name=name,
        place=PLACE,
        title="Random",
        revision=1,
        facts={},
        sources={},
        start=start,
        steps=steps,
        complaint="It does not drive.",
        suspects={},
        confidence=Fraction(95, 100),
    )


def procedure(
    name: str, steps: Mapping[str, Step], outcomes: tuple[str, ...], start: str = "s0"
) -> Procedure:
    """A procedure of these steps, with nothing else in it."""
    return Procedure(
        name=name,
        place=PLACE,
        title=name,
        revision=1,
        facts={},
        sources={},
        start=start,
        steps=steps,
        outcomes=dict.fromkeys(outcomes, "It is so"),
    )


def do(name: str, then: str, unsure: str = "", minutes: Fraction = Fraction(0)) -> Do:
    """A step to do."""
    return Do(name=name, place=PLACE, text="Do it.", then=then, unsure=unsure, minutes=minutes)


def verdict(name: str, minutes: Fraction = Fraction(0)) -> Verdict:
    """A verdict."""
    return Verdict(
        name=name, place=PLACE, text="So.", suspects=(), grade="refer", correction="Mend.", minutes=minutes
    )


def run(name: str, of: str, outcomes: Mapping[str, str], minutes: Fraction = Fraction(0)) -> Run:
    """A step that runs a procedure."""
    return Run(name=name, place=PLACE, procedure=of, outcomes=outcomes, minutes=minutes)


def tangle(random: Random) -> Made:
    """A tree or a procedure of up to seven steps that lead anywhere: back, round, or to nothing."""
    names = [f"s{k}" for k in range(random.randint(1, 7))]
    outcomes = tuple(f"end-{k}" for k in range(random.randint(1, 2))) if random.random() < 0.5 else ()
    targets = [*names, *outcomes, "gone"]
    steps: dict[str, Step] = {}
    edges: dict[str, tuple[str, ...]] = {}
    for name in names:
        ways = tuple(random.choice(targets) for _ in range(random.randint(1, 3)))
        steps[name], edges[name] = _step(name, ways, random, may_end=not outcomes)
    start = random.choice(names)
    made = procedure("random", steps, outcomes, start) if outcomes else tree(steps, start)
    return Made(made, edges)


def _step(name: str, ways: tuple[str, ...], random: Random, *, may_end: bool) -> tuple[Step, tuple[str, ...]]:
    kind = random.choice(["do", "ask", "measure", "sort", "run", "verdict" if may_end else "do"])
    minutes = Fraction(random.randint(0, 30), random.choice([1, 1, 2, 3]))
    if kind == "verdict":
        return verdict(name, minutes), ()
    if kind == "do":
        return do(name, ways[0], ways[1] if len(ways) > 1 else "", minutes), ways[:2]
    if kind == "ask":
        answers = tuple(Answer(f"Way {k}", way, {}, PLACE) for k, way in enumerate(ways))
        return Ask(name=name, place=PLACE, text="What?", answers=answers, minutes=minutes), ways
    if kind == "measure":
        bands = tuple(Band(None, None, way, "", {}, "", PLACE) for way in ways)
        step: Step = Measure(
            name=name, place=PLACE, text="How far?", readings=(_WANTED,), figure="", unit="mm", bands=bands,
            minutes=minutes,
        )  # fmt: skip
        return step, ways
    if kind == "sort":
        fact = random.choice([*FACTS])
        cases = dict(zip(_VALUES[fact], ways, strict=False))
        return Sort(name=name, place=PLACE, fact=fact, cases=cases), tuple(cases.values())
    outcomes = {f"way-{k}": way for k, way in enumerate(ways)}
    return run(name, "other", outcomes, minutes), ways


class Shelf(NamedTuple):
    """A tree without loops, and the procedures that it runs."""

    tree: Tree
    procedures: Mapping[str, Procedure]

    def documents(self) -> Iterator[Document]:
        """The tree and its procedures."""
        yield self.tree
        yield from self.procedures.values()


def shelf(random: Random) -> Shelf:
    """A tree of up to six steps over up to three procedures that run each other, all free of loops."""
    procedures: dict[str, Procedure] = {}
    for k in range(random.randint(0, 3)):
        outcomes = tuple(f"end-{n}" for n in range(random.randint(1, 3)))
        steps = _forward(random, outcomes, procedures, random.randint(1, 4))
        procedures[f"p{k}"] = procedure(f"p{k}", steps, outcomes)
    ends = {f"v{k}": verdict(f"v{k}", Fraction(random.randint(0, 5))) for k in range(random.randint(1, 3))}
    return Shelf(
        tree({**_forward(random, tuple(ends), procedures, random.randint(1, 6)), **ends}), procedures
    )


def _forward(
    random: Random, ends: tuple[str, ...], procedures: Mapping[str, Procedure], count: int
) -> dict[str, Step]:
    """Steps that lead only to later ones and to the ends, and run only procedures that are there."""
    steps: dict[str, Step] = {}
    for k in range(count):
        ahead = [*(f"s{n}" for n in range(k + 1, count)), *ends]
        ways = tuple(random.choice(ahead) for _ in range(random.randint(1, 3)))
        step, _ = _step(f"s{k}", ways, random, may_end=False)
        if isinstance(step, Run):
            step = _running(step, random, ahead, procedures)
        steps[step.name] = step
    return steps


def _running(step: Run, random: Random, ahead: list[str], procedures: Mapping[str, Procedure]) -> Step:
    if not procedures:
        return do(step.name, random.choice(ahead), minutes=step.minutes)
    name = random.choice([*procedures])
    return run(step.name, name, {o: random.choice(ahead) for o in procedures[name].outcomes}, step.minutes)
