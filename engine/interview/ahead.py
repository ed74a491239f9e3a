"""What lies ahead of a walk under each suspect: minutes to a verdict, and the tests that are still open.

Ways out of the tree's steps are taken by their `fits`. A procedure knows no suspects: inside it each way is
taken equally often, save what could not be done or told, and it is left by each outcome that can still be
met equally often, unless the step that runs it says otherwise in `fits`.
"""

from collections.abc import Iterator, Mapping, Sequence
from typing import NamedTuple

from engine.belief.advice import Open
from engine.belief.evidence import Table, left, table
from engine.graph.onward import Onward
from engine.interview.evolve import asked
from engine.interview.state import State
from engine.model.tree import Ask, Document, Measure, Run, Step, Verdict


class _Met(NamedTuple):
    """How likely a place is to be met, its mean minutes times that, and the fewest minutes to it."""

    chance: float
    mass: float
    fewest: float

    def either(self, other: "_Met | None") -> "_Met":
        if other is None:
            return self
        fewest = min(self.fewest, other.fewest)
        return _Met(self.chance + other.chance, self.mass + other.mass, fewest)

    def then(self, share: float, mean: float, fewest: float) -> "_Met":
        mass = share * (self.mass + self.chance * mean)
        return _Met(self.chance * share, mass, self.fewest + fewest)

    @property
    def mean(self) -> float:
        return self.mass / self.chance


_Ends = Mapping[str, _Met]
#: Minutes, one for each suspect.
_Each = Sequence[float]


class Ahead:
    """One walk at the place where it stands, before a verdict was accepted."""

    def __init__(self, state: State) -> None:
        self._state = state
        self._suspects = state.belief.suspects
        self._procedures = state.library.procedures
        self._onward = Onward(self._procedures, state.sheet.facts)
        self._through: dict[str, _Ends] = {}
        #: The step of the tree that the walk is inside of, if any, and the outcomes that can still be met.
        self._inside, self._ends = self._out()

    def minutes(self) -> tuple[float, ...]:
        """Expected minutes to a verdict under each suspect, in the order of the belief."""
        first = self._state.frames[0].step
        starts = [first] if not self._inside else [self._inside.outcomes[end] for end in self._ends]
        known: dict[str, _Each] = {}
        for name in reversed(self._onward.order(self._state.tree, starts)):
            known[name] = self._from(self._state.tree.steps[name], known)
        if not self._inside:
            return tuple(known[first])
        return tuple(self._beyond(self._inside, self._ends, known))

    def tests(self) -> Iterator[Open]:
        """Every step of the tree that can still be come to and tells something, in the tree's order."""
        tree, inside = self._state.tree, self._inside
        fewest = {self._state.frames[0].step: 0.0}
        if inside:
            fewest = {}
            for end, met in self._ends.items():
                _least(fewest, inside.outcomes[end], met.fewest)
            if inside.fits:
                quickest = min(met.fewest for met in self._ends.values())
                yield Open(self._title(inside), quickest, self._table(inside, self._ends))
        for name in self._onward.order(tree, list(fewest)):
            step, here = tree.steps[name], fewest[name] + float(tree.steps[name].minutes)
            ends = self._run(step) if isinstance(step, Run) else {}
            quickest = min((met.fewest for met in ends.values()), default=0.0)
            if told := self._table(step, ends):
                yield Open(self._title(step), here + quickest, told)
            for way in self._onward.exits(step):
                _least(fewest, way.then, here + quickest)

    # -- the tree's own steps

    def _from(self, step: Step, known: Mapping[str, _Each]) -> _Each:
        own = float(step.minutes)
        if isinstance(step, Verdict):
            return [own] * len(self._suspects)
        if isinstance(step, Run):
            return [own + after for after in self._beyond(step, self._run(step), known)]
        ways = [known[way.then] for way in self._onward.exits(step) if not way.aside]
        rows = table(step, self._suspects) or [[1 / len(ways)] * len(self._suspects)] * len(ways)
        return [own + total for total in _mixed(rows, ways)]

    def _beyond(self, run: Run, ends: _Ends, known: Mapping[str, _Each]) -> _Each:
        """Minutes inside what is run, from where `ends` was counted, and on to a verdict."""
        ways = [[met.mean + after for after in known[run.outcomes[end]]] for end, met in ends.items()]
        even = [[1 / len(ends)] * len(self._suspects)] * len(ends)
        return _mixed(self._table(run, ends) or even, ways)

    def _table(self, step: Step, ends: _Ends) -> Table:
        if isinstance(step, Run):
            return tuple(left(step, self._suspects, end, ends) for end in ends) if step.fits else ()
        return table(step, self._suspects) if isinstance(step, Ask | Measure) else ()

    def _title(self, step: Step) -> str:
        return self._procedures[step.procedure].title if isinstance(step, Run) else asked(step)

    # -- procedures

    def _run(self, run: Run) -> _Ends:
        if run.procedure not in self._through:
            procedure = self._procedures[run.procedure]
            self._through[run.procedure] = self._passed(procedure, {procedure.start: _Met(1.0, 0.0, 0.0)})
        return self._through[run.procedure]

    def _out(self) -> tuple[Run | None, _Ends]:
        """From the open step out of every procedure, to the outcomes of that which the tree runs."""
        frames = self._state.frames
        met: dict[str, _Met] = {frames[-1].step: _Met(1.0, 0.0, 0.0)}
        for frame, outer in zip(frames[:0:-1], frames[-2::-1], strict=True):
            ends = self._passed(self._procedures[frame.procedure], met)
            document = self._procedures[outer.procedure] if outer.procedure else self._state.tree
            run = document.steps[outer.step]
            assert isinstance(run, Run)
            if not outer.procedure:
                return run, ends
            met = {}
            for end, one in ends.items():
                met[run.outcomes[end]] = one.either(met.get(run.outcomes[end]))
        return None, {}

    def _passed(self, document: Document, met: Mapping[str, _Met]) -> _Ends:
        """How each outcome is met from these places."""
        to = dict(met)
        for name in self._onward.order(document, list(met)):
            here, step = to.pop(name, None), document.steps[name]
            if here is None:
                continue  # only what could not be done or told leads here
            own = float(step.minutes)
            ways = [*self._ways(step)]
            for then, mean, fewest in ways:
                to[then] = here.then(1 / len(ways), own + mean, own + fewest).either(to.get(then))
        return to

    def _ways(self, step: Step) -> Iterator[tuple[str, float, float]]:
        """Each way on inside a procedure, with the minutes through what the step runs."""
        if isinstance(step, Run):
            yield from ((step.outcomes[end], met.mean, met.fewest) for end, met in self._run(step).items())
        else:
            yield from ((way.then, 0.0, 0.0) for way in self._onward.exits(step) if not way.aside)


def _mixed(rows: Sequence[Sequence[float]], ways: Sequence[_Each]) -> _Each:
    """The minutes of the ways, each as often as its row says under each suspect."""
    columns = zip(zip(*rows, strict=True), zip(*ways, strict=True), strict=True)
    return [sum(share * took for share, took in zip(*column, strict=True)) for column in columns]


def _least(fewest: dict[str, float], name: str, minutes: float) -> None:
    fewest[name] = min(fewest.get(name, minutes), minutes)
