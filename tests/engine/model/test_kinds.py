"""Groups by kinds: what their numbers cost is never more than what they cost, whatever the kinds are."""

from collections.abc import Callable
from functools import cache
from random import Random

import pytest

from engine.model.kinds import Counts, Kinds, kinds
from engine.model.table import among, table
from tests.engine.planner.brute import cheapest
from tests.engine.planner.matrices import sample


def least(seen: Kinds) -> Callable[[Counts], int]:
    """What so many of each kind cost."""

    @cache
    def found(left: Counts) -> int:
        return min((paid + sum(map(found, after)) for paid, after in seen.next(left)), default=0)

    return found


@pytest.mark.parametrize("seed", range(200))
def test_numbers_never_cost_more_than_the_groups(seed: int) -> None:
    """Of a random matrix every set of groups, by kinds drawn at random, against the brute force."""
    of, chance = sample(seed), Random(seed)
    whole = table(of)
    labels = [chance.randrange(3) for _ in whole.groups][: chance.choice([1, 9, 9])]
    seen = whole.kinds(labels, whole.weights)
    found = least(seen)
    for groups in range(1, whole.start[0] + 1):
        faults = frozenset(fault for names in among(whole.groups, groups) for fault in names)
        truth = cheapest(of, at=(faults, frozenset(), frozenset())) * whole.scale * whole.weight(groups)
        assert found(seen.told(groups)) <= truth


def test_kinds_of_one_group_each_lose_little() -> None:
    """Three that are tested one by one, each of its own kind: 10 for all, and 5 for the lightest two."""
    seen = kinds("abc", (5, 3, 2), [(1, (0b001, 0b110)), (1, (0b010, 0b101)), (1, (0b100, 0b011))])
    assert least(seen)((1, 1, 1)) == 15


def test_any_of_a_kind_takes_the_place_of_any_other() -> None:
    """One test knows two of three alike. By numbers it may part any of them, and one is left to be parted."""
    seen = kinds("aaa", (1, 1, 1), [(7, (0b011, 0b100))])
    assert {tuple(sorted(after)) for _, after in seen.next((3,))} == {((1,), (2,))}
    assert least(seen)((3,)) == 7 * 3 + 7 * 2


def test_a_kind_weighs_as_its_lightest() -> None:
    """A claim must hold for the lightest of a kind too."""
    assert kinds("aab", (9, 4, 5), []).weights == (4, 5)


def test_no_kinds_say_nothing() -> None:
    """Groups without a label are left out, and nothing costs nothing."""
    assert least(kinds("", (3, 4), [(1, (0b01, 0b10))]))(()) == 0


def test_too_many_kinds_are_refused() -> None:
    """Fifteen of one each have 32,768 states: nobody waits for a proof that lists them all."""
    with pytest.raises(ValueError, match="15 kinds of groups are too many to count"):
        kinds(range(15), (1,) * 15, [])


def test_more_labels_than_groups_are_refused() -> None:
    """A kind of nobody would be a slip in the proof."""
    with pytest.raises(ValueError, match="3 kinds are told of 2 groups"):
        kinds("abb", (1, 1), [])
