"""What a stranger needs to confirm a lower bound without searching: a claim for each state of the proof.

A claim says that a state costs at least so much. It holds if every test that can be done next, with the
claims (or floors) of the states behind it, comes to at least as much. Where a floor counts what pairs owe,
the dues and who pays them belong to the proof; where it counts numbers of groups, the kinds of these do. The
checker (`engine/proof/plan/reliable.py`) goes through all of it; it need not know how it was found. Claims
that none needs are left out.
"""

from collections.abc import Callable
from typing import NamedTuple

from engine.model.moment import done
from engine.planner.bound import Bound
from engine.planner.dues import Dues
from engine.planner.problem import members
from engine.planner.search import Search


class Claim(NamedTuple):
    """A state and its least price.

    Groups still suspected are bits in the order of the matrix. The marks are set-ups that stand, and tests
    done that another waits for. The price is in whole parts of a minute, times whole parts of a weight where
    the goal is the mean.
    """

    suspects: int
    marks: tuple[str, ...]
    least: int


class Certificate(NamedTuple):
    """All claims that the bound of the start rests on, the start first, and the dues that they rest on.

    Where tests may err there are none of them.
    """

    claims: tuple[Claim, ...]
    dues: Dues | None
    #: The names of the tests, in the order of the shares of the dues.
    tests: tuple[str, ...] = ()
    #: The kind of each group, where numbers of them are looked at.
    kinds: tuple[int, ...] = ()


def certificate(search: Search) -> Certificate:
    """The proof that a search has found so far."""
    tests = search.problem.tests
    nothing = Dues(1, (1,) * len(search.problem.weights), {}, ({},) * len(tests))
    claims = (_claim(search, state, least) for state, least in _needed(search).items())
    numbers = search.bound.numbers
    return Certificate(
        tuple(claims),
        search.bound.dues or nothing,
        tuple(test.name for test in tests),
        numbers.labels if numbers else (),
    )


def _needed(search: Search) -> dict[int, int]:
    """The states whose claims are needed: the start, and where the floor of the groups says less.

    What was proven by dues that have been sharpened since may not follow from those that are told; it is
    proven once more.
    """
    while search.unsaid:
        search.unsaid.pop()()
    start, least, soon, floor = search.problem.everything, search.least, search.paired, _floor(search)
    waiting, claimed = [start], dict[int, int]()
    while waiting:
        state = waiting.pop()
        low = least(state)
        if claimed.get(state, -1) >= low or (low <= floor(state) and state != start):
            continue
        claimed[state] = low
        for move in search.moves(state):
            # what takes longer to say is asked only where the rest does not decide
            if all(move.price + search.together(map(said, move.states)) < low for said in (soon, floor)):
                if move.price + search.together(map(least, move.states)) < low:
                    search.again(move, low)
                waiting += [after for after in move.states if claimed.get(after, -1) < least(after)]
    return claimed


def _floor(search: Search) -> Callable[[int], int]:
    """What the checker knows of a state that nothing is claimed of."""
    problem, dues = search.problem, search.bound.dues
    if search.goal == "expected" or dues is None:
        return search.plain
    # on the longest way it weighs groups as the dues do, in its layers too; the search does not
    weighed = Bound(problem._replace(weights=dues.weights))

    def floor(state: int) -> int:
        groups = state & problem.everything
        return max(search.paired(state), -(-weighed(groups) // max(1, weighed.weight(groups))))

    return floor


def _claim(search: Search, state: int, least: int) -> Claim:
    """The claim of a state."""
    problem = search.problem
    above, setups = state >> len(problem.weights), len(problem.setups)
    standing = (problem.setups[k][0] for k in members(above & ((1 << setups) - 1)))
    waited = (done(test.name) for test in problem.tests if test.mark & above >> setups)
    return Claim(state & problem.everything, (*standing, *waited), least)
