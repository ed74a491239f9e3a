"""What a reading means while it is being typed."""

import pytest

from engine.interview.preview import preview
from engine.interview.prompt import prompt
from engine.interview.question import Blank, MeasurePrompt
from tests.engine.interview.given import measuring


def blank(unit: str, gauge: str) -> Blank:
    """The blank of a step that wants one reading between 0 and 100."""
    asked = prompt(measuring("{from: 0, then: ended}", unit=unit, gauge=gauge, plausible="[0, 100]"))
    assert isinstance(asked, MeasurePrompt)
    return asked.blanks[0]


@pytest.mark.parametrize(
    ("unit", "gauge", "typed", "text"),
    [
        ("mm", "rule", "12.7", "12.7 mm = 0.5 in"),
        ("mm", "rule", '1/2"', "0.5 in = 12.7 mm"),
        ("mm", "rule", "1 cm", "1 cm = 10 mm"),
        ("N·m", "wrench", "100", "100 N·m ≈ 73.756 lbf·ft"),
        ("°C", "probe", "212 °F", "212 °F = 100 °C"),
        ("rpm", "counter", "50", "50 rpm"),
        ("rpm", "counter", "1 Hz", "1 Hz = 60 rpm"),
    ],
)
def test_a_reading_is_shown_in_the_other_unit_too(unit: str, gauge: str, typed: str, text: str) -> None:
    """Typed in the step's unit it is shown in the trade's other one, typed in another in the step's own."""
    seen = preview(blank(unit, gauge), typed)

    assert (seen.text, seen.ok) == (text, True)


@pytest.mark.parametrize("typed", ["", "  "])
def test_nothing_typed_shows_nothing(typed: str) -> None:
    """An empty field is not wrong yet, nor can it be taken."""
    seen = preview(blank("mm", "rule"), typed)

    assert (seen.text, seen.ok) == ("", False)


def test_what_cannot_be_read_shows_why() -> None:
    """While it cannot be read, the reason and the cure stand there."""
    seen = preview(blank("mm", "rule"), "3 kPa")

    assert (seen.text, seen.ok) == (
        "`kPa` is a pressure; a length is wanted here. Give it in `mm` or `in`.",
        False,
    )


@pytest.mark.parametrize(("typed", "ok"), [("100", True), ("100.1", False), ("-0.1", False), ("4 in", False)])
def test_an_implausible_reading_warns(typed: str, *, ok: bool) -> None:
    """Outside the plausible range the text warns before anything was sent."""
    seen = preview(blank("mm", "rule"), typed)

    assert (seen.ok, "outside what is believed here (0 mm to 100 mm)" in seen.text) == (ok, not ok)
