"""Differentials against their kinematics and against worked figures."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.errors import Refusal
from engine.trade.centre_split import DOUBLE, SINGLE, Split, split, third_speed, with_viscous
from engine.trade.differential import on_hoist, other_wheel, ratio_of, shaft_turns, torques
from engine.trade.other_wheel import (
    BOTH_HELD,
    BOTH_NEUTRAL,
    ENGINE,
    KINDS,
    ONE_UP,
    OPEN,
    PLATES,
    SITUATIONS,
    VISCOUS,
    turning,
)

SPEEDS = st.floats(-3000, 3000)
TEETH = st.tuples(st.integers(12, 80), st.integers(1, 80)).map(lambda pair: (pair[0], sum(pair)))


def test_a_free_wheel_on_the_hoist_runs_double() -> None:
    """30 km/h shown on 1.9276 m: carrier 259.4 rpm, free wheel 518.8 rpm (computed)."""
    found = on_hoist(30, 1927.6)

    assert found.carrier == pytest.approx(259.4, abs=0.05)
    assert found.free == pytest.approx(518.8, abs=0.05)


def test_fifty_shown_is_a_hundred_at_the_tyre() -> None:
    """Why 50 km/h shown is the most on a hoist."""
    assert on_hoist(50, 1927.6).tyre == pytest.approx(100)


@given(SPEEDS, SPEEDS)
def test_the_wheels_together_turn_twice_as_often_as_the_carrier(carrier: float, wheel: float) -> None:
    """The sum of both is 2 nc, and from the other wheel one comes back to the first."""
    other = other_wheel(carrier, wheel)

    assert wheel + other == pytest.approx(2 * carrier, abs=1e-6)
    assert other_wheel(carrier, other) == pytest.approx(wheel, abs=1e-6)


def test_a_wheel_turns_though_its_mate_is_held() -> None:
    """A public quiz claims that the other wheel cannot turn then: false, it turns twice the carrier."""
    assert other_wheel(100, 0) == 200


def test_one_wheel_turned_once_turns_the_shaft_by_half_the_ratio() -> None:
    """3.5 to one: 1.75 turns a turn."""
    assert shaft_turns(3.5, 1, 0) == 1.75


@given(st.floats(1, 8), st.floats(1, 50), st.floats(0, 50))
def test_the_ratio_comes_back_from_counted_turns(ratio: float, left: float, right: float) -> None:
    """Turns of the shaft for known wheels, and back."""
    assert ratio_of(shaft_turns(ratio, left, right), left, right) == pytest.approx(ratio)


def test_turns_that_cancel_tell_no_ratio() -> None:
    """One wheel forward and one back leave the shaft where it is."""
    assert isinstance(ratio_of(0, 5, -5), Refusal)


@given(st.floats(0, 5000), st.floats(0, 90), st.floats(0, 500))
def test_both_wheels_carry_the_whole_torque(torque: float, lock: float, preload: float) -> None:
    """The lock moves torque from the faster wheel to the slower, and makes none."""
    found = torques(torque, lock, preload)

    assert found.slow + found.fast == pytest.approx(torque, abs=1e-6)
    assert found.slow - found.fast == pytest.approx(lock / 100 * torque + preload, abs=1e-6)


def test_an_open_differential_gives_both_the_same() -> None:
    """No lock, no preload: half each."""
    assert torques(300, 0) == (150, 150, 1, 0)


def test_a_wheel_without_grip_has_no_bias() -> None:
    """Nothing is a multiple of nothing."""
    assert torques(100, 100).bias is None


@pytest.mark.parametrize(
    ("planets", "sun", "ring", "share", "tolerance"),
    [(SINGLE, 36, 64, 36, 1e-9), (SINGLE, 40, 80, 33.3, 0.05), (DOUBLE, 40, 80, 50, 1e-9)],
)
def test_teeth_share_the_torque(planets: str, sun: int, ring: int, share: float, tolerance: float) -> None:
    """36/64 and 33.3/66.7 (computed); double planets with a sun of half the ring: even (derived)."""
    found = split(planets, sun, ring)

    assert isinstance(found, Split)
    assert found.sun == pytest.approx(share, abs=tolerance)
    assert sum(found) == pytest.approx(100)


@given(TEETH, st.sampled_from([SINGLE, DOUBLE]), SPEEDS, SPEEDS)
def test_power_in_is_power_out(teeth: tuple[int, int], planets: str, driven: float, sun_speed: float) -> None:
    """Shares times speeds give the input's speed: torque split and kinematics are one gear."""
    shares = split(planets, *teeth)
    other = third_speed(planets, *teeth, driven, sun_speed)

    assert isinstance(shares, Split)
    assert not isinstance(other, Refusal)
    assert shares.sun * sun_speed + shares.other * other == pytest.approx(100 * driven, abs=1e-4)


@given(TEETH, SPEEDS)
def test_single_planets_obey_the_law_of_willis(teeth: tuple[int, int], carrier: float) -> None:
    """Seen from the carrier, sun and ring turn opposite in the ratio of their teeth."""
    ring_speed = third_speed(SINGLE, *teeth, carrier, carrier + 100)

    assert not isinstance(ring_speed, Refusal)
    assert 100 / (ring_speed - carrier) == pytest.approx(-teeth[1] / teeth[0], rel=1e-6)


@given(TEETH, SPEEDS)
def test_double_planets_turn_sun_and_ring_the_same_way(teeth: tuple[int, int], carrier: float) -> None:
    """Seen from the carrier: that is what the second planet is for."""
    ring = carrier + 100 * teeth[0] / teeth[1]

    assert third_speed(DOUBLE, *teeth, ring, carrier + 100) == pytest.approx(carrier, abs=1e-6)


@pytest.mark.parametrize("teeth", [(64, 36), (40, 40), (0, 40)])
def test_teeth_that_cannot_be_are_refused(teeth: tuple[int, int]) -> None:
    """A sun as large as its ring is a miscount."""
    assert isinstance(split(SINGLE, *teeth), Refusal)
    assert isinstance(third_speed(SINGLE, *teeth, 100, 0), Refusal)


def test_a_viscous_unit_takes_from_the_faster_axle() -> None:
    """Share less Tv for the faster, share and Tv for the slower."""
    assert with_viscous(100, 36, 10, sun_is_faster=True) == (26, 74)
    assert with_viscous(100, 36, 10, sun_is_faster=False) == (46, 54)


@pytest.mark.parametrize("situation", SITUATIONS)
@pytest.mark.parametrize("kind", KINDS)
def test_every_situation_is_told_with_its_reason(kind: str, situation: str) -> None:
    """Way, reason and proof, in whole sentences."""
    told = turning(kind, situation)

    assert told.way
    assert told.why.endswith(".")
    assert told.proof.endswith(".")


@pytest.mark.parametrize(
    ("kind", "situation", "words"),
    [
        (OPEN, BOTH_HELD, "opposite, as fast"),
        (OPEN, BOTH_NEUTRAL, "either way"),
        (OPEN, ONE_UP, "propeller shaft turns"),
        (OPEN, ENGINE, "twice as fast"),
        (PLATES, BOTH_NEUTRAL, "the same way"),
        (PLATES, BOTH_HELD, "resists"),
        (VISCOUS, BOTH_HELD, "slowly"),
    ],
)
def test_the_table_of_the_trade(kind: str, situation: str, words: str) -> None:
    """Each row of the jacked-wheel table (kinematics; same way is limited slip by common practice)."""
    assert words in turning(kind, situation).way


def test_neutral_proves_nothing_of_an_open_differential() -> None:
    """Either way may be seen, so the reader is sent to hold the shaft."""
    assert "proves nothing" in turning(OPEN, BOTH_NEUTRAL).proof


@pytest.mark.parametrize("kind", KINDS)
def test_no_text_says_that_a_free_wheel_cannot_turn(kind: str) -> None:
    """The false claim of a public quiz is in none of our own texts."""
    assert not any("cannot turn" in text for situation in SITUATIONS for text in turning(kind, situation))
