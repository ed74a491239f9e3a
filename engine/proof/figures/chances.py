"""How likely each end of a tree is where one suspect is to blame, and the mean minutes to it, exactly.

The ways out of a step are taken by their `shares`; a sort goes by the sheet, a step to do is done. A
procedure is left by each of its outcomes equally often, save those that only `unsure` leads to, which never
happen here; the minutes to an outcome are the mean over the walks inside that come to it. Where a procedure
(or one that it runs) says in `fits` how often something is met under this suspect, its outcomes are as likely
as the walks inside make them; where the step that runs it says so, they are as likely as that.

A chance is kept as a whole number over a power of one base, the least common multiple of all shares of the
document; minutes alike, in one unit. So nothing need be reduced on the way, which for the chances of a long
tree (they have thousands of digits) would take far longer than the sums themselves.
"""

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from fractions import Fraction
from math import lcm
from typing import NamedTuple

from engine.belief.shares import rows, shares
from engine.graph.nesting import innermost_first
from engine.graph.onward import Onward
from engine.model.tree import Document, Procedure, Run, Step, Tree, Verdict


class Way(NamedTuple):
    """A way out of a step: its share, and the mean minutes inside whatever the step runs."""

    then: str
    share: Fraction
    minutes: Fraction


class Chance(NamedTuple):
    """How likely an end is, and the mean minutes of the walks that come to it."""

    share: Fraction
    minutes: Fraction


class Outlook(NamedTuple):
    """A tree under one suspect."""

    #: The verdicts that it may end at.
    ends: frozenset[str]
    #: Expected minutes to a verdict.
    minutes: Fraction


class _Reach(NamedTuple):
    """Chance and chance times minutes, both over the same power of the base."""

    chance: int
    mass: int
    power: int

    def either(self, other: "_Reach", base: int) -> "_Reach":
        power = max(self.power, other.power)
        mine, theirs = base ** (power - self.power), base ** (power - other.power)
        chance = self.chance * mine + other.chance * theirs
        return _Reach(chance, self.mass * mine + other.mass * theirs, power)


_Ends = Mapping[str, Chance]
_WaysOf = Callable[[Step, str], Iterable[Way]]


class Chances:
    """A tree, and what it runs, as one vehicle meets it. All must be there and free of loops."""

    def __init__(self, tree: Tree, procedures: Mapping[str, Procedure], onward: Onward) -> None:
        self._tree = tree
        self._onward = onward
        self._inner = innermost_first((tree,), procedures)
        self._orders = {p.name: onward.order(p) for p in self._inner}
        self._order = onward.order(tree)
        self._named = _named(self._inner)
        self._known: dict[tuple[str, str], _Ends] = {}

    def outlook(self, suspect: str) -> Outlook:
        """What happens where this suspect is to blame."""
        for procedure in self._inner:
            if self._key(procedure.name, suspect) not in self._known:
                self._settle(procedure, suspect)
        course = _course(self._tree, self._order, self._ways, suspect)
        total = _Reach(0, 0, 0)
        for reach in course.ends.values():
            total = total.either(reach, course.base)
        return Outlook(frozenset(course.ends), Fraction(total.mass, course.unit * course.base**total.power))

    def _key(self, procedure: str, suspect: str) -> tuple[str, str]:
        """Suspects that a procedure says nothing of are all alike to it."""
        return procedure, suspect if suspect in self._named[procedure] else ""

    def _settle(self, procedure: Procedure, suspect: str) -> None:
        course = _course(procedure, self._orders[procedure.name], self._ways, suspect)
        walked = suspect in self._named[procedure.name]
        even = Fraction(1, len(course.ends) or 1)
        self._known[self._key(procedure.name, suspect)] = {
            end: Chance(
                Fraction(reach.chance, course.base**reach.power) if walked else even,
                Fraction(reach.mass, reach.chance * course.unit),
            )
            for end, reach in course.ends.items()
        }

    def _ways(self, step: Step, suspect: str) -> Iterator[Way]:
        """The ways out of a step that are ever taken under this suspect; a verdict ends at itself."""
        none, whole = Fraction(0), Fraction(1)
        if isinstance(step, Verdict):
            yield Way(step.name, whole, none)
        elif isinstance(step, Run):
            yield from self._outcomes(step, suspect)
        else:
            fits = rows(step)
            split = shares(fits, suspect) if fits else (whole,)
            ways = (way.then for way in self._onward.exits(step) if not way.aside)
            yield from (Way(then, share, none) for then, share in zip(ways, split, strict=True) if share)

    def _outcomes(self, step: Run, suspect: str) -> Iterator[Way]:
        ends = self._known[self._key(step.procedure, suspect)]
        split = [share for share, _ in ends.values()]
        said = [step.fits.get(end, {}) for end in ends]
        if any(suspect in row for row in step.fits.values()):
            split = list(shares(said, suspect)) if said else []
        for (end, (_, minutes)), share in zip(ends.items(), split, strict=True):
            if share:
                yield Way(step.outcomes[end], share, minutes)


class _Course(NamedTuple):
    """What one pass over a document finds: the reach of each end, over the base and in the unit."""

    ends: Mapping[str, _Reach]
    base: int
    #: So many units make one minute.
    unit: int


def _course(document: Document, names: Sequence[str], ways_of: _WaysOf, suspect: str) -> _Course:
    ways = {name: tuple(ways_of(document.steps[name], suspect)) for name in names}
    base = lcm(*(way.share.denominator for out in ways.values() for way in out))
    unit = lcm(
        *(document.steps[name].minutes.denominator for name in names),
        *(way.minutes.denominator for out in ways.values() for way in out),
    )
    met = {document.start: _Reach(1, 0, 0)}
    ends: dict[str, _Reach] = {}
    for name in names:
        here, step = met.pop(name, None), document.steps[name]
        into = ends if isinstance(step, Verdict) else met
        for way in ways[name] if here else ():
            assert here is not None
            reach = _after(here, way, int((step.minutes + way.minutes) * unit), base)
            into[way.then] = into[way.then].either(reach, base) if way.then in into else reach
    return _Course({**met, **ends}, base, unit)


def _after(here: _Reach, way: Way, units: int, base: int) -> _Reach:
    mass = here.mass + here.chance * units
    if way.share == 1:
        return _Reach(here.chance, mass, here.power)
    part = way.share.numerator * (base // way.share.denominator)
    return _Reach(here.chance * part, mass * part, here.power + 1)


def _named(inner: Sequence[Procedure]) -> Mapping[str, frozenset[str]]:
    """For each procedure the suspects that it, or one that it runs, says something of."""
    named: dict[str, frozenset[str]] = {}
    for procedure in inner:
        steps = procedure.steps.values()
        own = (frozenset(row) for step in steps for row in rows(step))
        run = (named[step.procedure] for step in steps if isinstance(step, Run))
        named[procedure.name] = frozenset().union(*own, *run)
    return named
