"""Readings of different kinds in one step: each with its own gauge, unit and range."""

from dataclasses import replace
from typing import Final

import pytest

from engine.errors import Refusal
from engine.interview.command import Read
from engine.interview.decide import decide
from engine.interview.evolve import evolve
from engine.interview.pack import pack
from engine.interview.prompt import prompt
from engine.interview.question import MeasurePrompt
from engine.interview.reading import working
from engine.interview.state import State
from engine.model.tree import Measure
from engine.records.codec import decode, encode, seal
from engine.records.event import Measured
from engine.report.markdown import report
from tests.engine.interview.given import after, entry, library, made, refused, tree, walk

LEVEL: Final = """
    first:
      measure: How far below the hole does the oil stand, and how warm is it?
      readings:
        - {name: below, gauge: rule, unit: mm, plausible: [0, 60]}
        - {name: oil, gauge: probe, unit: °C, plausible: [-20, 120]}
      figure: oil-level
      given: {below: below, volume: sheet.capacities.transfer, surface: 200 cm², at: oil}
      gives: corrected
      bands: [{upto: 12, say: Full enough, then: ended}, {over: 12, then: ended}]
      unsure: ended
    second:
      do: Fill it.
      then: ended
    """


TEXT: Final = tree(LEVEL.replace("Full enough, then: ended", "Full enough, then: second"))


def level() -> State:
    """A walk at the level of a unit whose oil is warm."""
    return walk(TEXT)


def event(below: str = "9", oil: str = "80") -> Measured:
    """What these readings make."""
    (got,) = made(level(), Read({"below": below, "oil": oil}))
    assert isinstance(got, Measured)
    return got


@pytest.mark.parametrize(
    ("below", "oil", "figure"), [("9", "80", "10.89"), ("9", "20", "9"), ("9", "176 °F", "10.89")]
)
def test_both_kinds_make_the_figure(below: str, oil: str, figure: str) -> None:
    """0.9 L that are 60 K too warm stand 1.89 mm higher than at 20 °C; Fahrenheit is read as such."""
    assert event(below, oil).figure == figure


def test_each_reading_keeps_its_unit() -> None:
    """The first speaks for those like it; the others are kept by their names. Each gauge is named once."""
    got = event()

    assert (got.unit, got.gauge) == ("mm", "rule, probe")
    assert got.units == {"oil": "°C"}
    assert [got.unit_of(name) for name in ("below", "oil")] == ["mm", "°C"]


def test_an_event_of_both_kinds_is_read_as_it_was_written() -> None:
    """Units stand in the record and come back out of it."""
    sealed = seal("case", 2, "2026-01-01T00:00:00+00:00", event(), "0" * 64)

    assert decode(encode(sealed)) == sealed


def test_readings_alike_write_nothing_new() -> None:
    """A record of one kind of reading is, byte by byte, what it always was."""
    sealed = encode(seal("case", 2, "", replace(event(), units={}, also=""), "0" * 64))

    assert b"units" not in sealed
    assert b"also" not in sealed


def test_each_has_its_own_range() -> None:
    """A temperature is doubted by its own range, in its own unit."""
    refusal = refused(level(), Read({"below": "9", "oil": "200"}))

    assert refusal.kind == "implausible"
    assert refusal.message == "oil = 200 °C lies outside what is believed here (-20 °C to 120 °C)."


def test_another_kind_is_not_taken() -> None:
    """Millimetres are no temperature."""
    assert refused(level(), Read({"below": "9", "oil": "80 mm"})).message.startswith("oil: ")


def test_the_prompt_says_gauge_and_unit_of_each() -> None:
    """Whoever reads them sees which gauge is meant for which."""
    asked = prompt(level())

    assert isinstance(asked, MeasurePrompt)
    assert [(b.unit, b.gauge) for b in asked.blanks] == [("mm", "Steel rule"), ("°C", "Probe")]


def test_the_trail_says_each_in_its_unit() -> None:
    """So does the page that is printed of the case, and what else the calculator said is there too."""
    state = after(level(), Read({"below": "9", "oil": "176 °F"}))

    assert state.past[0].line.answer.startswith("below 9 mm, oil 80 °C (typed 176 °F); 10.89 mm (up to 12 mm")
    assert "Rise of the level: -1.89 mm" in state.past[0].line.answer


def test_the_next_step_shows_what_was_worked_out() -> None:
    """Whoever fills it must know by how much."""
    state = after(level(), Read({"below": "9", "oil": "80"}))

    assert prompt(state).show == (  # type: ignore[union-attr]  # reason: something to do shows values
        "Worked out: Rise of the level: -1.89 mm; Fills it up to the hole then: 0.2178 L",
    )


def test_the_sum_is_shown_with_both() -> None:
    """The sum names the temperature that was read."""
    state = level()
    assert isinstance(state.step, Measure)

    assert "t1 = 80 °C  (Temperature of the oil now)" in working(
        state, state.step, {"below": "9", "oil": "80"}
    )


def test_the_page_reckons_with_both() -> None:
    """Whoever doubts the printed figure can reckon it once more."""
    opened = entry(level(), pack(library(TEXT), "bench", "wagon"))
    read = entry(level(), event())

    assert "t1 = 80 °C" in report("bench", (replace(opened, sequence=1), read), level())


def test_the_reading_that_decides_is_named() -> None:
    """Near the limit it is the rule that scatters: 0.33 mm; a degree moves the figure by 0.03 mm."""
    state = level()
    decision = decide(state, Read({"below": "10", "oil": "80"}))
    assert not isinstance(decision, Refusal)
    refusal = refused(evolve(state, entry(state, decision[0])), Read({"below": "10", "oil": "80"}))

    assert refusal.kind == "too-close"
    assert "for below" in refusal.cure
    assert "oil" not in refusal.cure
