"""Small random trees with suspects, fits and procedures, and a walker that takes every walk through them.

The walker knows nothing of the engine's figures: it follows each walk to its end, adds its minutes and
multiplies its chances, one way out at a time.
"""

from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction
from random import Random
from typing import Any, Final, NamedTuple

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
    Suspect,
    Tree,
    Verdict,
    Wanted,
)

BOXES: Final = ("manual", "automatic")
SUSPECTS: Final = ("shaft", "gear", "tyre")
_HERE: Final = Place("small.yaml", 1, 1)
_GAP: Final = Wanted("gap", "mm", "rule", Fraction(0), Fraction(9), _HERE)
_SHARES: Final = tuple(Fraction(n, d) for n, d in ((0, 1), (1, 2), (1, 3), (2, 5), (1, 10), (1, 1)))
_MINUTES: Final = tuple(Fraction(n, d) for n, d in ((0, 1), (1, 1), (5, 2), (1, 3), (7, 1), (11, 10)))


class Small(NamedTuple):
    """A tree with the procedures it may run."""

    tree: Tree
    procedures: Mapping[str, Procedure]


class _Maker:
    """Random documents without loops: every step leads only to later ones."""

    def __init__(self, seed: int) -> None:
        self.chance = Random(seed)
        #: Now and then the procedures say how often something is met under a suspect, too.
        self.telling = self.chance.random() < 0.3

    def fits(self, telling: bool) -> dict[str, Fraction]:  # noqa: FBT001  reason: a word of this file only
        if not telling or self.chance.random() < 0.3:
            return {}
        return {s: self.chance.choice(_SHARES) for s in SUSPECTS if self.chance.random() < 0.5}

    def step(self, name: str, ahead: Sequence[str], runs: Mapping[str, Procedure], *, telling: bool) -> Step:
        def pick() -> str:
            return self.chance.choice(ahead)

        shared: dict[str, Any] = {"name": name, "place": _HERE}
        kind = self.chance.choice(("do", "ask", "ask", "measure", "sort", *(("run",) * 3 if runs else ())))
        if kind == "sort":
            return Sort(**shared, fact="box", cases={box: pick() for box in BOXES})
        shared["minutes"] = self.chance.choice(_MINUTES)
        if kind == "run":
            procedure = self.chance.choice(sorted(runs))
            outcomes = {outcome: pick() for outcome in runs[procedure].outcomes}
            rows = {outcome: self.fits(telling) for outcome in outcomes} if self.chance.random() < 0.3 else {}
            said = {outcome: row for outcome, row in rows.items() if row}
            return Run(**shared, procedure=procedure, outcomes=outcomes, fits=said)
        shared["unsure"] = pick() if self.chance.random() < 0.5 else ""
        if kind == "do":
            return Do(**shared, text="Do it.", then=pick())
        fits = [self.fits(telling) for _ in range(self.chance.randint(2, 3))]
        if kind == "ask":
            answers = tuple(Answer(str(k), pick(), row, _HERE) for k, row in enumerate(fits))
            return Ask(**shared, text="What?", answers=answers)
        bands = tuple(Band(None, None, pick(), "", row, "", _HERE) for row in fits)
        return Measure(**shared, text="How far?", readings=(_GAP,), figure="", unit="mm", bands=bands)

    def steps(
        self, most: int, ends: Sequence[str], runs: Mapping[str, Procedure], *, telling: bool
    ) -> dict[str, Step]:
        names = [f"s{k}" for k in range(self.chance.randint(1, most))]
        return {
            name: self.step(name, [*names[k + 1 :], *ends], runs, telling=telling)
            for k, name in enumerate(names)
        }

    def verdict(self, name: str) -> Verdict:
        convicted = tuple(s for s in SUSPECTS if self.chance.random() < 0.45)
        return Verdict(
            name=name,
            place=_HERE,
            minutes=self.chance.choice(_MINUTES),
            text="It is so",
            suspects=convicted,
            grade="repair",
            correction="Mend it",
        )

    def small(self) -> Small:
        shared: dict[str, Any] = {"place": _HERE, "title": "Small", "revision": 1, "facts": {}, "sources": {}}
        shared["start"] = "s0"
        procedures: dict[str, Procedure] = {}
        for name in ("p0", "p1", "p2")[: self.chance.randint(0, 3)]:
            ends = ("good", "bad", "cannot")[: self.chance.randint(1, 3)]
            steps = self.steps(3, ends, dict(procedures), telling=self.telling)
            outcomes = dict.fromkeys(ends, "Over")
            procedures[name] = Procedure(**shared, name=name, steps=steps, outcomes=outcomes)
        verdicts = ("v0", "v1", "v2")
        steps = self.steps(5, verdicts, procedures, telling=True)
        steps |= {name: self.verdict(name) for name in verdicts}
        suspects = {
            s: Suspect(s, s.title(), Fraction(self.chance.randint(1, 9), 2), "", _HERE) for s in SUSPECTS
        }
        confidence = Fraction(95, 100)
        tree = Tree(
            **shared, name="small", steps=steps, complaint="No", suspects=suspects, confidence=confidence
        )
        return Small(tree, procedures)


def small(seed: int) -> Small:
    """A random tree; equal for equal seeds."""
    return _Maker(seed).small()


class Walk(NamedTuple):
    """One walk: where it ends, what it took, how likely it is, and the steps that asked something."""

    end: str
    minutes: Fraction
    chance: Fraction
    seen: tuple[str, ...]


class Walker:
    """Walks every walk for one vehicle where one suspect is to blame."""

    def __init__(self, given: Small, box: str, suspect: str) -> None:
        self.given, self.box, self.suspect = given, box, suspect

    def tree(self) -> list[Walk]:
        """All walks through the tree."""
        return list(self.walks(self.given.tree, "s0", ""))

    def walks(self, document: Document, name: str, inside: str) -> Iterator[Walk]:
        """Every walk from a step of a document to its ends."""
        step = document.steps.get(name)
        if step is None:
            yield Walk(name, Fraction(0), Fraction(1), ())
            return
        here = () if isinstance(step, Run | Sort) else (f"{inside}/{name}",)
        if isinstance(step, Verdict):
            yield Walk(name, step.minutes, Fraction(1), here)
            return
        for way in self.ways(step, f"{inside}/{name}"):
            for rest in self.walks(document, way.end, inside):
                minutes = step.minutes + way.minutes + rest.minutes
                yield Walk(rest.end, minutes, way.chance * rest.chance, (*here, *way.seen, *rest.seen))

    def ways(self, step: Step, inside: str) -> Iterator[Walk]:
        """Every way out of a step, as a walk to the step that it leads to."""
        match step:
            case Sort():
                yield Walk(step.cases[self.box], Fraction(0), Fraction(1), ())
            case Do():
                yield Walk(step.then, Fraction(0), Fraction(1), ())
            case Ask():
                yield from self.answered([(a.then, a.fits) for a in step.answers])
            case Measure():
                yield from self.answered([(b.then, b.fits) for b in step.bands])
            case Run():
                for walk in self.left(step, inside):
                    yield walk._replace(end=step.outcomes[walk.end])
        if isinstance(step, Do | Ask | Measure) and step.unsure:
            yield Walk(step.unsure, Fraction(0), Fraction(0), ())

    def answered(self, answers: Sequence[tuple[str, Mapping[str, Fraction]]]) -> Iterator[Walk]:
        """The ways of answers: what is given, the rest spread over the silent, all of it made to be one."""
        given = sum(fits.get(self.suspect, 0) for _, fits in answers)
        silent = [self.suspect not in fits for _, fits in answers].count(True)
        parts: list[Fraction] = []
        for _, fits in answers:
            if self.suspect in fits:
                parts.append(fits[self.suspect])
            else:
                parts.append(Fraction(1 - given, silent) if given < 1 else Fraction(0))
        if sum(parts) == 0:
            parts = [Fraction(1)] * len(answers)
        for (then, _), part in zip(answers, parts, strict=True):
            yield Walk(then, Fraction(0), part / sum(parts), ())

    def left(self, step: Run, inside: str) -> list[Walk]:
        """Every walk through what is run, its outcomes as likely as the step says where it does."""
        walks = self.inner(step.procedure, inside)
        if not any(self.suspect in row for row in step.fits.values()):
            return walks
        likely: dict[str, Fraction] = {}
        for walk in walks:
            likely[walk.end] = likely.get(walk.end, Fraction(0)) + walk.chance
        ends = [(end, step.fits.get(end, {})) for end, chance in likely.items() if chance]
        said = {way.end: way.chance for way in self.answered(ends)}
        return [
            walk._replace(chance=walk.chance / likely[walk.end] * said[walk.end]) if walk.chance else walk
            for walk in walks
        ]

    def inner(self, procedure: str, inside: str) -> list[Walk]:
        """Every walk through a procedure, its outcomes made equally likely where it says nothing."""
        document = self.given.procedures[procedure]
        walks = list(self.walks(document, "s0", inside))
        if self.speaks(procedure):
            return walks
        likely: dict[str, Fraction] = {}
        for walk in walks:
            likely[walk.end] = likely.get(walk.end, Fraction(0)) + walk.chance
        open_ends = [end for end, chance in likely.items() if chance]
        return [
            walk._replace(chance=walk.chance / likely[walk.end] / len(open_ends)) if walk.chance else walk
            for walk in walks
        ]

    def speaks(self, procedure: str) -> bool:
        """Whether a procedure, or one it runs, says in its fits anything of the suspect."""
        for step in self.given.procedures[procedure].steps.values():
            if isinstance(step, Run) and self.speaks(step.procedure):
                return True
            if isinstance(step, Run) and any(self.suspect in row for row in step.fits.values()):
                return True
            told = step.answers if isinstance(step, Ask) else step.bands if isinstance(step, Measure) else ()
            if any(self.suspect in way.fits for way in told):
                return True
        return False
