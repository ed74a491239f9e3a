"""Bolts at the door: what is typed and what is told."""

import pytest

from engine.errors import Refusal
from engine.quantity import Quantity, convert
from engine.trade.calculator import Sum, compute
from engine.trade.registry import find


def asked(name: str, **given: str) -> Sum | Refusal:
    """What the calculator makes of texts; `_` stands for `-`."""
    calculator = find(name)
    assert calculator is not None
    return compute(calculator, {key.replace("_", "-"): text for key, text in given.items()})


def number(name: str, output: str, unit: str, **given: str) -> float:
    """One output in a unit, where nothing is refused."""
    made = asked(name, **given)
    assert isinstance(made, Sum), made
    value = made.outputs[output]
    assert isinstance(value, Quantity)
    return float(convert(value, unit).value)


def test_the_published_torque_of_a_bolt() -> None:
    """M10x1.25 8.8 with friction 0.12: 31.6 kN and 51 N·m (VDI 2230 Part 1, 2001)."""
    given = {"size": "M10x1.25", "grade": "8.8"}

    assert number("bolt-torque", "preload", "kN", **given) == pytest.approx(31.6, rel=0.012)
    assert number("bolt-torque", "torque", "N·m", **given) == pytest.approx(51, rel=0.012)


def test_a_measured_head_is_taken_for_the_usual_one() -> None:
    """A flange head rubs further out and needs more torque for its preload; half a measure is no measure."""
    usual = number("bolt-torque", "torque", "N·m", size="M10", grade="8.8")
    wide = number("bolt-torque", "torque", "N·m", size="M10", grade="8.8", head_diameter="20", hole="11")

    assert wide > usual
    assert isinstance(asked("bolt-torque", size="M7x1", grade="8.8"), Refusal)
    assert isinstance(asked("bolt-torque", size="M7x1", grade="8.8", head_diameter="9", hole="10"), Refusal)


def test_the_preload_of_a_torque_in_pound_feet() -> None:
    """50.874 N·m typed as lbf·ft makes the preload again."""
    assert number("bolt-preload", "preload", "kN", size="M10x1.25", torque="37.523 lbf-ft") == pytest.approx(
        31.63, rel=1e-3
    )


def test_a_proof_load_at_the_door() -> None:
    """M10 8.8: 33.7 kN (ISO 898-1)."""
    assert number("bolt-strength", "proof-load", "kN", size="M10", grade="8.8") == pytest.approx(
        33.7, rel=5e-3
    )


def test_an_angle_adds_preload_by_the_softness() -> None:
    """Twice the turn, twice the preload."""
    given = {"size": "M10", "shank": "30", "free_thread": "10"}

    once, twice = (number("bolt-angle", "preload", "kN", angle=angle, **given) for angle in ("30°", "60°"))

    assert twice == pytest.approx(2 * once)


@pytest.mark.parametrize("units", [("12 in", "6 in"), ("304.8 mm", "152.4")])
def test_the_published_crowfoot_in_either_unit(units: tuple[str, str]) -> None:
    """30 at the bolt, 12 in of wrench, 6 in of crowfoot: set 20.0 (textbooks)."""
    found = number("wrench-setting", "setting", "N·m", torque="30", length=units[0], extension=units[1])

    assert found == pytest.approx(20.0)


def test_a_straight_extension_changes_nothing() -> None:
    """Its length along the wrench is nothing."""
    assert number("wrench-setting", "setting", "N·m", torque="30", length="300", extension="0") == 30


def test_the_order_is_told_with_its_passes() -> None:
    """Eight bolts, crosswise, in three passes."""
    made = asked("tightening-circle", bolts="8", torque="50")

    assert isinstance(made, Sum)
    assert made.outputs["order"] == "1, 5, 3, 7, 2, 6, 4, 8"
    assert [str(one) for one in made.outputs["passes"]] == ["15 N·m", "30 N·m", "50 N·m"]  # type: ignore[union-attr]  # reason: a list of three


@pytest.mark.parametrize("name", ["tightening-circle", "tightening-rows"])
def test_half_a_bolt_is_refused(name: str) -> None:
    """Bolts are counted."""
    refusal = (
        asked(name, bolts="8.5", torque="50") if "circle" in name else asked(name, columns="2.5", torque="5")
    )

    assert isinstance(refusal, Refusal)
    assert "whole" in refusal.cure


@pytest.mark.parametrize(
    ("unit", "answer"),
    [
        ("N·m", "25 lbf·ft"),
        ("Nm", "25 lbf·ft"),
        ("ft-lb", "It fits."),
        ("lbf-ft", "It fits."),
        ("lbf·in", "25 lbf·ft"),
        ("lbf·ft", "It fits."),
    ],
)
def test_a_mix_up_of_units_is_told(unit: str, answer: str) -> None:
    """25 where 34 N·m are expected was 25 lbf·ft."""
    made = asked("torque-mix-up", number="25", unit=unit, expected="34 N·m")

    assert isinstance(made, Sum)
    assert answer in str(made.outputs["answer"])


@pytest.mark.parametrize(
    ("name", "given"),
    [
        ("bolt-thread", {"size": "3/8 UNC"}),
        ("bolt-strength", {"size": "M18", "grade": "9.8"}),
        ("bolt-strength", {"size": "10", "grade": "8.8"}),
        ("bolt-preload", {"size": "nut", "torque": "5"}),
        ("bolt-angle", {"size": "M", "angle": "5", "shank": "5", "free_thread": "5"}),
        ("wrench-setting", {"torque": "30", "length": "300", "extension": "400", "angle": "180"}),
    ],
)
def test_what_cannot_be_is_refused_at_the_door(name: str, given: dict[str, str]) -> None:
    """The refusals of the functions come through, with their cure."""
    refusal = asked(name, **given)

    assert isinstance(refusal, Refusal)
    assert refusal.cure
