"""What a stranger needs to confirm a lower bound without searching: a claim for each state of the proof.

A claim says that a state costs at least so much. It holds if the bound of its suspects says so, or if every
test that can be done next, with the claims (or bounds) of the states behind it, comes to at least as much.
Where the bound counts what pairs owe, the dues and who pays them belong to the proof. The checker
(`engine/proof/plan`) goes through all of it; it need not know how it was found. Claims that none needs are
left out.
"""

from collections.abc import Iterator
from typing import NamedTuple

from engine.planner.dues import Dues
from engine.planner.problem import members
from engine.planner.search import Search


class Claim(NamedTuple):
    """A state and its least price.

    Groups still suspected are bits in the order of the matrix; of the tests done only those are named that
    another waits for. The price is in whole parts of a minute, times whole parts of a weight where the goal
    is the mean.
    """

    suspects: int
    standing: tuple[str, ...]
    done: tuple[str, ...]
    least: int


class Certificate(NamedTuple):
    """All claims that the bound of the start rests on, the start first, and the dues that they rest on."""

    claims: tuple[Claim, ...]
    dues: Dues | None


def certificate(search: Search) -> Certificate:
    """The proof that a search has found so far."""
    return Certificate(tuple(_claim(search, state) for state in _needed(search)), search.bound.dues)


def _needed(search: Search) -> Iterator[int]:
    """The states whose claims are needed: where the plain bound says less than is known."""
    plain, start = search.plain, search.problem.everything
    floors = (search.paired, plain)
    waiting, met = [start], {start}
    while waiting:
        state = waiting.pop()
        least = search.least(state)
        if least <= plain(state):
            continue
        yield state
        for move in search.moves(state):
            # what takes longer to say is asked only where the rest does not decide
            if all(move.price + search.together(map(floor, move.states)) < least for floor in floors):
                new = [after for after in move.states if after not in met]
                met.update(new)
                waiting += new


def _claim(search: Search, state: int) -> Claim:
    """The claim of a state."""
    problem = search.problem
    above, setups = state >> len(problem.weights), len(problem.setups)
    return Claim(
        state & problem.everything,
        tuple(problem.setups[k][0] for k in members(above & ((1 << setups) - 1))),
        tuple(test.name for test in problem.tests if test.mark & above >> setups),
        search.least(state),
    )
