"""Random small trees with procedures, and later versions of them; and a walker that answers everything.

The walker gives every possible technician, one after the other: it knows neither pairs of positions nor
stretches, only what was answered to each question so far, and numbers of a grid for readings.
"""

import random
from collections.abc import Iterator, Mapping
from fractions import Fraction
from typing import Any, Final, NamedTuple

from engine.loading.library import Library, gather
from engine.model.place import Place
from engine.model.tree import (
    Answer,
    Ask,
    Band,
    Do,
    Document,
    Limit,
    Measure,
    Procedure,
    Run,
    Sort,
    Step,
    Tree,
    Verdict,
    Wanted,
)
from engine.model.vehicle import Amount, Sheet
from engine.proof.compare.align import align

_HERE: Final = Place("made.yaml", 1, 1)
#: Between, on and beyond all limits that are made, in millimetres.
GRID: Final = tuple(Fraction(n, 2) for n in range(9))
_INCH: Final = Fraction(254, 10)


def sheets(most: int) -> Mapping[str, Sheet]:
    """Two vehicles; the limit of the second one is told in another unit."""
    return {
        box: Sheet(
            name=box, place=_HERE, title=box, revision=1, facts={"box": box},
            limits={"shaft.play.max": Amount(Fraction(value), unit, "", _HERE)},
            capacities={}, lubricants={}, torques={},
        )
        for box, value, unit in (("manual", Fraction(most), "mm"), ("automatic", Fraction(2, 10), "cm"))
    }  # fmt: skip


class Maker:
    """Documents without loops: every step leads only to later ones, in either version."""

    def __init__(self, seed: int) -> None:
        self.chance = random.Random(seed)
        self.count = 0

    def text(self) -> str:
        """A text that stands nowhere else."""
        self.count += 1
        return f"text {self.count}"

    def step(self, name: str, ahead: list[str], runs: Mapping[str, Procedure]) -> Step:
        """A random step that leads to one of these."""
        common: dict[str, Any] = {"name": name, "place": _HERE}

        def pick() -> str:
            return self.chance.choice(ahead)

        kinds = ("do", "ask", "ask", "ask", "measure", "measure", "sort", *(("run", "run") if runs else ()))
        kind = self.chance.choice(kinds)
        unsure = pick() if self.chance.random() < 0.3 else ""
        if kind == "do":
            return Do(**common, text=self.text(), then=pick(), unsure=unsure)
        if kind == "ask":
            answers = tuple(Answer(say, pick(), {}, _HERE) for say in "xy")
            return Ask(**common, text=self.text(), answers=answers, unsure=unsure)
        if kind == "measure":
            return self.measure(common, pick(), pick())
        if kind == "sort":
            return Sort(**common, fact="box", cases={"manual": pick(), "automatic": pick()})
        procedure = self.chance.choice(sorted(runs))
        return Run(**common, procedure=procedure, outcomes={end: pick() for end in runs[procedure].outcomes})

    def measure(self, common: dict[str, Any], low: str, high: str, text: str = "") -> Measure:
        """Two bands around one limit, in some unit, now and then of the sheet."""
        unit = self.chance.choice(("mm", "mm", "in"))
        owned = self.chance.random() < 0.5
        value = Fraction(self.chance.randint(1, 3)) / (_INCH if unit == "in" else 1)
        name = "shaft.play.max" if self.chance.random() < 0.3 else None
        limits = [Limit(None if name else value, name, side, _HERE) for side in (owned, not owned)]
        bands = (
            Band(None, limits[0], low, "", {}, "", _HERE),
            Band(limits[1], None, high, "", {}, "", _HERE),
        )
        most = Fraction(4) / (_INCH if unit == "in" else 1)
        wanted = Wanted("play", unit, "rule", Fraction(0), most, _HERE)
        return Measure(
            **common, text=text or self.text(), readings=(wanted,), figure="", unit=unit, bands=bands
        )

    def steps(self, count: int, ends: list[str], runs: Mapping[str, Procedure]) -> dict[str, Step]:
        """So many random steps, each leading to later ones."""
        names = [f"s{k}" for k in range(count)]
        return {name: self.step(name, [*names[k + 1 :], *ends], runs) for k, name in enumerate(names)}

    def library(self) -> Library:
        """One tree with up to two procedures."""
        procedures: dict[str, Procedure] = {}
        for name in ("p0", "p1")[: self.chance.randint(0, 2)]:
            steps = self.steps(self.chance.randint(1, 2), ["out-a", "out-b"], procedures)
            procedures[name] = procedure(name, steps)
        steps = self.steps(self.chance.randint(2, 5), ["v0", "v1", "v2"], procedures)
        return library(tree(steps), procedures, sheets(1))

    def later(self, given: Library) -> Library:
        """Another version of a library."""
        procedures = {
            name: procedure(
                name, self.changed(one, ["out-a", "out-b"], given) if self.odds(0.4) else one.steps
            )
            for name, one in given.procedures.items()
        }
        steps = self.changed(given.trees["tree"], ["v0", "v1", "v2"], given)
        return library(tree(steps), procedures, sheets(self.chance.choice((1, 1, 3))))

    def odds(self, odds: float) -> bool:
        """Whether something happens that happens so often."""
        return self.chance.random() < odds

    def changed(self, document: Document, ends: list[str], given: Library) -> dict[str, Step]:
        """Some steps are written anew, some renamed, some left out or put in, some change their places."""
        steps = [step for step in document.steps.values() if not isinstance(step, Verdict)]
        order = [step.name for step in steps]
        if len(steps) > 1 and self.odds(0.4):
            k = self.chance.randrange(len(steps) - 1)
            steps[k], steps[k + 1] = self.swapped(steps[k], steps[k + 1])
            order = [step.name for step in steps]
        if self.odds(0.3):
            k = self.chance.randrange(len(steps) + 1)
            order.insert(k, "put-in")
            runs = given.procedures if isinstance(document, Tree) else {}
            steps.insert(k, self.step("put-in", [*order[k + 1 :], *ends], runs))
        out: dict[str, Step] = {}
        for k, step in enumerate(steps):
            ahead = [*order[k + 1 :], *ends]
            out[step.name] = self.retold(step, ahead) if self.odds(0.4) else self.forward(step, ahead)
        return self.renamed(out, order) if self.odds(0.3) else out

    def swapped(self, first: Step, second: Step) -> tuple[Step, Step]:
        """Two neighbours the other way round: what led to the second asks it first."""
        return second, first

    def forward(self, step: Step, ahead: list[str]) -> Step:
        """The step, with what would lead back led on, and now and then to what stands next."""
        return redirect(step, lambda then: then if then in ahead and self.odds(0.9) else ahead[0])

    def retold(self, step: Step, ahead: list[str]) -> Step:
        """The step with other limits, answers or targets."""
        common: dict[str, Any] = {"name": step.name, "place": _HERE}
        if isinstance(step, Measure):
            return self.measure(common, self.chance.choice(ahead), self.chance.choice(ahead), step.text)
        if isinstance(step, Ask) and self.odds(0.5):
            kept = self.forward(step, ahead)
            assert isinstance(kept, Ask)
            answers = (
                kept.answers[:1] if self.odds(0.5) else (*kept.answers, Answer("z", ahead[-1], {}, _HERE))
            )
            return Ask(**common, text=step.text, answers=answers, unsure=kept.unsure)
        if isinstance(step, Do):
            unsure = self.chance.choice(["", *ahead])
            return Do(**common, text=step.text, then=self.chance.choice(ahead), unsure=unsure)
        return redirect(step, lambda _: self.chance.choice(ahead))

    def renamed(self, steps: dict[str, Step], order: list[str]) -> dict[str, Step]:
        """The steps with one of them under another name."""
        old = self.chance.choice(order)

        def other(name: str) -> str:
            return "renamed" if name == old else name

        return {other(n): named(redirect(step, other), other(n)) for n, step in steps.items()}


def named(step: Step, name: str) -> Step:
    """The step under another name."""
    return type(step)(**{**vars(step), "name": name})


def redirect(step: Step, to: Any) -> Step:
    """The step with each of its targets replaced."""
    match step:
        case Do():
            more: dict[str, Any] = {"then": to(step.then)}
        case Ask():
            more = {"answers": tuple(a._replace(then=to(a.then)) for a in step.answers)}
        case Measure():
            more = {"bands": tuple(b._replace(then=to(b.then)) for b in step.bands)}
        case Sort():
            more = {"cases": {value: to(then) for value, then in step.cases.items()}}
        case Run():
            more = {"outcomes": {end: to(then) for end, then in step.outcomes.items()}}
        case _:
            more = {}
    if getattr(step, "unsure", ""):
        more["unsure"] = to(vars(step)["unsure"])
    return type(step)(**{**vars(step), **more})


def start(steps: Mapping[str, Step]) -> str:
    """The first of the steps."""
    return next(iter(steps))


def tree(steps: Mapping[str, Step]) -> Tree:
    """A tree of these steps and three verdicts."""
    verdicts = {
        name: Verdict(name=name, place=_HERE, text=name, suspects=(), grade="refer", correction="c")
        for name in ("v0", "v1", "v2")
    }
    return Tree(
        name="tree", place=_HERE, title="t", revision=1, facts={}, sources={}, start=start(steps),
        steps={**steps, **verdicts}, complaint="c", suspects={}, confidence=Fraction(95, 100),
    )  # fmt: skip


def procedure(name: str, steps: Mapping[str, Step]) -> Procedure:
    """A procedure of these steps."""
    return Procedure(
        name=name, place=_HERE, title=name, revision=1, facts={}, sources={}, start=start(steps),
        steps=dict(steps), outcomes={"out-a": "A", "out-b": "B"},
    )  # fmt: skip


def library(made: Tree, procedures: Mapping[str, Procedure], vehicles: Mapping[str, Sheet]) -> Library:
    """The library, with a text for each document that differs exactly where the document does."""
    texts = {f"tree {made.name}": repr(made)}
    texts |= {f"procedure {name}": repr(one) for name, one in procedures.items()}
    texts |= {f"vehicle {name}": repr(one) for name, one in vehicles.items()}
    return gather(())._replace(
        trees={"tree": made},
        procedures=procedures,
        sheets=vehicles,
        texts=texts,
        paths={name: (name,) for name in texts},
    )


def pair(seed: int) -> tuple[Library, Library]:
    """A library and a later version of it; equal for equal seeds."""
    maker = Maker(seed)
    old = maker.library()
    return old, maker.later(old)


Question = tuple[tuple[str, str], ...]
Answers = Mapping[Question, object]


class Technician(NamedTuple):
    """One version of a library on one vehicle, and the names that its steps have in the old version."""

    library: Library
    box: str
    names: Mapping[str, Mapping[str, str]]

    def walk(
        self, document: Document, at: str, calls: Question, said: Answers
    ) -> Iterator[tuple[str, Answers]]:
        """Every end that can be come to by who has said so much already, with all that was said then."""
        step = document.steps.get(at)
        if step is None or isinstance(step, Verdict):
            yield at, said
            return
        where = "" if isinstance(document, Tree) else document.name
        here = (*calls, (where, self.names[where].get(at, f"new {at}")))
        if isinstance(step, Sort):
            yield from self.walk(document, step.cases[self.box], calls, said)
        elif isinstance(step, Run):
            inner = self.library.procedures[step.procedure]
            for end, later in list(self.walk(inner, inner.start, here, said)):
                if end:
                    yield from self.walk(document, step.outcomes[end], calls, later)
                else:
                    yield "", later
        else:
            for answer in (said[here],) if here in said else self.possible(step):
                then = self.then(step, answer)
                if then:
                    yield from self.walk(document, then, calls, {**said, here: answer})
                elif here in said:
                    yield "", said

    def possible(self, step: Step) -> tuple[object, ...]:
        """All that may be answered."""
        unsure = ("unsure",) if getattr(step, "unsure", "") else ()
        if isinstance(step, Ask):
            return (*(answer.say for answer in step.answers), *unsure)
        return (*GRID, *unsure) if isinstance(step, Measure) else ("done", *unsure)

    def then(self, step: Step, answer: object) -> str:
        """Where an answer leads; nowhere where the step does not take it."""
        if answer == "unsure":
            return str(getattr(step, "unsure", ""))
        if isinstance(step, Ask):
            return next((a.then for a in step.answers if a.say == answer), "")
        if isinstance(step, Measure):
            assert isinstance(answer, Fraction)
            return step.bands[0 if self.below(step, answer) else 1].then
        return step.then if isinstance(step, Do) else ""

    def below(self, step: Measure, number: Fraction) -> bool:
        """Whether a reading in millimetres lies in the first of two bands."""
        limit = step.bands[0].high
        assert limit is not None
        if limit.value is None:
            amount = self.library.sheets[self.box].limits["shaft.play.max"]
            edge = amount.value * (10 if amount.unit == "cm" else 1)
        else:
            edge = limit.value * (_INCH if step.unit == "in" else 1)
        return number < edge or (limit.owned and number == edge)


def moved(old: Library, new: Library) -> set[tuple[str, str, str]]:
    """(vehicle, verdict before, verdict now) of every technician whose walk ends elsewhere."""
    aligned = {name: align(one, new.procedures[name]) for name, one in old.procedures.items()} | {
        "": align(old.trees["tree"], new.trees["tree"])
    }
    same = {name: {a: a for a in one.steps} for name, one in old.procedures.items()}
    same[""] = {a: a for a in old.trees["tree"].steps}
    back = {name: {b: a for a, b in one.steps.items()} for name, one in aligned.items()}
    found = set()
    for box in old.sheets:
        before, after = Technician(old, box, same), Technician(new, box, back)
        tree_before, tree_after = old.trees["tree"], new.trees["tree"]
        for end, said in before.walk(tree_before, tree_before.start, (), {}):
            for now, _ in after.walk(tree_after, tree_after.start, (), said):
                if end != now:
                    found.add((box, end, now))
    return found
