"""Figures made of more than the readings: of the vehicle's sheet, and of what the step itself says."""

import pytest

from engine.errors import Refusal
from engine.interview.command import Read
from engine.interview.reading import sketch, working
from engine.interview.state import State
from engine.model.tree import Measure
from engine.records.event import Measured
from tests.engine.interview.given import made, refused, tree, walk

LEVEL = """
    first:
      measure: How far below the hole does the warm oil stand?
      reading: {name: below, gauge: rule, unit: mm, plausible: [0, 60]}
      figure: oil-level
      given: {below: below, volume: sheet.capacities.transfer, surface: 200 cm², at: 80 °C}
      gives: corrected
      bands: [{upto: 12, say: Full enough, then: ended}, {over: 12, then: ended}]
    """
TYRES = """
    first:
      measure: Roll each tyre.
      readings: {gauge: rule, unit: mm, plausible: [1500, 2500], each: [rr, lf, rf, lr]}
      figure: tyre-mismatch
      given: {rolled: [lf, rf, lr, rr]}
      gives: rear
      bands: [{below: 1, then: ended}, {from: 1, then: ended}]
    """


def event(steps: str, **typed: str) -> Measured:
    """What readings make in a tree of one step."""
    (got,) = made(walk(tree(steps)), Read(typed))
    assert isinstance(got, Measured)
    return got


def step(state: State) -> Measure:
    """The step that the walk stands at."""
    assert isinstance(state.step, Measure)
    return state.step


@pytest.mark.parametrize(
    ("below", "figure", "band"), [("10", "11.89", 0), ("10.11", "12", 0), ("10.2", "12.09", 1)]
)
def test_the_sheet_and_the_step_give_what_is_not_read(below: str, figure: str, band: int) -> None:
    """0.9 L of oil 60 K too warm stand 900 cm³ x 0.0007 x 60 / 200 cm² = 1.89 mm higher than at the check."""
    got = event(LEVEL, below=below)

    assert (got.figure, got.figure_unit, got.band) == (figure, "mm", band)


def test_readings_go_where_they_are_named() -> None:
    """The rear left tyre rolls 2 % less than the rear right one, whatever order they are read in."""
    got = event(TYRES, rr="2040", lf="1990", rf="1990", lr="2000")

    assert (got.figure, got.figure_unit, got.band) == ("2", "%", 1)


def test_a_reading_may_be_typed_in_any_unit() -> None:
    """Half an inch below the hole is 12.7 mm."""
    assert event(LEVEL, below="1/2 in").figure == "14.59"


def test_the_sum_is_written_as_a_person_would() -> None:
    """Inputs, the formula, the figures in it and the result, each in a line."""
    state = walk(tree(LEVEL))
    lines = working(state, step(state), {"below": "10"})

    assert lines[0] == "h1 = 10 mm  (Read below the hole; above it, less than nothing)"
    assert lines[-6:-3] == ("h2 = h1 - dh", "  = 10 mm - (-1.89 mm)", "  = 11.89 mm")


def test_a_sketch_follows_the_typing() -> None:
    """The figure and its band are told while the reading is typed, and nothing before."""
    state = walk(tree(LEVEL))

    assert sketch(state, step(state), {"below": ""}) == ""
    assert sketch(state, step(state), {"below": "10"}) == "11.89 mm: up to 12 mm - Full enough, 62 % sure"


def test_what_the_calculator_refuses_is_asked_again() -> None:
    """A tyre that is confirmed to roll 100 mm is outside what the sum holds for."""
    refusal = refused(
        walk(tree(TYRES)), Read({"lf": "100", "rf": "1990", "lr": "1990", "rr": "1990"}, insist=True)
    )

    assert isinstance(refusal, Refusal)
    assert "outside what the sum holds for" in refusal.message
