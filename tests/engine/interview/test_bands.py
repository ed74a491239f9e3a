"""Bands: each limit belongs to the side that owns it, exactly, in whatever unit it is given and read."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.interview import limits
from engine.interview.command import Read
from engine.interview.state import State
from engine.model.tree import Measure
from engine.records.event import Measured
from tests.engine.interview.given import made, measuring


def between(low: str, high: str, *, unit: str = "mm", gauge: str = "rule") -> State:
    """A walk at a reading between two bands: the first ends at one limit, the second begins at another."""
    bands = f"{{{low}, then: ended}}, {{{high}, then: other}}"
    return measuring(bands, unit=unit, gauge=gauge, plausible="[-999, 999]")


def event(state: State, typed: str) -> Measured:
    """What the reading makes."""
    (got,) = made(state, Read({"x": typed}))
    assert isinstance(got, Measured)
    return got


@pytest.mark.parametrize(
    ("low", "high", "typed", "band"),
    [
        ("upto: 6", "over: 6", "5.9999999", 0),
        ("upto: 6", "over: 6", "6", 0),
        ("upto: 6", "over: 6", "6.0000001", 1),
        ("below: 6", "from: 6", "5.9999999", 0),
        ("below: 6", "from: 6", "6", 1),
        ("below: 6", "from: 6", "6.0000001", 1),
        ("upto: 6", "over: 6", "6 1/1000", 1),
        ("upto: 0.2", "over: 0.2", "1/5", 0),
        ("upto: 0.2", "over: 0.2", "0.2", 0),
        ("below: 0.2", "from: 0.2", "1/5", 1),
        ("below: 0.3", "from: 0.3", "3/10", 1),
        ("upto: 0.1", "over: 0.1", "1e-1", 0),
        ("upto: 25.4", "over: 25.4", "1 in", 0),
        ("below: 25.4", "from: 25.4", "1 in", 1),
        ("upto: -2", "over: -2", "-2", 0),
        ("upto: 0", "over: 0", "-0", 0),
    ],
)
def test_a_limit_belongs_to_the_side_that_owns_it(low: str, high: str, typed: str, band: int) -> None:
    """`upto` and `from` own their limit, `below` and `over` do not; 0.2 and 1/5 are the same number."""
    assert event(between(low, high), typed).band == band


@pytest.mark.parametrize(
    ("limit", "unit", "gauge", "on", "above"),
    [
        ("sheet.bearing.end-play.max", "mm", "rule", "0.2", "0.2000001"),
        ("sheet.bearing.end-play.max", "in", "rule", "0.2 mm", "0.0079"),
        ("sheet.tyres.spread.max", "mm", "rule", "6.35", "6.3500001"),
        ("sheet.tyres.spread.max", "mm", "rule", '1/4"', "0.2500001 in"),
        ("sheet.oil.heat.max", "°C", "probe", "100", "100.0000001"),
        ("sheet.oil.heat.max", "°C", "probe", "212 °F", "212.0000001 °F"),
        ("sheet.oil.drained.max", "L", "jug", "0.946352946", "0.946352947"),
        ("sheet.oil.drained.max", "L", "jug", "1 US qt", "1.0000001 US qt"),
        ("sheet.flange.holding.min", "N·m", "wrench", "30 lbf·ft", "30.0000001 lbf·ft"),
    ],
)
def test_a_limit_of_the_sheet_is_exact_in_every_unit(
    limit: str, unit: str, gauge: str, on: str, above: str
) -> None:
    """A reading on the sheet's limit lies on it whatever unit either is in; a hair above lies above."""
    state = between(f"upto: {limit}", f"over: {limit}", unit=unit, gauge=gauge)

    assert (event(state, on).band, event(state, above).band) == (0, 1)


@pytest.mark.parametrize(
    ("low", "high", "words"),
    [
        ("upto: 6", "over: 6", ["up to 6 mm", "over 6 mm"]),
        ("below: 6", "from: 6, upto: 9.5", ["below 6 mm", "from 6 mm, up to 9.5 mm"]),
        ("over: 1, below: 6", "from: 6", ["over 1 mm, below 6 mm", "from 6 mm"]),
        ("upto: sheet.tyres.spread.max", "over: sheet.tyres.spread.max", ["up to 6.35 mm", "over 6.35 mm"]),
    ],
)
def test_limits_are_told_in_words(low: str, high: str, words: list[str]) -> None:
    """The words tell which side owns a limit, in the unit of the step."""
    state = between(low, high)
    step = state.step
    assert isinstance(step, Measure)

    assert [told for told, _ in limits.scale(step, state.sheet)] == words


def test_the_record_keeps_the_limits_of_the_chosen_band() -> None:
    """The limits stand in the event as they were for this vehicle."""
    state = between("upto: sheet.tyres.spread.max", "over: sheet.tyres.spread.max")

    assert event(state, "7").limits == "over 6.35 mm"


@settings(max_examples=60)
@given(st.integers(-999_000, 999_000), st.sampled_from([("upto: 6", "over: 6"), ("below: 6", "from: 6")]))
def test_every_number_lies_in_one_band(thousandths: int, bands: tuple[str, str]) -> None:
    """Two bands that meet leave no number out and share none."""
    state = between(*bands)
    above = thousandths > 6000 or (thousandths == 6000 and bands[0].startswith("below"))

    assert event(state, f"{thousandths / 1000:.3f}").band == above
