"""What stands beside the readings of a step."""

from fractions import Fraction

from engine.interview.question import Blank
from tui.widgets.reading import gauges_words


def blank(name: str, gauge: str = "Steel rule") -> Blank:
    """A reading in mm."""
    return Blank(name, "mm", gauge, "0.5 mm", "0 mm to 80 mm", Fraction(0), Fraction(80))


def test_a_gauge_that_reads_all_is_told_once() -> None:
    """Without the names of what it reads."""
    assert gauges_words([blank("left"), blank("right")]) == "Steel rule, to 0.5 mm. Believed: 0 mm to 80 mm."


def test_several_gauges_are_told_with_what_they_read() -> None:
    """A line each, the names as words."""
    assert gauges_words([blank("left-rear"), blank("play", "Dial"), blank("right-rear")]).splitlines() == [
        "Left rear, right rear: Steel rule, to 0.5 mm. Believed: 0 mm to 80 mm.",
        "Play: Dial, to 0.5 mm. Believed: 0 mm to 80 mm.",
    ]
