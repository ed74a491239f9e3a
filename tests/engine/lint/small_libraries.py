"""Small random libraries, and a walker that takes every path through them, one after the other.

The walker knows nothing of the engine's graphs: it keeps what holds as a set of names, and of what was read
every number of a fine grid that it may have been.
"""

import random
from collections.abc import Iterator, Mapping
from fractions import Fraction
from typing import Any, Final, NamedTuple

from engine.loading.library import Library, gather
from engine.model.place import Place
from engine.model.shop import Shop, State
from engine.model.tree import (
    Answer,
    Ask,
    Band,
    Do,
    Document,
    Limit,
    Measure,
    Procedure,
    References,
    Run,
    Sort,
    Step,
    Tree,
    Verdict,
    Wanted,
)
from engine.model.vehicle import Amount, Sheet

STATES = ("raised", "running", "chocked")
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
_HERE: Final = Place("sheet", 1, 1)
SHEETS = {
    box: Sheet(
        name=box, place=Place(box, 1, 1), title=box, revision=1, facts={"box": box},
        limits={"shaft.play.max": Amount(most, unit, "", _HERE)},
        capacities={}, lubricants={}, torques={},
    )
    for box, most, unit in (("manual", Fraction(1), "mm"), ("automatic", Fraction(2, 10), "cm"))
}  # fmt: skip
#: Numbers in millimetres between, on and beyond all limits that are made.
GRID: Final = tuple(Fraction(n, 2) for n in range(8))
_INCH: Final = Fraction(254, 10)


def _some(chance: random.Random, odds: float) -> tuple[str, ...]:
    return tuple(state for state in STATES if chance.random() < odds)


class _Maker:
    """Random documents without loops: every step leads only to later ones."""

    def __init__(self, seed: int) -> None:
        self.chance = random.Random(seed)
        self.line = 0
        #: Now and then nothing changes the vehicle, so that much is known.
        self.odds = self.chance.choice(((0.1, 0.1, 0.35, 0.3), (0.15, 0.15, 0.1, 0.05)))

    def common(self, name: str, file: str) -> dict[str, Any]:
        self.line += 1
        needs, forbids, sets, clears = (_some(self.chance, o) for o in self.odds)
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

        kinds = ("do", "ask", "ask", "measure", "measure", "sort", *(("run", "run") if runs else ()))
        kind = self.chance.choice(kinds)
        if kind == "do":
            return Do(**common, text="t", then=pick(), unsure=pick() if self.chance.random() < 0.5 else "")
        if kind == "ask":
            answers = tuple(Answer(str(k), pick(), {}, Place(file, 1, 1)) for k in range(2))
            return Ask(**common, text=self.chance.choice("abc"), answers=answers, unsure=pick())
        if kind == "measure":
            return self.measure(common, [pick() for _ in range(3)], pick())
        if kind == "sort":
            plain = {"name": name, "place": common["place"]}
            return Sort(**plain, fact="box", cases={box: pick() for box in SHEETS})
        procedure = self.chance.choice(sorted(runs))
        outcomes = {outcome: pick() for outcome in runs[procedure].outcomes}
        return Run(**common, procedure=procedure, outcomes=outcomes)

    def measure(self, common: dict[str, Any], targets: list[str], unsure: str) -> Measure:
        unit = self.chance.choice(("mm", "mm", "in"))
        place = common["place"]
        cuts = sorted(self.chance.sample((1, 2, 3), 2))
        limits: list[Limit | None] = []
        for cut in cuts:
            owned = self.chance.random() < 0.5
            value = Fraction(cut) / (_INCH if unit == "in" else 1)
            limits += [Limit(value, None, owned, place), Limit(value, None, not owned, place)]
        if self.chance.random() < 0.3:  # one limit, of the sheet
            owned = self.chance.random() < 0.5
            limits = [Limit(None, "shaft.play.max", side, place) for side in (owned, not owned)]
        ends = [None, *limits, None]
        pairs = zip(ends[::2], ends[1::2], strict=True)
        bands = [
            Band(low, high, target, "", {}, "", place)
            for (low, high), target in zip(pairs, targets, strict=False)
        ]
        reading = Wanted(self.chance.choice("pq"), unit, "rule", Fraction(0), Fraction(9), place)
        return Measure(
            **common, text="m", readings=(reading,), figure="", unit=unit, bands=tuple(bands), unsure=unsure
        )

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


def library(seed: int) -> Library:
    """One tree with up to two procedures; equal for equal seeds."""
    maker = _Maker(seed)
    procedures: dict[str, Procedure] = {}
    for name in ("p0", "p1")[: maker.chance.randint(0, 2)]:
        procedures[name] = maker.procedure(name, dict(procedures))
    tree = maker.tree(procedures)
    return gather(())._replace(trees={"tree": tree}, procedures=procedures, sheets=SHEETS, shop=SHOP)


def torn(given: Library, seed: int) -> Library:
    """The same library with bands that leave something out, or take something twice."""
    chance = random.Random(seed)
    (tree,) = given.trees.values()
    procedures = {name: _torn(procedure, chance) for name, procedure in given.procedures.items()}
    return given._replace(trees={tree.name: _torn(tree, chance)}, procedures=procedures)


def _torn(document: Any, chance: random.Random) -> Any:
    steps = {
        name: _with(step, bands=_torn_bands(step.bands, chance)) if isinstance(step, Measure) else step
        for name, step in document.steps.items()
    }
    return _with(document, steps=steps)


def _with(value: Any, **changed: Any) -> Any:
    """The same value with some of its fields changed."""
    return type(value)(**{name: getattr(value, name) for name in value._fields} | changed)


def _torn_bands(bands: tuple[Band, ...], chance: random.Random) -> tuple[Band, ...]:
    """Bands of which one is gone, or of which one owns a limit too many or too few."""
    number = chance.randrange(len(bands))
    if len(bands) > 2 and chance.random() < 0.3:
        return (*bands[:number], *bands[number + 1 :])
    band = bands[number]
    low = band.low._replace(owned=not band.low.owned) if band.low else None
    return (*bands[:number], band._replace(low=low), *bands[number + 1 :])


Held = frozenset[str]
#: What was answered to each question, and every number that each reading may have.
Facts = Mapping[str, frozenset[object]]


class Seen(NamedTuple):
    """What a walker writes down."""

    #: (what is wrong, file, step, states).
    faults: set[tuple[str, str, str, tuple[str, ...]]]
    #: (file, step, number of the way out).
    ways: set[tuple[str, str, int]]
    #: (`gap` or `overlap`, file, line): numbers that a walk brought and no band takes, or two.
    torn: set[tuple[str, str, int]]


class _Walker:
    """Walks every path, one after the other, and writes down what it sees."""

    def __init__(self, given: Library, box: str, seen: Seen) -> None:
        self.library, self.box, self.seen = given, box, seen
        self.followed: set[tuple[str, Held, int]] = set()

    def walk(  # noqa: C901  reason: one case a kind of step
        self, document: Document, name: str, holds: Held, facts: Facts
    ) -> Iterator[tuple[str, Held, Facts]]:
        """Every way on from a step: the end it comes to, what holds there, and what is known."""
        step = document.steps.get(name)
        if step is None:
            yield name, holds, facts
            return
        self.look(step, holds)
        after = (holds - set(step.clears)) | set(step.sets)
        changed: Facts = {} if step.sets or step.clears else facts
        match step:
            case Verdict():
                self.follow(step, holds, 3)
                yield name, holds, {}
            case Sort():
                yield from self.walk(document, step.cases[self.box], after, changed)
            case Do():
                yield from self.walk(document, step.then, after, {})
                if step.unsure:
                    yield from self.walk(document, step.unsure, holds, {})
            case Ask() | Measure():
                thing, ways = self.told(step)
                self.look_at_bands(step, [values for values, _ in ways], changed.get(thing))
                for number, (values, target) in enumerate(ways):
                    left = values & changed.get(thing, values)
                    if left:
                        self.seen.ways.add((step.place.file, step.name, number))
                        yield from self.walk(document, target, after, {**changed, thing: left})
                yield from self.walk(document, step.unsure, holds, facts)
            case Run():
                inner = self.library.procedures[step.procedure]
                for outcome, held, learnt in self.ends(inner, holds, facts):
                    then = (held - set(step.clears)) | set(step.sets)
                    known: Facts = {} if step.sets or step.clears else learnt
                    yield from self.walk(document, step.outcomes[outcome], then, known)

    def ends(self, inner: Procedure, holds: Held, facts: Facts) -> list[tuple[str, Held, Facts]]:
        """Every way through a procedure; of those that come to the same, one."""
        found = {}
        for outcome, held, learnt in self.walk(inner, inner.start, holds, facts):
            found[outcome, held, frozenset(learnt.items())] = (outcome, held, learnt)
        return list(found.values())

    def look_at_bands(
        self, step: Ask | Measure, bands: list[frozenset[object]], held: frozenset[object] | None
    ) -> None:
        """Note the numbers that may be read here and that no band takes, or two."""
        if isinstance(step, Measure):
            for number in GRID if held is None else held:
                takers = sum(number in band for band in bands)
                if takers != 1:
                    kind = "overlap" if takers else "gap"
                    self.seen.torn.add((kind, step.place.file, step.place.line))

    def told(self, step: Ask | Measure) -> tuple[str, list[tuple[frozenset[object], str]]]:
        """The thing that is asked for, and the values that lead each way."""
        if isinstance(step, Ask):
            return f"ask {step.text}", [(frozenset((a.say,)), a.then) for a in step.answers]
        unit = _INCH if step.unit == "in" else Fraction(1)
        return f"read {step.readings[0].name}", [
            (frozenset(number for number in GRID if self.within(band, number, unit)), band.then)
            for band in step.bands
        ]

    def within(self, band: Band, number: Fraction, unit: Fraction) -> bool:
        above = (
            band.low is None
            or number > self.limit(band.low, unit)
            or (band.low.owned and number == self.limit(band.low, unit))
        )
        below = (
            band.high is None
            or number < self.limit(band.high, unit)
            or (band.high.owned and number == self.limit(band.high, unit))
        )
        return above and below

    def limit(self, limit: Limit, unit: Fraction) -> Fraction:
        """A limit in millimetres."""
        if limit.value is not None:
            return limit.value * unit
        return {"manual": Fraction(1), "automatic": Fraction(2)}[self.box]

    def follow(self, step: Verdict, holds: Held, depth: int) -> None:
        if (step.name, holds, depth) in self.followed:
            return
        self.followed.add((step.name, holds, depth))
        for state in sorted(holds & {"raised", "running"}):
            self.seen.faults.add(("left", "tree", step.name, (state,)))
        for name in step.follow if depth else ():
            inner = self.library.procedures[name]
            for held in {held for _, held, _ in self.walk(inner, inner.start, holds, {})}:
                self.follow(step, held, depth - 1)

    def look(self, step: Step, holds: Held) -> None:
        file = step.place.file
        faults = self.seen.faults
        faults.update(("lacks", file, step.name, (s,)) for s in step.needs if s not in holds)
        faults.update(("holds", file, step.name, (s,)) for s in step.forbids if s in holds)
        after = (holds - set(step.clears)) | set(step.sets)
        if {"raised", "chocked"} <= after and {"raised", "chocked"} & set(step.sets):
            faults.add(("together", file, step.name, ("chocked", "raised")))


def walked(given: Library) -> Seen:
    """What the walks along all paths come to see, on every vehicle."""
    seen = Seen(set(), set(), set())
    tree = given.trees["tree"]
    for box in SHEETS:
        for _ in _Walker(given, box, seen).walk(tree, tree.start, frozenset(), {}):
            pass
    return seen
