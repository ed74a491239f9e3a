"""What brings the vehicle into the states that a test needs, what that costs, and what undoing it costs."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from collections.abc import Set as AbstractSet
from fractions import Fraction
from typing import NamedTuple

from engine.graph.onward import Onward
from engine.model.matrix import Setup
from engine.model.place import Place
from engine.model.shop import State
from engine.model.tree import Do, Procedure, Run, Step


class Asks(NamedTuple):
    """The ways that must have been gone before a test, and those that are lost by it."""

    needs: tuple[str, ...]
    drops: tuple[str, ...]


class _Way(NamedTuple):
    """Something done that sets states, or clears some."""

    name: str
    title: str
    minutes: Fraction
    needs: frozenset[str]
    forbids: frozenset[str]
    sets: frozenset[str]
    clears: frozenset[str]
    place: Place


class Ways:
    """Of all that is done in a tree, the cheapest way into each state and out of it."""

    def __init__(
        self,
        steps: Sequence[Step],
        procedures: Mapping[str, Procedure],
        onward: Onward,
        states: Mapping[str, State],
    ) -> None:
        self._procedures, self._onward, self._states = procedures, onward, states
        done = sorted(
            (self._way(step) for step in steps if isinstance(step, Do | Run)), key=lambda way: way.minutes
        )
        self._into = _into(done)
        self._out = {state: way for way in reversed(done) for state in way.clears}

    def title(self, procedure: str) -> str:
        """What a procedure is called."""
        return self._procedures[procedure].title

    def minutes(self, step: Step) -> Fraction:
        """The minutes of a step; of a procedure, of the walk through it by the first way out everywhere."""
        return sum((each.minutes for each in self._course(step)), Fraction(0))

    def asks(self, step: Step) -> Asks:
        """What a test asks of the vehicle."""
        own = self._way(step)
        needs = self.before(own.needs - own.sets)
        forbidden = (own.forbids | own.clears) - own.sets
        lost = {way.name for way in self._into.values() if way.sets & forbidden}
        drops = lost | {way.name for way in self._into.values() if self.before(way.needs) & lost}
        return Asks(tuple(sorted(needs)), tuple(sorted(drops - needs)))

    def setups(self, tests: Iterable[Step]) -> tuple[Setup, ...]:
        """The ways that some test needs."""
        return self.priced({name for test in tests for name in self.asks(test).needs})

    def priced(self, names: AbstractSet[str]) -> tuple[Setup, ...]:
        """These ways with their minutes, what undoes them among them."""
        ways = {way.name: way for way in self._into.values() if way.name in names}
        return tuple(
            Setup(name, ways[name].title, ways[name].minutes + self._undone(ways[name]), ways[name].place)
            for name in sorted(ways)
        )

    def before(self, states: AbstractSet[str], standing: AbstractSet[str] = frozenset()) -> frozenset[str]:
        """The ways into these states from those that stand, with the ways that those need themselves."""
        found: set[str] = set()
        waiting = [self._into[state] for state in states - standing if state in self._into]
        while waiting:
            way = waiting.pop()
            if way.name not in found:
                found.add(way.name)
                open_ = way.needs - way.sets - standing
                waiting += [self._into[state] for state in open_ if state in self._into]
        return frozenset(found)

    def _undone(self, way: _Way) -> Fraction:
        """The minutes to clear what must not last; whatever clears several is counted once."""
        lasting = [state for state in way.sets if self._states[state].must_clear and state in self._out]
        out = {self._out[state].name: self._out[state] for state in lasting}
        return sum((other.minutes for other in out.values() if other.name != way.name), Fraction(0))

    def _way(self, step: Step) -> _Way:
        """A step as a way; of a procedure all that its steps ask for and do not bring about themselves."""
        sets, clears, needs, forbids = set[str](), set[str](), set[str](), set[str]()
        for each in self._course(step):
            needs |= set(each.needs) - sets
            forbids |= set(each.forbids) - clears
            sets = (sets - set(each.clears)) | set(each.sets)
            clears = (clears - set(each.sets)) | set(each.clears)
        run = isinstance(step, Run)
        name = step.procedure if isinstance(step, Run) else step.name
        title = self.title(name) if run else str(getattr(step, "text", ""))
        asked = frozenset(needs), frozenset(forbids), frozenset(sets), frozenset(clears)
        return _Way(name, title, self.minutes(step), *asked, step.place)

    def _course(self, step: Step) -> Iterator[Step]:
        """The step, and what it runs, by the first way out everywhere."""
        yield step
        if isinstance(step, Run):
            inside = self._procedures[step.procedure]
            name = inside.start
            while name in inside.steps:
                yield from self._course(inside.steps[name])
                ways = (way.then for way in self._onward.exits(inside.steps[name]) if not way.aside)
                name = next(ways, "")


def _into(ways: Sequence[_Way]) -> dict[str, _Way]:
    """The cheapest way into each state, counted with all that has to be done before it.

    >>> def way(name: str, minutes: int, needs: str, sets: str) -> _Way:
    ...     asked = frozenset(needs), frozenset(""), frozenset(sets), frozenset("")
    ...     return _Way(name, name, Fraction(minutes), *asked, Place("tree.yaml", 1, 1))
    >>> done = way("lower", 3, "r", "c"), way("chock", 5, "", "c"), way("raise", 9, "c", "r")
    >>> sorted((state, one.name) for state, one in _into(done).items())  # lowered: 17, raising first
    [('c', 'chock'), ('r', 'raise')]
    """
    somehow = {state for way in ways for state in way.sets}
    found, price = dict[str, _Way](), dict[str, Fraction]()
    better = True
    while better:
        better = False
        for way in ways:
            before = (way.needs - way.sets) & somehow
            if before <= price.keys():
                total = sum((price[state] for state in before), way.minutes)
                for state in way.sets:
                    if state not in price or total < price[state]:
                        found[state], price[state], better = way, total, True
    return found
