"""Moving a vehicle: what is never allowed, what always needs the maker, and the heat behind it."""

from itertools import product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.errors import Refusal
from engine.trade.calculator import Sum, compute
from engine.trade.moving import (
    ALL,
    CENTRES,
    DOLLIES,
    FLATBED,
    FOUR,
    FRONT,
    FRONT_UP,
    HAND,
    LOCKED,
    MAKER,
    NO,
    PARTED,
    REAR,
    REAR_UP,
    UNKNOWN,
    WAYS,
    YES,
    Vehicle,
    moved,
)
from engine.trade.registry import find
from engine.trade.towing_heat import Towed, towed

VEHICLES = [
    Vehicle(*facts)
    for facts in product(
        (ALL, FRONT, REAR, UNKNOWN), CENTRES, ("manual", "automatic", UNKNOWN), PARTED, LOCKED
    )
]


def test_towed_on_two_wheels_at_fifty() -> None:
    """1513 rpm, 31.7 kW, 9.6 K/s and 110 K in 11.5 s (computed)."""
    found = towed(50, 1927.6, 3.5, 200, 3302.5, 25, 135)

    assert isinstance(found, Towed)
    assert found.slip == pytest.approx(1513, abs=0.5)
    assert found[1:4] == pytest.approx((31.7, 9.6, 11.5), rel=5e-3)


@given(st.floats(1, 150), st.floats(1, 1000), st.floats(100, 10_000))
def test_the_distance_does_not_depend_on_the_speed(speed: float, torque: float, capacity: float) -> None:
    """Towing slowly saves nothing, the torque being the same: half the heat for twice the time."""
    one, other = (towed(v, 1927.6, 3.5, torque, capacity, 25, 135) for v in (speed, 2 * speed))

    assert isinstance(one, Towed)
    assert isinstance(other, Towed)
    assert one.distance == pytest.approx(other.distance)


@pytest.mark.parametrize(("speed", "torque", "start"), [(50, 200, 135), (0, 200, 25), (50, 0, 25)])
def test_towing_that_cannot_be_worked_out_is_refused(speed: float, torque: float, start: float) -> None:
    """A hot coupling has no metres left; without heat there is no limit to come to."""
    assert isinstance(towed(speed, 1927.6, 3.5, torque, 3302.5, start, 135), Refusal)


@pytest.mark.parametrize("way", [FRONT_UP, REAR_UP])
def test_no_all_wheel_driveline_gets_a_yes_on_two_wheels(way: str) -> None:
    """Of all vehicles that are all-wheel or unknown, none; and a no wherever the coupling is not parted."""
    answers = {vehicle: moved(way, vehicle).answer for vehicle in VEHICLES if vehicle.drive in (ALL, UNKNOWN)}

    assert YES not in answers.values()
    assert all(answer == NO for vehicle, answer in answers.items() if vehicle.parted != "parted")


@pytest.mark.parametrize("way", WAYS)
def test_the_maker_comes_first_in_every_answer(way: str) -> None:
    """No answer is without its cautions, and the first of them names the maker and the law."""
    for vehicle in VEHICLES:
        found = moved(way, vehicle)

        assert found.cautions[0].startswith("The maker's towing procedure and the law")
        assert all(found[:4])


@pytest.mark.parametrize("way", [FLATBED, DOLLIES])
def test_any_vehicle_may_be_carried(way: str) -> None:
    """With all four wheels off the road nothing turns, whatever the driveline."""
    assert {moved(way, vehicle).answer for vehicle in VEHICLES} == {YES}


def test_dollies_go_as_fast_as_their_plate() -> None:
    """No figure is guessed where the equipment has its own."""
    assert "rating plate" in moved(DOLLIES, Vehicle(ALL)).fast


@pytest.mark.parametrize(
    ("way", "vehicle", "answer"),
    [
        (FRONT_UP, Vehicle(FRONT), YES),
        (REAR_UP, Vehicle(REAR), YES),
        (REAR_UP, Vehicle(FRONT), MAKER),
        (FRONT_UP, Vehicle(REAR, transmission="automatic"), NO),
        (FRONT_UP, Vehicle(ALL, parted="parted"), MAKER),
        (FRONT_UP, Vehicle(ALL, parted="not-yet"), NO),
        (FOUR, Vehicle(ALL), MAKER),
        (FOUR, Vehicle(ALL, transmission="automatic"), NO),
        (FOUR, Vehicle(ALL, transmission=UNKNOWN), NO),
        (HAND, Vehicle(ALL), YES),
        (HAND, Vehicle(ALL, locked="rear"), NO),
        (FRONT_UP, Vehicle(FRONT, locked="front"), YES),
        (FRONT_UP, Vehicle(FRONT, locked="rear"), NO),
    ],
)
def test_the_answers_one_by_one(way: str, vehicle: Vehicle, answer: str) -> None:
    """The cases that a recovery driver asks about."""
    assert moved(way, vehicle).answer == answer


def test_nothing_is_dragged() -> None:
    """A locked wheel on the road is a no in every way that rolls it."""
    rolled = [(FOUR, "front"), (FOUR, "rear"), (FRONT_UP, "rear"), (REAR_UP, "front"), (HAND, "front")]

    assert {moved(way, Vehicle(FRONT, locked=locked)).answer for way, locked in rolled} == {NO}


def test_the_heat_is_told_where_it_decides() -> None:
    """At the door, an all-wheel vehicle with a viscous coupling is refused with seconds and metres."""
    calculator = find("moving")
    assert calculator is not None

    found = compute(calculator, {"way": "front-lifted", "drive": "all-wheel"})

    assert isinstance(found, Sum)
    assert found.outputs["answer"] == NO
    assert "1513 rpm and takes 31.7 kW" in str(found.outputs["why"])


def test_a_hot_coupling_is_refused_without_a_figure() -> None:
    """A coupling beyond its limit is no reason to refuse an answer."""
    calculator = find("moving")
    assert calculator is not None

    found = compute(calculator, {"way": "rear-lifted", "drive": "all-wheel", "start": "100", "limit": "90"})

    assert isinstance(found, Sum)
    assert found.outputs["answer"] == NO


@pytest.mark.parametrize("centre", ["geared", "electronic", UNKNOWN])
def test_other_couplings_are_refused_for_their_own_reason(centre: str) -> None:
    """No viscous figure is told of a coupling that is none."""
    heat = towed(50, 1927.6, 3.5, 200, 3302.5, 25, 135)
    assert isinstance(heat, Towed)

    found = moved(FRONT_UP, Vehicle(ALL, centre), heat)

    assert found.answer == NO
    assert "kW" not in found.why
