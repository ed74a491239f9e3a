"""The cheapest order of repairs against figures by hand, every order tried, and Smith's rule."""

from collections.abc import Sequence
from itertools import permutations
from random import Random
from typing import Final

import pytest

from engine.belief.order import EXACT, Action, by_ratio, cheapest, expected

# Four parts a to d; probabilities and costs of the usual lesson on the rule, figures computed over all 24
# orders.
FAULTS: Final = {"a": 0.4, "b": 0.3, "c": 0.2, "d": 0.1}
PARTS: Final = {
    name: Action(name, cost, frozenset(name)) for name, cost in {"a": 5, "b": 15, "c": 1, "d": 2}.items()
}
# Three actions of cost 1 that overlap; the figures 1.50 and 1.45 from memory, the sets rebuilt to them; all
# six orders computed.
MEETING: Final = {"1": 0.20, "2": 0.25, "3": 0.40, "4": 0.15}
A1, A2, A3 = (Action(name, 1, frozenset(mends)) for name, mends in (("1", "12"), ("2", "23"), ("3", "34")))


def parts(names: str) -> list[Action]:
    """The parts in this order."""
    return [PARTS[name] for name in names]


@pytest.mark.parametrize(("order", "cost"), [("cadb", 10.3), ("abcd", 14.5), ("cdab", 10.6), ("bdac", 19.6)])
def test_cost_of_an_order(order: str, cost: float) -> None:
    """By probability over cost, by probability, by cost, and the dearest of all (computed, all 24 orders)."""
    assert expected(parts(order), FAULTS) == pytest.approx(cost, abs=1e-12)


def test_dearest_order() -> None:
    """19.6 is the most that any of the 24 orders costs."""
    assert max(expected(order, FAULTS) for order in permutations(PARTS.values())) == pytest.approx(19.6)


def test_probability_over_cost_is_cheapest() -> None:
    """Smith's rule finds c, a, d, b and 10.3."""
    found = cheapest(parts("abcd"), FAULTS)

    assert (found.names, found.exact) == (("c", "a", "d", "b"), True)
    assert found.cost == pytest.approx(10.3, abs=1e-12)


@pytest.mark.parametrize(
    ("order", "cost"),
    [
        ((A1, A2, A3), 1.70),
        ((A1, A3, A2), 1.55),
        ((A2, A1, A3), 1.50),
        ((A2, A3, A1), 1.55),
        ((A3, A1, A2), 1.45),
        ((A3, A2, A1), 1.65),
    ],
)
def test_cost_of_actions_that_meet(order: Sequence[Action], cost: float) -> None:
    """What is mended by an earlier action is not mended once more (computed, all six orders)."""
    assert expected(order, MEETING) == pytest.approx(cost, abs=1e-12)


def test_probability_over_cost_misses_the_cheapest_of_actions_that_meet() -> None:
    """Greedily A2 comes first for 1.50; the cheapest is A3, A1 for 1.45."""
    found = cheapest([A1, A2, A3], MEETING)

    assert by_ratio([A1, A2, A3], MEETING)[0] == A2
    assert (found.names, found.exact) == (("3", "1"), True)
    assert found.cost == pytest.approx(1.45, abs=1e-12)


def test_set_up_is_paid_once() -> None:
    """10 for the hoist, before the first of two actions that need it: 12 + 0.5 x 3 + 0.2 x 1."""
    hoist = frozenset({"hoist"})
    up = [Action("x", 2, frozenset("x"), hoist), Action("y", 3, frozenset("y"), hoist)]
    floor = Action("z", 1, frozenset("z"))
    faults = {"x": 0.5, "y": 0.3, "z": 0.2}

    assert expected([*up, floor], faults, {"hoist": 10}) == pytest.approx(13.7)


def test_last_resort_is_paid_where_nothing_mends() -> None:
    """100 to send it on, in the tenth of cases that no action mends: 4 + 0.1 x 100."""
    assert expected([Action("x", 4, frozenset("x"))], {"x": 0.9}, last=100) == pytest.approx(14)


def drawn(seed: int, *, meeting: bool) -> tuple[list[Action], dict[str, float], dict[str, float]]:
    """Up to six random actions over up to six faults, which overlap and need set-ups or neither."""
    chance = Random(seed)
    faults = {f"f{k}": float(chance.randint(1, 9)) for k in range(chance.randint(1, 6))}
    total = sum(faults.values()) / chance.choice([1, 0.8])
    faults = {name: weight / total for name, weight in faults.items()}
    if not meeting:
        return [Action(f, chance.randint(1, 30), frozenset([f])) for f in faults], faults, {}
    actions = [
        Action(
            f"a{k}",
            chance.randint(1, 30),
            frozenset(chance.sample([*faults], chance.randint(1, len(faults)))),
            frozenset(chance.sample(["hoist", "bench"], chance.randint(0, 2))),
        )
        for k in range(chance.randint(1, 5))
    ]
    return actions, faults, {"hoist": 12.0, "bench": 5.0}


@pytest.mark.parametrize("meeting", [False, True], ids=["apart", "meeting"])
@pytest.mark.parametrize("seed", range(40))
def test_no_order_is_cheaper(seed: int, meeting: object) -> None:
    """Every order of every set of actions that mends as much, tried one by one."""
    actions, faults, setups = drawn(seed, meeting=bool(meeting))
    found = cheapest(actions, faults, setups, last=50)
    all_mended = frozenset().union(*(one.mends for one in actions))
    least = min(
        expected(order, faults, setups, 50)
        for count in range(1, len(actions) + 1)
        for order in permutations(actions, count)
        if frozenset().union(*(one.mends for one in order)) == all_mended
    )

    assert found.exact
    assert found.cost == pytest.approx(least, abs=1e-9)


def test_many_actions_that_meet_are_taken_in_turn() -> None:
    """More than can be tried: the order is told as no proven one, and mends all that can be mended."""
    faults = {f"f{k}": 1 / 20 for k in range(20)}
    actions = [Action(f"a{k}", 1 + k % 3, frozenset({f"f{k}", f"f{(k + 1) % 20}"})) for k in range(EXACT + 5)]
    found = cheapest(actions, faults)
    by_name = {one.name: one for one in actions}

    assert not found.exact
    assert frozenset().union(*(by_name[name].mends for name in found.names)) == faults.keys()


def test_what_mends_nothing_is_left_out() -> None:
    """A repair of what cannot be to blame is no advice."""
    assert cheapest([*parts("ab")], {"a": 1.0, "b": 0.0}).names == ("a",)
