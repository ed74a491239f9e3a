"""What is ruled out at a glance is ruled out rightly, and the sums behind it are right."""

from collections.abc import Callable
from functools import cache
from random import Random

import pytest

from benchmarks.planning import by_chance, few, written
from benchmarks.sweep import made as swept
from engine.model.kinds import Counts
from engine.model.matrix import Matrix
from engine.model.table import table
from engine.planner.bound import Bound, Glance
from engine.planner.dues import Paying, dues
from engine.planner.entropy import Entropy
from engine.planner.huffman import binary, huffman
from engine.planner.moves import Moves
from engine.planner.numbers import Numbers, numbers
from engine.planner.planning import plan
from engine.planner.problem import Problem, problem
from engine.planner.sums import PairSums

SIZE = 12


def drawn(seed: int, *, flat: bool) -> Problem:
    """A small matrix of plain tests, with few different weights."""
    chance = Random(seed)
    masks = few(SIZE, chance, 1, 3) if seed % 2 else by_chance(SIZE, chance, 0.4)
    weights = [chance.choice((1, 1, 1, 2, 5)) for _ in range(SIZE)]
    return problem(written(weights, masks, [3 if flat else chance.randint(1, 4) for _ in range(SIZE)]))


def counted(of: Problem) -> Numbers:
    """The bound by numbers, which so small a matrix always has."""
    found = numbers(of)
    assert found
    return found


def paying(of: Problem) -> Paying:
    """Tests by what pairs owe."""
    owed = dues(of, 50)
    assert owed
    return Paying(of, owed, PairSums(len(of.weights), owed.due))


def entropy(of: Problem) -> Entropy:
    """Tests by what weights have to say."""
    return Entropy(of.weights, [test.parts[0] for test in of.tests], of.tests[0].cost)


GLANCES: dict[str, tuple[Callable[[Problem], Glance], bool]] = {
    "entropy": (entropy, True),
    "numbers": (counted, True),
    "numbers, prices apart": (counted, False),
    "pairs": (paying, True),
    "pairs, prices apart": (paying, False),
}


@pytest.mark.parametrize(("glance", "flat"), GLANCES.values(), ids=GLANCES)
@pytest.mark.parametrize("seed", range(20))
def test_no_move_that_may_be_cheap_is_ruled_out(
    seed: int, glance: Callable[[Problem], Glance], *, flat: bool
) -> None:
    """Of fifty sets every split whose exact price lies below a ceiling is told, at its price and once."""
    of, chance = drawn(seed, flat=flat), Random(seed)
    told, moves, least = glance(of), Moves(of, Bound(of)), exact(of)
    for _ in range(50):
        groups = chance.randrange(1, of.everything)
        prices = {frozenset(move.states): move.price for move in moves(groups)}
        after = {states: price + sum(map(least, states)) for states, price in prices.items()}
        ceiling = chance.choice([*after.values(), 1]) + chance.choice((0, 1, 3))
        splits = [*told.splits(groups, ceiling, least)]
        found = {_open(first, second): price for price, first, second in splits}
        assert len(found) == len(splits)
        assert found.items() <= prices.items()
        assert {states for states, price in after.items() if price < ceiling} <= found.keys()


def _open(*sides: int) -> frozenset[int]:
    """The sides that still have to be parted."""
    return frozenset(side for side in sides if side & (side - 1))


def exact(of: Problem) -> Callable[[int], int]:
    """The least price of a set, by trying every test."""
    weight, halves = Bound(of).weight, [(test.cost, test.parts) for test in of.tests if len(test.parts) > 1]

    @cache
    def least(groups: int) -> int:
        if not groups & (groups - 1):
            return 0
        return min(
            cost * weight(groups) + sum(least(groups & part) for part in parts)
            for cost, parts in halves
            if all(groups & part for part in parts)
        )

    return least


def test_a_glance_rules_out_most() -> None:
    """Of sixty faults, half of which fail each test, the entropy leaves less than a third of the moves."""
    chance = Random(7)
    weights = [chance.randint(1, 1000) for _ in range(60)]
    of = problem(written(weights, by_chance(60, chance, 0.5), [1] * 60))
    bound, groups = Bound(of), (1 << 20) - 1
    moves = Moves(of, bound)(groups)
    ceiling = min(move.price + sum(map(bound, move.states)) for move in moves) + 1
    assert 1 <= len([*entropy(of).splits(groups, ceiling, bound)]) < len(moves) / 3


@pytest.mark.parametrize("seed", range(30))
def test_numbers_are_those_of_the_kinds(seed: int) -> None:
    """The planner's sums side by side come to what the checker's model says of the same kinds."""
    chance = Random(seed)
    weights, prices = ([chance.choice((1, 1, 1, 2)) for _ in range(14)] for _ in range(2))
    of = written(weights, few(14, chance, 1, 3), prices)
    found, whole = counted(problem(of)), table(of)
    seen = whole.kinds(found.labels, whole.weights)

    @cache
    def least(left: Counts) -> int:
        return min((paid + sum(map(least, after)) for paid, after in seen.next(left)), default=0)

    for groups in (chance.randrange(1, whole.start[0] + 1) for _ in range(40)):
        assert found(groups) == least(seen.told(groups))


@pytest.mark.parametrize("seed", range(20))
def test_a_sorted_list_says_what_a_heap_says(seed: int) -> None:
    """Huffman's sum of up to a dozen weights, many of them equal, against the queue of the textbooks."""
    chance = Random(seed)
    for size in range(13):
        weights = [chance.choice((1, 2, 3, 50, chance.randint(1, 99))) for _ in range(size)]
        heap, total = sorted(weights), 0
        while len(heap) > 1:
            total += heap[0] + heap[1]
            heap = sorted([heap[0] + heap[1], *heap[2:]])
        assert binary([*weights]) == huffman(weights) == total


def ring(size: int = 30) -> Matrix:
    """A ring of faults, each of which fails the test before it and the test after it; all weigh the same."""
    return written([1] * size, [1 << k | 1 << (k + 1) % size for k in range(size)], [1] * size)


def test_tests_without_a_fault_in_common_are_counted() -> None:
    """By hand, of a ring of thirty: 30, 28 and on to 4 for fourteen pairs, 2 for each, 2 at the end."""
    breaths = iter(range(20))  # of 64 states each: by pairs alone it would take millions
    found = plan(ring(), stop=lambda: next(breaths, None) is None)
    assert found.proven
    assert found.expected * 30 == sum(range(4, 31, 2)) + 2 * 14 + 2
    assert len(found.certificate().claims) == 1


def test_what_no_test_knows_is_found_when_nothing_else_is_left() -> None:
    """By hand, of two that weigh 3, one of them known to no test, and four of 1: 10, then 7, 6, 5 and 4."""
    of = problem(written([3, 3, 1, 1, 1, 1], [1 << k for k in range(1, 6)], [1] * 5))
    assert counted(of)(of.everything) == 10 + 7 + 6 + 5 + 4


def test_what_only_dear_tests_know_is_not_found_by_cheap_ones() -> None:
    """By hand, of a star whose rays cost 1, 1, 3, 3 and 3: 6 and 2 for the first, then 4, and 9 and 6."""
    of = problem(written([1] * 6, [1 | 1 << k for k in range(1, 6)], [1, 1, 3, 3, 3]))
    assert counted(of)(of.everything) == 6 + 2 + 4 + 9 + 6


def test_of_cheap_tests_that_share_a_fault_one_is_a_pair() -> None:
    """By hand, of six in a ring, half of it cheap: 12 and 8 for two cheap pairs, 4 for each, 6 at the end."""
    of = problem(written([1] * 6, [1 << k | 1 << (k + 1) % 6 for k in range(6)], [2, 2, 2, 3, 3, 3]))
    assert counted(of)(of.everything) == exact(of)(of.everything) == 12 + 8 + 2 * 4 + 6


def test_hubs_are_those_of_the_cheapest_tests() -> None:
    """By hand, of three cheap tests that share a fault: 12 and 4 for two, 8 and 6 for one each, then 6."""
    masks = [0b11, 0b101, 0b1001, 0b110, 0b11000, 0b110000]
    of = problem(written([1] * 6, masks, [2, 2, 2, 3, 3, 3]))
    assert counted(of)(of.everything) == exact(of)(of.everything) == 12 + 4 + 8 + 6 + 6


@pytest.mark.parametrize("prices", [(2, 3), (4, 5), (1, 10)], ids=str)
def test_a_ring_of_two_prices_is_proven(prices: tuple[int, int]) -> None:
    """Thirty faults, each of which fails two tests; hubs of all tests alike would take millions of states."""
    chance, breaths = Random(7), iter(range(300))
    masks = [1 << k | 1 << (k + 1) % 30 for k in range(30)]
    found = plan(
        written([1] * 30, masks, [chance.choice(prices) for _ in range(30)]),
        stop=lambda: next(breaths, None) is None,
    )
    assert found.proven


def test_a_better_plan_is_looked_for_before_a_long_try() -> None:
    """Where all is equal, most states lie between the quick plan and the best; a careful one spares them."""
    breaths = iter(range(100))  # of 64 states; from the quick plan on, it takes 269
    found = plan(swept("two faults a test", "equal", "equal", 8), stop=lambda: next(breaths, None) is None)
    assert found.proven


def test_of_many_weights_no_numbers_are_counted() -> None:
    """Thirty weights make thirty kinds, and as many states as there are sets."""
    assert numbers(problem(written(range(1, 31), few(30, Random(1), 1, 3), [1] * 30))) is None
