"""Frequencies of turning parts against worked and published figures, and which of them fits a reading."""

from math import sin, tau

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.errors import Refusal
from engine.quantity import Quantity
from engine.trade.calculator import Given, Sum, compute
from engine.trade.orders import (
    Order,
    Vehicle,
    engine_hertz,
    engine_orders,
    firing_order,
    fits,
    order_of,
    road_orders,
    wheel_hertz,
)
from engine.trade.registry import find
from engine.trade.tyre_beat import beat, mismatch_of, recording_time

WAGON = Vehicle(1927.6, 3.5, 11)
#: km/h, then Hz of wheel, its second order, propeller shaft, its second, mesh of 11 teeth (computed).
ROAD = [(60, 8.65, 17.29, 30.26, 60.52, 333), (100, 14.41, 28.82, 50.44, 100.87, 555)]
#: rpm, cylinders, Hz of a turn and of firing (computed; 600, 1200 and 2400 rpm and 80 Hz as published).
ENGINE = [
    (2400, 4, 40, 80),
    (750, 4, 12.5, 25),
    (3000, 6, 50, 150),
    (600, 4, 10, 20),
    (1200, 8, 20, 80),
]


def made(name: str, given: dict[str, Given]) -> Sum | Refusal:
    """What a calculator makes of what is given."""
    calculator = find(name)
    assert calculator is not None
    return compute(calculator, given)


@pytest.mark.parametrize("row", ROAD, ids=lambda row: f"{row[0]} km/h")
def test_orders_at_a_road_speed(row: tuple[float, ...]) -> None:
    """The worked table, to its digits."""
    speed, wheel, twice, shaft, joints, mesh = row
    found = [order.hertz for order in road_orders(speed, WAGON)]

    assert [found[k] for k in (0, 1, 3, 4)] == pytest.approx([wheel, twice, shaft, joints], abs=0.005)
    assert found[5] == pytest.approx(mesh, abs=0.5)


@pytest.mark.parametrize(("rpm", "cylinders", "turn", "firing"), ENGINE)
def test_orders_at_an_engine_speed(rpm: float, cylinders: float, turn: float, firing: float) -> None:
    """A turn is the first order, firing half of the cylinders."""
    found = [order.hertz for order in engine_orders(rpm, cylinders)]

    assert engine_hertz(rpm) == turn
    assert turn * firing_order(cylinders) == firing
    assert {turn, firing} <= set(found)


@pytest.mark.parametrize(("cylinders", "order"), [(4, 2), (6, 3), (8, 4)])
def test_firing_orders(cylinders: float, order: float) -> None:
    """2, 3 and 4 for four-stroke engines of 4, 6 and 8 cylinders (published)."""
    assert firing_order(cylinders) == order


def test_one_thing_at_one_frequency_is_told_once() -> None:
    """With two cylinders the firing is the turn."""
    found = [order.hertz for order in engine_orders(3000, 2)]

    assert found == [25, 50, 100]


def test_a_whine_tells_its_teeth() -> None:
    """216.66 Hz at 1000 rpm: order 13.0 (published)."""
    assert order_of(216.66, 1000) == pytest.approx(13.0, abs=0.05)
    assert isinstance(order_of(100, 0), Refusal)


@pytest.mark.parametrize(
    ("hertz", "best"),
    [
        (14.4, "wheel or tyre"),
        (28.5, "tyre out of round"),
        (43, "tyre or drive shaft joint"),
        (50, "propeller shaft, out of balance"),
        (101, "propeller shaft joints"),
        (550, "axle gears, tooth by tooth"),
        (40, "engine or what turns with it"),
        (80, "engine, firing"),
    ],
)
def test_the_nearest_part_is_named(hertz: float, best: str) -> None:
    """At 100 km/h and 2400 rpm, each reading with its own part."""
    given: dict[str, Given] = {
        "frequency": hertz, "speed": 100, "circumference": 1927.6, "pinion": 11, "engine": 2400,
        "cylinders": 4,
    }  # fmt: skip
    found = made("order-fit", given)

    assert isinstance(found, Sum)
    assert str(found.outputs["best"]).startswith(best)


def test_parts_too_near_to_each_other_are_both_told() -> None:
    """41.5 Hz is 3.75 % from the engine and 4.2 % from the wheel's third order: neither is left out."""
    found = made(
        "order-fit", {"frequency": "41.5", "speed": "100", "circumference": "1927.6", "engine": "2400"}
    )

    assert isinstance(found, Sum)
    parts = found.outputs["parts"]
    assert isinstance(parts, tuple)
    assert [str(part).split(",")[0] for part in parts] == [
        "engine or what turns with it",
        "tyre or drive shaft joint",
    ]


def test_what_fits_nothing_is_refused_with_the_nearest() -> None:
    """35 Hz lies between the wheel's second and third order."""
    found = made("order-fit", {"frequency": "35", "speed": "100", "circumference": "1927.6"})

    assert isinstance(found, Refusal)
    assert found.kind == "no-order"
    assert "28.82 Hz" in found.cure or "43.23 Hz" in found.cure


@pytest.mark.parametrize("name", ["orders", "order-fit"])
def test_what_does_not_turn_has_no_orders(name: str) -> None:
    """Neither road speed nor engine speed."""
    given: dict[str, Given] = {"speed": "0", "circumference": "1927.6"}
    if name == "order-fit":
        given["frequency"] = "10"

    found = made(name, given)

    assert isinstance(found, Refusal)
    assert found.kind == "at-rest"


def test_the_table_runs_from_slow_to_fast() -> None:
    """Parts and frequencies in step, the engine at its place among the rest."""
    found = made(
        "orders",
        {"speed": "100", "circumference": "1927.6", "pinion": "11", "engine": "2400", "cylinders": "4"},
    )

    assert isinstance(found, Sum)
    frequencies, parts = found.outputs["frequencies"], found.outputs["parts"]
    assert isinstance(frequencies, tuple)
    assert isinstance(parts, tuple)
    assert len(frequencies) == len(parts) == 11
    values = [one.value for one in frequencies if isinstance(one, Quantity)]
    assert values == sorted(values)


@given(st.floats(1, 1000), st.lists(st.floats(1, 1000), min_size=1, max_size=8), st.floats(0.1, 30))
def test_what_fits_is_within_the_tolerance_and_in_order(
    hertz: float, orders: list[float], tolerance: float
) -> None:
    """The nearest first, none beyond, and none within left out."""
    found = fits(hertz, [Order("part", one) for one in orders], tolerance)
    ratios = [max(hertz / fit.order.hertz, fit.order.hertz / hertz) for fit in found]
    every = [max(hertz / one, one / hertz) for one in orders]

    assert ratios == sorted(ratios)
    assert all(ratio <= (1 + tolerance / 100) * (1 + 1e-9) for ratio in ratios)
    assert len(found) >= sum(ratio <= 1 + tolerance / 100 for ratio in every)


@given(st.floats(5, 200), st.floats(0.2, 10))
def test_a_faster_vehicle_shakes_faster_and_the_ranking_stays(speed: float, faster: float) -> None:
    """Every order of the road grows with the speed."""
    slow, fast = road_orders(speed, WAGON), road_orders(speed + faster, WAGON)

    assert all(after.hertz > before.hertz for before, after in zip(slow, fast, strict=True))


def test_two_wheels_beat() -> None:
    """1 % at 100 km/h: 0.144 Hz, 6.9 s (computed)."""
    found = beat(100, 1927.6, 1)

    assert not isinstance(found, Refusal)
    assert found[0] == pytest.approx(0.144, abs=5e-4)
    assert found[1] == pytest.approx(6.9, abs=0.05)


@given(st.floats(20, 200), st.floats(1500, 2500), st.floats(0.05, 5))
def test_the_beat_of_two_tones_is_where_they_are_in_step_again(
    speed: float, circumference: float, mismatch: float
) -> None:
    """After one period the two wheels stand to each other as at the start; half of it later, against."""
    wheel = wheel_hertz(speed, circumference)
    found = beat(speed, circumference, mismatch)

    assert not isinstance(found, Refusal)
    apart = tau * wheel * mismatch / 100 * found[1]
    assert sin(apart / 2) == pytest.approx(0, abs=1e-9)
    assert abs(sin(apart / 4)) == pytest.approx(1)


@given(st.floats(20, 200), st.floats(1500, 2500), st.floats(0.05, 5))
def test_the_mismatch_is_the_one_that_beats_so(speed: float, circumference: float, mismatch: float) -> None:
    """From mismatch to period and back."""
    found = beat(speed, circumference, mismatch)

    assert not isinstance(found, Refusal)
    assert mismatch_of(found[1], speed, circumference) == pytest.approx(mismatch)


@pytest.mark.parametrize("found", [beat(0, 1927.6, 1), beat(100, 1927.6, 0), mismatch_of(7, 0, 1927.6)])
def test_nothing_beats_at_rest_or_alike(found: object) -> None:
    """Refused, and not divided by nothing."""
    assert isinstance(found, Refusal)


def test_a_recording_must_last_to_split_wheel_and_one_per_cent() -> None:
    """More than about 7 s (computed)."""
    wheel = wheel_hertz(100, 1927.6)

    assert recording_time(wheel, wheel * 1.01) == pytest.approx(6.94, abs=0.01)
    assert isinstance(recording_time(wheel, wheel), Refusal)
