"""From a matrix to a plan with its proof; when it is stopped, the best so far and a bound that holds."""

from collections.abc import Callable
from fractions import Fraction
from functools import partial
from typing import Final, NamedTuple

from engine.model.matrix import Matrix
from engine.model.table import alike
from engine.planner.certificate import Certificate, certificate
from engine.planner.dues import MOST, dues, size
from engine.planner.near import Near
from engine.planner.numbers import numbers
from engine.planner.problem import problem
from engine.planner.search import Goal, Search, Stopped
from engine.planner.tree import Plan, expected, grown, worst
from engine.planner.unsure import Outlook

#: States solved before the dues of pairs are looked for: many a search ends sooner.
_GLANCE: Final = 150
#: The same where all tests have one price and part this share of all pairs: dues say little then.
_GLANCE_DENSE: Final = 2_000
_DENSE: Final = 0.36
#: States solved before a plan is made with more care.
_TRY: Final = 20_000
#: Numbers of groups are looked at where they say so much of the quick plan.
_NEARLY: Final = 0.85
#: The moves of the game for the dues, and the states solved with them before they are sharpened.
_ROUNDS: Final = ((120, 12_000), (800, _TRY))


class Progress(NamedTuple):
    """How far it is: minutes of the best plan, minutes that no plan undercuts, and states looked at."""

    best: Fraction
    bound: Fraction
    states: int


class Planned(NamedTuple):
    """A plan, what it costs, and how much of that is proven."""

    goal: Goal
    plan: Plan
    expected: Fraction
    worst: Fraction
    #: No plan has fewer minutes (expected or worst, as the goal says).
    bound: Fraction
    #: Faults that no test tells apart.
    groups: tuple[tuple[str, ...], ...]
    #: Writes the proof down, which may take as long as finding it.
    certificate: Callable[[], Certificate]
    #: How many tests were looked ahead, where tests are not to be relied on; then repairs are in the minutes.
    depth: int | None = None

    @property
    def proven(self) -> bool:
        """Whether no plan is better."""
        return self.bound == (self.worst if self.goal == "worst" else self.expected)


class UnpricedError(Exception):
    """Tests that may err are weighed against repairs, and these have no price."""


def plan(
    matrix: Matrix,
    goal: Goal = "expected",
    stop: Callable[[], bool] = lambda: False,
    told: Callable[[Progress], object] = lambda _: None,
) -> Planned:
    """The cheapest plan of a matrix, or the best until it was told to stop.

    :raises UnpricedError: where tests are not to be relied on, and the goal is `worst` or a repair has no
    minutes.
    """
    if not all(trial.reliable for trial in matrix.tests):
        return _ahead(matrix, goal, stop, told)
    search = Search(problem(matrix), goal, stop)
    near = Near(search, stop)
    _prove(search, near, told)
    tree = grown(search.problem, near)
    weights = {fault.id: fault.weight for fault in matrix.faults}
    return Planned(
        goal,
        tree,
        expected(tree, weights),
        worst(tree),
        _minutes(search, search.least(search.problem.everything)),
        tuple(group for group in search.problem.groups if len(group) > 1),
        partial(certificate, search),
    )


def _ahead(
    matrix: Matrix, goal: Goal, stop: Callable[[], bool], told: Callable[[Progress], object]
) -> Planned:
    """The same where tests are not to be relied on: looked ahead as deep as there is time for."""
    if goal == "worst" or any(fault.repair is None for fault in matrix.faults):
        raise UnpricedError("Where tests may err, expected minutes are wanted, and those of each repair.")
    outlook, whole = Outlook(matrix, stop), sum(fault.weight for fault in matrix.faults)
    found, depth = outlook.price(*outlook.start(), 0), 0
    try:
        while depth < len(matrix.tests) and not found.known:
            found, depth = outlook.price(*outlook.start(), depth + 1), depth + 1
            told(Progress(Fraction(found.high) / whole, Fraction(found.low) / whole, outlook.looked))
    except Stopped:
        pass
    tree = outlook.plan(*outlook.start(), depth)
    low = found.high if found.known else found.low
    return Planned(
        goal,
        tree,
        Fraction(found.high) / whole,
        worst(tree, {fault.id: fault.repair or Fraction(0) for fault in matrix.faults}),
        Fraction(low) / whole,
        tuple(group for group in alike(matrix) if len(group) > 1),
        lambda: Certificate((), None),
        depth,
    )


def _prove(search: Search, near: Near, told: Callable[[Progress], object]) -> None:
    """A quick plan and a glance; the main line in breadth; what pairs owe, a longer try, and more care."""
    start = search.problem.everything

    def tell(best: int) -> None:
        told(Progress(_minutes(search, best), _minutes(search, search.least(start)), search.solved))

    tell(near.quick(start))
    try:
        _count(search, near.quick(start))
        done = search.eager(near.quick(start), _glance(search))
        if not done and search.bound.numbers:
            done = _in_breadth(search, near.quick(start))
        if not done and not _owing(search, near, tell):
            best = near.careful(start)
            search.prove(best, lambda: tell(best))
    except Stopped:
        pass


def _count(search: Search, best: int) -> None:
    """Look at the numbers of groups where that says nearly enough."""
    start, plain = search.problem.everything, search.problem.plain and search.goal == "expected"
    found = numbers(search.problem) if plain else None
    if found and found(start) > max(_NEARLY * best, search.plain(start) - 1):
        search.bound.count(found)


def _glance(search: Search) -> int:
    """States that are solved without dues: more where these are not likely to help."""
    problem, flat = search.problem, bool(search.bound.flat)
    pairs = len(problem.tests) * len(problem.weights) * (len(problem.weights) - 1) / 2
    if size(problem) > MOST:
        return _TRY
    return _GLANCE_DENSE if flat and size(problem) > _DENSE * pairs else _GLANCE


def _owing(search: Search, near: Near, tell: Callable[[int], None]) -> bool:
    """Whether the search ends with what pairs owe, sharpened where it does not end soon."""
    start = search.problem.everything
    for moves, states in _ROUNDS:
        owed = dues(search.problem, moves, search.stop, free=search.goal == "worst")
        if not owed:
            return False
        search.bound.learn(owed)
        best = near.quick(start)
        tell(best)
        if search.eager(best, _GLANCE) or _in_breadth(search, best) or search.eager(best, states):
            return True
    return False


def _in_breadth(search: Search, best: int) -> bool:
    """Whether the search ends along the main line."""
    from engine.planner.line import proven

    return proven(search, best)


def _minutes(search: Search, price: int) -> Fraction:
    """A price of the search in minutes."""
    return Fraction(price, search.problem.scale) if search.goal == "worst" else search.problem.minutes(price)
