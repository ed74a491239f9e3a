"""The proof about the vehicle's states, against walking every path of small random libraries."""

import random
from collections.abc import Iterator, Mapping
from fractions import Fraction
from typing import Any, Final

import pytest

from engine.lint.rule import Scope
from engine.lint.safety import faults
from engine.loading.library import Library, gather
from engine.model.place import Place
from engine.model.shop import Shop, State
from engine.model.tree import Answer, Ask, Do, Document, Procedure, References, Run, Sort, Step, Tree, Verdict
from engine.model.vehicle import Sheet

STATES = ("raised", "running", "chocked")
#: How many libraries are walked path by path.
TRIED = 2000
SHOP = Shop(
    states={
        "raised": State(
            "raised", "Raised", must_clear=True, excludes=("chocked",), place=Place("states", 1, 1)
        ),
        "running": State("running", "Running", must_clear=True, excludes=(), place=Place("states", 2, 1)),
        "chocked": State("chocked", "Chocked", must_clear=False, excludes=(), place=Place("states", 3, 1)),
    }
)
#: What the made documents refer to, as far as the proof asks.
WORDS: Final[References] = {"state": [("raised", 1, 1)], "procedure": []}
SHEETS = {
    box: Sheet(
        name=box, place=Place(box, 1, 1), title=box, revision=1, facts={"box": box},
        limits={}, capacities={}, lubricants={}, torques={},
    )
    for box in ("manual", "automatic")
}  # fmt: skip


def _some(chance: random.Random, odds: float) -> tuple[str, ...]:
    return tuple(state for state in STATES if chance.random() < odds)


class _Maker:
    """Random documents without loops: every step leads only to later ones."""

    def __init__(self, seed: int) -> None:
        self.chance = random.Random(seed)
        self.line = 0

    def common(self, name: str, file: str) -> dict[str, Any]:
        self.line += 1
        odds = (0.1, 0.1, 0.35, 0.3)
        needs, forbids, sets, clears = (_some(self.chance, o) for o in odds)
        place = Place(file, self.line, 1)
        return {
            "name": name,
            "place": place,
            "needs": needs,
            "forbids": forbids,
            "sets": sets,
            "clears": clears,
        }

    def step(self, name: str, file: str, ahead: list[str], runs: Mapping[str, Procedure]) -> Step:
        common = self.common(name, file)

        def pick() -> str:
            return self.chance.choice(ahead)

        kind = self.chance.choice(("do", "ask", "ask", "sort", "run") if runs else ("do", "ask", "sort"))
        if kind == "do":
            return Do(**common, text="t", then=pick(), unsure=pick() if self.chance.random() < 0.5 else "")
        if kind == "ask":
            answers = tuple(Answer(str(k), pick(), {}, Place(file, 1, 1)) for k in range(2))
            return Ask(**common, text="t", answers=answers, unsure=pick())
        if kind == "sort":
            plain = {"name": name, "place": common["place"]}
            return Sort(**plain, fact="box", cases={box: pick() for box in SHEETS})
        procedure = self.chance.choice(sorted(runs))
        outcomes = {outcome: pick() for outcome in runs[procedure].outcomes}
        return Run(**common, procedure=procedure, outcomes=outcomes)

    def steps(self, file: str, count: int, ends: list[str], runs: Mapping[str, Procedure]) -> dict[str, Step]:
        names = [f"s{k}" for k in range(count)]
        return {name: self.step(name, file, [*names[k + 1 :], *ends], runs) for k, name in enumerate(names)}

    def procedure(self, name: str, runs: Mapping[str, Procedure]) -> Procedure:
        outcomes = ["out-a", "out-b"]
        steps = self.steps(name, self.chance.randint(1, 3), outcomes, runs)
        return Procedure(
            name=name, place=Place(name, 1, 1), title=name, revision=1, facts={}, sources={}, start="s0",
            steps=steps, references=WORDS, outcomes=dict.fromkeys(outcomes, "Over"),
        )  # fmt: skip

    def tree(self, runs: Mapping[str, Procedure]) -> Tree:
        steps = self.steps("tree", self.chance.randint(2, 5), ["v0", "v1"], runs)
        for name in ("v0", "v1"):
            follow = tuple(sorted(runs)[: self.chance.randint(0, 2)])
            shared: dict[str, Any] = {"name": name, "place": Place("tree", 100 + int(name[1]), 1)}
            steps[name] = Verdict(
                **shared, text="t", suspects=(), grade="refer", correction="c", follow=follow
            )
        return Tree(
            name="tree", place=Place("tree", 1, 1), title="t", revision=1, facts={}, sources={}, start="s0",
            steps=steps, references=WORDS, complaint="c", suspects={},
            confidence=Fraction(95, 100),
        )  # fmt: skip


def _library(seed: int) -> Library:
    maker = _Maker(seed)
    procedures: dict[str, Procedure] = {}
    for name in ("p0", "p1")[: maker.chance.randint(0, 2)]:
        procedures[name] = maker.procedure(name, dict(procedures))
    tree = maker.tree(procedures)
    return gather(())._replace(trees={"tree": tree}, procedures=procedures, sheets=SHEETS, shop=SHOP)


Held = frozenset[str]
Seen = set[tuple[str, str, str, tuple[str, ...]]]


class _Walker:
    """Walks every path, one after the other, and writes down what it sees go wrong."""

    def __init__(self, library: Library, box: str, seen: Seen) -> None:
        self.library, self.box, self.seen = library, box, seen

    def walk(self, document: Document, name: str, holds: Held) -> Iterator[tuple[str, Held]]:
        """Every way on from a step: the end it comes to, and what holds there."""
        step = document.steps.get(name)
        if step is None:
            yield name, holds
            return
        self.look(document, step, holds)
        after = (holds - set(step.clears)) | set(step.sets)
        match step:
            case Verdict():
                self.follow(step, holds, 3)
                yield name, holds
            case Sort():
                yield from self.walk(document, step.cases[self.box], after)
            case Do() | Ask():
                ways = [step.then] if isinstance(step, Do) else [answer.then for answer in step.answers]
                for way in ways:
                    yield from self.walk(document, way, after)
                if step.unsure:
                    yield from self.walk(document, step.unsure, holds)
            case Run():
                inner = self.library.procedures[step.procedure]
                for outcome, held in list(self.walk(inner, inner.start, holds)):
                    left = (held - set(step.clears)) | set(step.sets)
                    yield from self.walk(document, step.outcomes[outcome], left)

    def follow(self, step: Verdict, holds: Held, depth: int) -> None:
        for state in sorted(holds & {"raised", "running"}):
            self.seen.add(("left", "tree", step.name, (state,)))
        for name in step.follow if depth else ():
            inner = self.library.procedures[name]
            for _, held in list(self.walk(inner, inner.start, holds)):
                self.follow(step, held, depth - 1)

    def look(self, document: Document, step: Step, holds: Held) -> None:
        file = step.place.file
        del document
        self.seen.update(("lacks", file, step.name, (s,)) for s in step.needs if s not in holds)
        self.seen.update(("holds", file, step.name, (s,)) for s in step.forbids if s in holds)
        after = (holds - set(step.clears)) | set(step.sets)
        if {"raised", "chocked"} <= after and {"raised", "chocked"} & set(step.sets):
            self.seen.add(("together", file, step.name, ("chocked", "raised")))


def _walked(library: Library) -> Seen:
    seen: Seen = set()
    tree = library.trees["tree"]
    for box in SHEETS:
        for _ in _Walker(library, box, seen).walk(tree, tree.start, frozenset()):
            pass
    return seen


@pytest.mark.parametrize("part", range(4))
def test_proof_finds_what_walking_every_path_finds(part: int) -> None:
    """Over random libraries the proof and the walk along every single path find the same faults."""
    for seed in range(part * TRIED // 4, (part + 1) * TRIED // 4):
        library = _library(seed)
        proven = {(f.kind, f.place.file, f.step, f.states) for f in faults(Scope(library)) if f.path}

        assert proven == _walked(library), seed


@pytest.mark.parametrize("seed", range(40))
def test_every_fault_comes_with_a_walk_from_the_start(seed: int) -> None:
    """The path of a fault begins at the tree's start and ends at the step it is told of."""
    for fault in faults(Scope(_library(seed))):
        if fault.path:
            assert fault.path[0].startswith("s0")
            assert fault.path[-1].rpartition("/")[2] == fault.step
