"""A tree read back as a matrix: its own questions, minutes, states and fits, for one vehicle.

A sign counts as certain that a suspect shows at least as often, by `fits`, as the tree wants a verdict to
be sure (`condemn`); so the tests are reliable and an order of them has one price. A weaker sign tells
nothing apart. A procedure that sets states of the vehicle is a set-up, with the minutes to undo those that
must not last; a test needs what sets its `needs`, and loses what sets its `forbids`. The order that safety
or care asks for stands in no fit, so it is not in the matrix: what the planner finds is a question to the
trainer, not an order.
"""

from collections.abc import Iterable, Iterator, Mapping
from fractions import Fraction
from typing import NamedTuple

from engine.belief.shares import rows, shares
from engine.graph.onward import Onward
from engine.model.matrix import Fault, Matrix, Trial, TrialOutcome
from engine.model.shop import State
from engine.model.tree import Ask, Document, Measure, Procedure, Run, Step, Tree, Verdict
from engine.planner.ways import Ways

_NONE = Fraction(0)


class Read(NamedTuple):
    """The matrix, and how the tree itself goes: by suspect the tests in their order, and the verdict."""

    matrix: Matrix
    courses: Mapping[str, tuple[str, ...]]
    verdicts: Mapping[str, str]

    def minutes(self, suspect: str) -> Fraction:
        """What the tree's own order costs under a suspect, set-ups paid as a plan pays them."""
        trials = {trial.id: trial for trial in self.matrix.tests}
        prices = {setup.id: setup.minutes for setup in self.matrix.setups}
        standing, paid = frozenset[str](), _NONE
        for name in self.courses[suspect]:
            needs = frozenset(trials[name].needs)
            paid += trials[name].minutes + sum((prices[way] for way in needs - standing), _NONE)
            standing = (standing | needs) - frozenset(trials[name].drops)
        return paid

    @property
    def expected(self) -> Fraction:
        """The mean over the suspects by their weights."""
        total = sum((fault.weight for fault in self.matrix.faults), _NONE)
        return sum((fault.weight * self.minutes(fault.id) for fault in self.matrix.faults), _NONE) / total

    @property
    def worst(self) -> Fraction:
        """The longest of them."""
        return max(self.minutes(fault.id) for fault in self.matrix.faults)


def read(
    tree: Tree,
    procedures: Mapping[str, Procedure],
    facts: Mapping[str, str],
    states: Mapping[str, State],
    suspects: Iterable[str],
) -> Read:
    """Read a sound tree on one vehicle, for the suspects that it can convict there."""
    onward = Onward(procedures, facts)
    named = {name: tree.suspects[name].weight for name in suspects}
    steps = [tree.steps[name] for name in onward.order(tree)]
    ways = Ways(steps, procedures, onward, states)
    tests = [step for step in steps if any(rows(step))]
    setups = ways.setups(tests)
    known = frozenset(setup.id for setup in setups)
    matrix = Matrix(
        tree.name,
        tree.title,
        tree.place,
        tuple(_fault(tree, name) for name in named),
        tuple(_trial(step, _behind(step, named, tree.condemn), ways, known) for step in tests),
        setups,
    )
    walks = {name: tuple(_walk(tree, onward, name)) for name in named}
    told = {step.name for step in tests}
    return Read(
        matrix,
        {name: tuple(step.name for step in walk if step.name in told) for name, walk in walks.items()},
        {name: walk[-1].name for name, walk in walks.items()},
    )


def _fault(tree: Tree, name: str) -> Fault:
    suspect = tree.suspects[name]
    return Fault(name, suspect.title, suspect.weight, suspect.repair, suspect.place)


def _trial(step: Step, behind: Mapping[str, int], ways: Ways, setups: frozenset[str]) -> Trial:
    """A step as a test; what it would lose that no test needs, such as a way back, is no set-up to lose."""
    outcomes = (
        TrialOutcome(name, {suspect: Fraction(1) for suspect, k in behind.items() if k == number})
        for number, name in enumerate(_names(step))
    )
    asks = ways.asks(step)
    drops = tuple(name for name in asks.drops if name in setups)
    minutes, found = ways.minutes(step), tuple(outcomes)
    return Trial(step.name, _text(step, ways), minutes, found, asks.needs, drops, (), step.place)


def _behind(step: Step, suspects: Mapping[str, Fraction], least: Fraction) -> dict[str, int]:
    """Which answer each suspect leads to; one of which nothing sure is said goes with most others."""
    said = rows(step)
    spoken = {s: max(range(len(said)), key=lambda k: (said[k].get(s, -1), -k)) for s in suspects}
    clear = {s: k for s, k in spoken.items() if said[k].get(s, _NONE) >= least}
    weights = [
        sum((suspects[s] for s, k in clear.items() if k == number), _NONE) for number in range(len(said))
    ]
    common = weights.index(max(weights))
    return {suspect: clear.get(suspect, common) for suspect in suspects}


def _names(step: Step) -> list[str]:
    """The outcomes in words, each once."""
    match step:
        case Ask():
            said = [answer.say for answer in step.answers]
        case Measure():
            said = [band.say or f"band {k}" for k, band in enumerate(step.bands, 1)]
        case Run():
            said = [*step.outcomes]
        case _:
            said = []
    return [name if said.count(name) == 1 else f"{name} ({k})" for k, name in enumerate(said, 1)]


def _text(step: Step, ways: Ways) -> str:
    return ways.title(step.procedure) if isinstance(step, Run) else getattr(step, "text", "")


def _walk(tree: Document, onward: Onward, suspect: str) -> Iterator[Step]:
    """The steps to a verdict by what is met most often; where nothing is said, by the first way out."""
    step = tree.steps[tree.start]
    while not isinstance(step, Verdict):
        yield step
        ways = [way.then for way in onward.exits(step) if not way.aside]
        split = shares(rows(step), suspect) if any(rows(step)) else (Fraction(1),)
        step = tree.steps[ways[max(range(len(split)), key=lambda k: (split[k], -k))]]
    yield step
