"""Verdicts that moved: who answers as before now ends elsewhere.

The comparison, exactly. A technician answers each thing that is asked in one way, in whichever version and
order it is asked; what both versions ask is the same where the steps are aligned (see `align`), inside of
a procedure also where it was run from the same step. A step asked in one version only may be answered in any
way. Both versions are walked side by side, each reachable pair of positions once; measured bands are parted
so finely that each part leads one way in either version. Where one version asks first what the other asks
later, the answer is remembered until then. A verdict has moved where such a technician ends in another one
than before, or in none. What could not be answered before (a new answer to an old question)
moves nothing, nor does a dropped answer where the old version did not ask for it.

Two steps are two questions, even where they read the same thing. A procedure that has not changed is one
question, and each outcome that it can come to on the vehicle is an answer.
"""

from collections import deque
from collections.abc import Iterator, Mapping
from typing import Final, NamedTuple

from engine.errors import Failure
from engine.graph.onward import Onward
from engine.lint.stretch import said
from engine.model.place import Place
from engine.model.tree import Measure, Run, Step
from engine.proof.compare.align import Alignment
from engine.proof.compare.refine import Standing, refined
from engine.proof.compare.side import NOWHERE, Key, Position, Side
from engine.proof.compare.ways import ways

#: Pairs of positions after which the two versions are too unlike to go on.
MOST: Final = 400_000


class Line(NamedTuple):
    """One line of a walk: the step, what was answered, and where each version asks it (None: it does not)."""

    step: str
    answer: str
    old: Place | None
    new: Place | None


class Moved(NamedTuple):
    """A verdict or outcome that who answers as before no longer comes to; `new` is empty for none."""

    old: str
    new: str
    old_place: Place | None
    new_place: Place | None
    #: The shortest walk that shows it.
    walk: tuple[Line, ...]


class Way(NamedTuple):
    """One way to answer, and where each version goes then; empty where it has no such answer."""

    label: str
    old: str
    new: str


class _Pair(NamedTuple):
    """Where the two walks stand, and what one of them was answered that the other will ask."""

    old: Position
    new: Position
    known: frozenset[tuple[Key, int]]
    #: What stopped the new walk with an answer that only the old version takes: it must still ask it, or
    #: nobody can have answered so.
    owed: Key | None = None


_Trace = dict[_Pair, tuple[_Pair, Line] | None]


class Walks:
    """Two versions of a document side by side."""

    def __init__(self, old: Side, new: Side, aligned: Mapping[str, Alignment]) -> None:
        self.old, self.new = old, new
        self._aligned = aligned
        self._same_ends = aligned[""].targets
        self._ways: dict[tuple[str, str, str], tuple[Way, ...]] = {}

    def moved(self) -> tuple[Moved, ...]:
        """Every moved verdict with the shortest walk that shows it, shortest first."""
        first = self._settled(_Pair(self.old.start(), self.new.start(), frozenset()))
        trace: _Trace = {first: None}
        waiting = deque((first,))
        found: dict[tuple[str, str], Moved] = {}
        while waiting:
            pair = waiting.popleft()
            if self._over(pair):
                self._record(pair, trace, found)
                continue
            for line, after in self._on(pair):
                if self._possible(after) and after not in trace:
                    trace[after] = (pair, line)
                    waiting.append(after)
            if len(trace) > MOST:
                raise Failure(
                    f"`{self.old.root.name}`: the two versions ask in too different an order to compare.",
                    "Compare with a version in between.",
                )
        return tuple(found.values())

    def _possible(self, pair: _Pair) -> bool:
        """Whether somebody can have answered so in the old version."""
        owed = pair.owed is None or self.old.bit(pair.owed) & self.old.ahead(pair.old)
        return pair.old != NOWHERE and bool(owed)

    def _over(self, pair: _Pair) -> bool:
        return not self.old.asks(pair.old) and not self.new.asks(pair.new)

    def _record(self, pair: _Pair, trace: _Trace, found: dict[tuple[str, str], Moved]) -> None:
        old, new = _end(pair.old), _end(pair.new)
        if old and (old, new) not in found and (not new or self._same_ends.get(old) != new):
            places = self.old.place(pair.old), self.new.place(pair.new)
            found[old, new] = Moved(old, new, *places, _walk(pair, trace))

    def _on(self, pair: _Pair) -> Iterator[tuple[Line, _Pair]]:
        """Every way on from a pair that is settled and not over."""
        here, there = self._next(pair)
        key = self.old.key(pair.old) if here else self.new.key(pair.new)
        old, new = (pair.old if here else NOWHERE), (pair.new if there else NOWHERE)
        name = (old or new)[-1]
        shown = "/".join((*(step for _, step in (old or new)[:-1]), name[1]))
        for number, way in enumerate(self._answers(key)):
            after = _Pair(
                self.old.leave(old, way.old) if here else pair.old,
                self.new.leave(new, way.new) if there else pair.new,
                pair.known if here and there else pair.known | {(key, number)},
                pair.owed if here or way.new else key,
            )
            line = Line(shown, way.label, self.old.place(old), self.new.place(new))
            yield line, self._settled(after)

    def _next(self, pair: _Pair) -> tuple[bool, bool]:
        """Whether the old version goes on, and whether the new one: both where both ask the same."""
        old, new = self.old.asks(pair.old), self.new.asks(pair.new)
        if not (old and new):
            return old, new
        asked = self.old.key(pair.old)
        if asked == self.new.key(pair.new):
            return True, True
        new_first = bool(self.new.bit(asked) & self.new.ahead(pair.new))
        return not new_first, new_first

    def _settled(self, pair: _Pair) -> _Pair:
        """The pair after each version was told what it asks and the other was answered already."""
        if not pair.known:
            return pair
        old, new, known, owed = pair.old, pair.new, dict(pair.known), pair.owed
        while self.old.asks(old) and (number := known.get(key := self.old.key(old))) is not None:
            old = self.old.leave(old, self._answers(key)[number].old)
            owed = None if key == owed else owed
        while self.new.asks(new) and (number := known.get(self.new.key(new))) is not None:
            new = self.new.leave(new, self._answers(self.new.key(new))[number].new)
        ahead = self.old.ahead(old) | self.new.ahead(new)
        return _Pair(old, new, frozenset(item for item in pair.known if self.old.bit(item[0]) & ahead), owed)

    def _answers(self, key: Key) -> tuple[Way, ...]:
        """Every way to answer what a key asks, in both versions where both have it."""
        document = key[-1][0]
        old, new = self._names(key)
        if (document, old, new) not in self._ways:
            self._ways[document, old, new] = tuple(self._made(document, old, new))
        return self._ways[document, old, new]

    def _names(self, key: Key) -> tuple[str, str]:
        """The names of the step that a key asks; empty where a version does not ask it."""
        old = [name for _, name in key]
        new = [n[1:] if n[0] == "+" else self._aligned[d].steps.get(n, "") for d, n in key]
        return (
            old[-1] if _entered(self.old, key, old) else "",
            new[-1] if _entered(self.new, key, new) else "",
        )

    def _made(self, document: str, old: str, new: str) -> Iterator[Way]:
        was = self.old.document(document).steps[old] if old else None
        now = self.new.document(document).steps[new] if new else None
        either = was or now
        if isinstance(either, Measure):
            yield from self._readings(was, now)
        ends = self._ends(either)
        for both in ways(was, now, self._aligned[document].targets):
            way = both.old or both.new
            assert way is not None
            if ends is not None and way.label not in ends:
                continue
            if way.aside or not isinstance(either, Measure):
                yield Way(way.label, both.old.then if both.old else "", both.new.then if both.new else "")

    def _ends(self, step: Step | None) -> frozenset[str] | None:
        """How a procedure that is compared as a whole can end on this vehicle; None for any other step."""
        if not isinstance(step, Run) or self.old.sheet is None:
            return None
        inner = self.old.procedures[step.procedure]
        found = Onward(self.old.procedures, self.old.sheet.facts).spans(inner, inner.start)
        return frozenset(f"{step.procedure} ends `{end}`" for end in found)

    def _readings(self, was: Step | None, now: Step | None) -> Iterator[Way]:
        old = Standing(was, self.old.sheet) if isinstance(was, Measure) else None
        new = Standing(now, self.new.sheet) if isinstance(now, Measure) else None
        for side in (old, new):
            if side and not side.known:
                raise Failure(
                    f"{side.step.place}: the sheet lacks a limit of `{side.step.name}`.", "Lint the library."
                )
        unit = old.step.unit if old else new.step.unit if new else ""
        yield from (Way(said(*part.stretch, unit), part.old, part.new) for part in refined(old, new))


def _entered(side: Side, key: Key, names: list[str]) -> bool:
    """Whether a version can come to a step by these runs, one inside of the other."""
    frames = [(document, name) for (document, _), name in zip(key, names, strict=True)]
    if not all(side.has(*frame) for frame in frames):
        return False
    runs = (side.document(document).steps[name] for document, name in frames[:-1])
    inside = zip(runs, (document for document, _ in frames[1:]), strict=True)
    return all(isinstance(run, Run) and run.procedure == name for run, name in inside)


def _end(position: Position) -> str:
    return position[-1][1] if position else ""


def _walk(pair: _Pair, trace: _Trace) -> tuple[Line, ...]:
    lines: list[Line] = []
    while (before := trace[pair]) is not None:
        pair, line = before
        lines.append(line)
    return tuple(reversed(lines))
