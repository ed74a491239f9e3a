"""A prompt as lines of text, where the talk cannot come to it with the documents of the tests."""

from dataclasses import replace

from engine import api
from engine.cli.lines import lines
from engine.interview.question import MeasurePrompt
from tests.engine.cli.spoken import TO_THIRD, Spoken


def test_several_gauges_are_said_with_what_they_read() -> None:
    """A line each, with the names that are typed."""
    asks = api.prompt(Spoken(TO_THIRD).job)
    assert isinstance(asks, MeasurePrompt)
    left, right = asks.blanks
    said = lines(replace(asks, blanks=(left, replace(right, gauge="Dial", resolution="0.01 mm"))))

    assert [line for line in said if line.startswith("Gauge")] == [
        "Gauge for left: Steel rule, which shows 0.5 mm. Believed: 1500 mm to 2500 mm.",
        "Gauge for right: Dial, which shows 0.01 mm. Believed: 1500 mm to 2500 mm.",
    ]
