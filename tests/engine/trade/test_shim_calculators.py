"""Shims at the door: what is typed and what is told, exactly."""

from fractions import Fraction

import pytest

from engine.errors import Refusal
from engine.quantity import Quantity
from engine.trade.calculator import Sum, compute
from engine.trade.registry import find

WORKED = {"fitted": "0.65", "play": "0.30", "least": "0.03", "most": "0.10"}


def asked(name: str, **given: str) -> Sum | Refusal:
    """What the calculator makes of texts; `_` stands for `-`."""
    calculator = find(name)
    assert calculator is not None
    return compute(calculator, {key.replace("_", "-"): text for key, text in given.items()})


def told(name: str, **given: str) -> dict[str, object]:
    """The outputs by name, where nothing is refused."""
    made = asked(name, **given)
    assert isinstance(made, Sum), made
    return dict(made.outputs)


def mm(value: str) -> Quantity:
    """A length."""
    return Quantity(Fraction(value), "mm")


def test_the_worked_end_play_is_exact() -> None:
    """0.87, and 0.85 to 0.92 (computed)."""
    assert told("end-play-shim", **WORKED, target="0.08") == {
        "shim": mm("0.87"),
        "thinnest": mm("0.85"),
        "thickest": mm("0.92"),
    }


def test_without_a_target_the_middle_is_taken() -> None:
    """Half way between 0.85 and 0.92; for the preload, between its limits."""
    assert told("end-play-shim", **WORKED)["shim"] == mm("0.885")
    preload = {"fitted": "0.65", "play": "0.30", "least": "0.15", "most": "0.25"}
    assert told("preload-shim", **preload)["shim"] == mm("1.15")


def test_inches_are_as_exact() -> None:
    """Twelve thou of play over a shim of 0.025 in, target 3 thou: 34 thou."""
    found = told("end-play-shim", fitted="0.025 in", play="0.012 in", least="0.001 in", most="0.005 in")

    assert found["shim"] == Quantity(Fraction("0.034") * Fraction("25.4"), "mm")


def test_the_drawer_gives_the_fewest() -> None:
    """One shim of 0.9 leaves 0.05 of play."""
    found = told("shim-choice", **WORKED, catalogue="0.5, 0.55, 0.6, 0.85, 0.9")

    assert (found["count"], found["shims"], found["play"]) == (1, (mm("0.9"),), mm("0.05"))


def test_a_target_is_kept_to() -> None:
    """A play of 0.09 is wanted: the thinner shim is nearer."""
    found = told("shim-choice", **WORKED, catalogue="0.5, 0.55, 0.6, 0.85, 0.9", target="0.09")

    assert (found["shims"], found["play"]) == ((mm("0.85"),), mm("0.1"))


def test_a_single_shim_of_a_size_is_used_once() -> None:
    """Two of 0.45 would do; with one of each, 0.5 and 0.4 are taken."""
    drawer = "0.45, 0.5, 0.38"

    assert told("shim-choice", **WORKED, catalogue=drawer)["shims"] == (mm("0.5"), mm("0.38"))
    assert told("shim-choice", **WORKED, catalogue="0.45, 0.5, 0.4", each="1")["shims"] == (
        mm("0.5"),
        mm("0.4"),
    )


def test_a_preload_is_chosen_with_its_own_sign() -> None:
    """1.15 with a play of 0.30 over 0.65 is an interference of 0.20; doubts are told."""
    found = told(
        "shim-choice-preload",
        fitted="0.65",
        play="0.30",
        least="0.15",
        most="0.25",
        catalogue="0.5, 1.15",
        target="0.2",
        uncertainty="0.01",
        tolerance="0.005",
    )

    assert (found["shims"], found["preload"], found["doubt"]) == ((mm("1.15"),), mm("0.2"), mm("0.015"))


def test_no_shim_at_all_is_told_without_a_list() -> None:
    """Where the play is right with nothing in, nothing is fitted."""
    found = told("shim-choice", fitted="0", play="0.06", least="0.03", most="0.10", catalogue="0.5")

    assert found["count"] == 0
    assert "shims" not in found


def test_readings_become_a_play_and_a_word() -> None:
    """Three readings, their mean and what it means."""
    found = told("end-play-readings", readings="0.06, 0.07, 0.065", least="0.03", most="0.10")

    assert (found["play"], found["answer"]) == (mm("0.065"), "within")


def test_a_case_of_aluminium_gains_play() -> None:
    """150 mm, 20 to 80 °C: 0.1035 mm (computed), exactly; with coefficients in either unit."""
    assert told("end-play-heat", length="150", warm="80")["change"] == mm("0.1035")
    given = {"length": "150", "warm": "80", "housing": "0.000023 per K"}
    assert told("end-play-heat", **given)["change"] == mm("0.1035")


def test_a_move_of_the_ring_gear_names_its_way() -> None:
    """Too much backlash: towards the pinion, from the far side's shim to the ring gear's."""
    found = told("backlash-move", backlash="0.30", target="0.16", ring_side="1.5", far_side="2")

    assert found == {
        "move": mm("0.2"),
        "way": "towards the pinion",
        "new-ring-side": mm("1.7"),
        "new-far-side": mm("1.8"),
    }
    assert told("backlash-move", backlash="0.09", target="0.16")["way"] == "away from the pinion"
    assert told("backlash-move", backlash="0.16", target="0.16")["way"] == "not at all"


def test_bearing_torque_in_pound_inches() -> None:
    """3 lbf·in of reading less nothing is 0.339 N·m (computed from a published 3-4 lbf·in)."""
    found = told("bearing-torque", reading="3 lbf·in")["torque"]

    assert isinstance(found, Quantity)
    assert float(found.value) == pytest.approx(0.339, abs=5e-4)


@pytest.mark.parametrize(
    ("name", "given", "word"),
    [
        ("end-play-shim", {"fitted": "0", "play": "0.02", "least": "0.03", "most": "0.1"}, "seated"),
        ("end-play-shim", {"fitted": "0.5", "play": "0.3", "least": "0.1", "most": "0.03"}, "smaller"),
        ("end-play-shim", {"fitted": "0.5", "play": "-0.3", "least": "0.03", "most": "0.1"}, "0 mm"),
        ("preload-shim", {"fitted": "0.5", "play": "0.3", "least": "0.1", "most": "0.03"}, "smaller"),
        ("shim-choice", {**WORKED, "catalogue": "0.7"}, "nearest"),
        ("shim-choice", {**WORKED, "catalogue": "0.9", "uncertainty": "0.04"}, "uncertainty"),
        ("shim-choice", {**WORKED, "play": "0.30 kPa", "catalogue": "0.9"}, "length"),
        ("shim-choice-preload", {**WORKED, "catalogue": "0.7"}, "nearest"),
        ("end-play-readings", {"readings": "0.06, 0.09, 0.06", "least": "0", "most": "1"}, "apart"),
        ("end-play-readings", {"readings": "0.06, 0.06", "least": "0", "most": "1"}, "at least 3"),
        ("backlash-move", {"backlash": "0.5", "target": "0.1", "ring_side": "1", "far_side": "0.2"}, "side"),
        ("bearing-torque", {"reading": "0.2", "seal": "0.3"}, "drag"),
    ],
)
def test_what_cannot_be_is_refused_at_the_door(name: str, given: dict[str, str], word: str) -> None:
    """Impossible measurements never become a shim."""
    refusal = asked(name, **given)

    assert isinstance(refusal, Refusal)
    assert word in str(refusal)
