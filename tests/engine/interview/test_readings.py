"""Readings: typed as the gauge shows them, in any unit of the trade, and doubted where hard to believe."""

from fractions import Fraction

import pytest

from engine.errors import Refusal
from engine.interview.command import CannotTell, Confirm, Read
from engine.interview.state import State
from engine.records.event import Measured
from tests.engine.interview.given import after, made, measuring, refused

#: A unit, its gauge, and a range wide enough for every reading below.
GAUGES = {
    "mm": "rule",
    "in": "rule",
    "N·m": "wrench",
    "lbf·ft": "wrench",
    "°C": "probe",
    "°F": "probe",
    "L": "jug",
    "US qt": "jug",
    "rpm": "counter",
    "min": "watch",
}


def reading(unit: str) -> State:
    """A walk at a step that wants one reading in this unit, between 0 and 300."""
    bands = "{below: 200, then: ended}, {from: 200, upto: 400, then: other}"
    return measuring(bands, unit=unit, gauge=GAUGES[unit])


def event(state: State, typed: str, *, insist: bool = False) -> Measured:
    """What a reading makes."""
    (made_event,) = made(state, Read({"x": typed}, insist))
    assert isinstance(made_event, Measured)
    return made_event


@pytest.mark.parametrize(
    ("unit", "typed", "value"),
    [
        ("mm", "12.5", "25/2"),
        ("mm", "12,5 mm", "25/2"),
        ("mm", "1/2 in", "127/10"),
        ("mm", '1 3/8"', "1397/40"),
        ("mm", "2.5 cm", "25"),
        ("in", "0.5", "1/2"),
        ("in", "12.7 mm", "1/2"),
        ("N·m", "45", "45"),
        ("N·m", "100 lbf·ft", str(100 * Fraction("4.4482216152605") * Fraction("0.3048"))),
        ("lbf·ft", "33 ft-lb", "33"),
        ("°C", "100", "100"),
        ("°C", "212 °F", "100"),
        ("°F", "100 °C", "212"),
        ("°F", "32", "32"),
        ("L", "0.9", "9/10"),
        ("L", "1 US qt", "473176473/500000000"),
        ("L", "1 qt", "473176473/500000000"),
        ("US qt", "2", "2"),
        ("US qt", "1 L", "500000000/473176473"),
        ("rpm", "150 rpm", "150"),
        ("rpm", "2 Hz", "120"),
        ("min", "3", "3"),
        ("min", "90 s", "3/2"),
        ("min", "1/2 h", "30"),
    ],
)
def test_a_reading_is_kept_exactly_in_the_unit_of_its_step(unit: str, typed: str, value: str) -> None:
    """With or without a unit, what was typed is kept as typed and as an exact number of the step's unit.

    Factors: inch and pound by the agreement of 1959, US liquid quart 231/4 cubic inches (NIST SP 811, B.8).
    """
    got = event(reading(unit), typed)

    assert (got.typed, got.values, got.unit) == ({"x": typed}, {"x": value}, unit)


@pytest.mark.parametrize(
    ("typed", "kind"),
    [
        ("", "missing"),
        ("   ", "missing"),
        ("loose", "no-number"),
        ("12.5 kPa", "other-dimension"),
        ("12 furlongs", "unknown-unit"),
        ("1,234", "ambiguous"),
        ("12 13", "number"),
        ("9" * 30, "digits"),
        ("1" * 5000, "too-long"),
    ],
)
def test_what_cannot_be_read_is_refused(typed: str, kind: str) -> None:
    """A reading that is missing or cannot be read is refused with its reason, and insisting does not help."""
    state = reading("mm")

    assert refused(state, Read({"x": typed})).kind == kind
    assert refused(state, Read({"x": typed}, insist=True)).kind == kind


def test_a_reading_under_another_name_is_missing() -> None:
    """Only the reading that the step names counts."""
    refusal = refused(reading("mm"), Read({"y": "3"}))

    assert str(refusal) == "The reading `x` is missing. Type it, in mm."


@pytest.mark.parametrize("typed", ["-0.001", "300.001", "12 in", "-5"])
def test_a_reading_out_of_range_is_asked_again(typed: str) -> None:
    """Outside its plausible range a reading is refused, in a way that lets it be confirmed."""
    refusal = refused(reading("mm"), Read({"x": typed}))

    assert (refusal.kind, refusal.insist) == ("implausible", True)


@pytest.mark.parametrize("typed", ["0", "300", "11 103/127 in"])
def test_the_ends_of_the_range_are_believed(typed: str) -> None:
    """The range owns both its ends, in every unit: 11 103/127 in is 300 mm."""
    assert not event(reading("mm"), typed).insisted


def test_the_doubt_names_reading_and_range() -> None:
    """What is doubted is told in the step's unit, with the range that would be believed."""
    refusal = refused(reading("mm"), Read({"x": "12 in"}))

    assert refusal.message == "x = 304.8 mm lies outside what is believed here (0 mm to 300 mm)."


@pytest.mark.parametrize(
    ("typed", "cure"),
    [
        ("3048", "Did you mean 30.48 mm? Read it again"),
        ("12 in", "Did you mean 1.2 in or 0.12 in? Read it again"),
        ("20; 3048", "Did you mean 30.48 mm? Read it again"),
        ("7000000", "Read it again"),
    ],
)
def test_a_slip_is_asked_about(typed: str, cure: str) -> None:
    """A slipped point that would be believed is named, and where nothing would be, nothing is."""
    assert refused(reading("mm"), Read({"x": typed})).cure.startswith(cure)


def test_an_implausible_reading_is_taken_when_insisted_on() -> None:
    """Given again and confirmed, the reading is taken, and the record says so."""
    got = event(reading("mm"), "350", insist=True)

    assert (got.band, got.insisted) == (1, True)


def test_insisting_on_a_plausible_reading_is_not_recorded() -> None:
    """Only a reading that was out of range counts as insisted."""
    assert event(reading("mm"), "250", insist=True).insisted is False


def test_a_reading_without_a_band_is_refused() -> None:
    """A reading that the tree has no band for is not forced into one, even when insisted on."""
    refusal = refused(reading("mm"), Read({"x": "401"}, insist=True))

    assert (refusal.kind, refusal.message) == ("no-band", "The tree has no band for 401 mm.")
    assert after(reading("mm"), CannotTell("no band")).where == "ended"


def test_the_trail_tells_a_reading_as_a_person_would() -> None:
    """The reading in the step's unit, what was typed where typed otherwise, and the limits held against."""
    state = after(reading("mm"), Read({"x": "1/2 in"}))

    assert state.past[0].line.answer == "12.7 mm (typed 1/2 in) (below 200 mm, over 99 % sure)"


@pytest.mark.parametrize("typed", ["12.5", "12.5 mm"])
def test_a_reading_in_its_own_unit_is_told_once(typed: str) -> None:
    """What was typed in the step's own unit is not told twice."""
    assert (
        after(reading("mm"), Read({"x": typed})).past[0].line.answer
        == "12.5 mm (below 200 mm, over 99 % sure)"
    )


def test_the_trail_says_that_a_reading_was_insisted_on() -> None:
    """A confirmed implausible reading is marked in the trail."""
    answer = after(reading("mm"), Read({"x": "350"}, insist=True)).past[0].line.answer

    assert answer.startswith("350 mm (from 200 mm, up to 400 mm, over 99 % sure)")
    assert answer.endswith("; confirmed although outside the plausible range")


def test_a_refused_reading_leaves_the_walk_where_it_was() -> None:
    """A refusal carries no event: the state that was asked is the state that stays."""
    state = reading("mm")
    before = (state.where, state.sequence, state.past, state.holds)

    assert isinstance(refused(state, Read({"x": "loose"})), Refusal)
    assert (state.where, state.sequence, state.past, state.holds) == before


def test_a_measuring_step_takes_no_plain_done() -> None:
    """A reading cannot be confirmed away."""
    assert refused(reading("mm"), Confirm()).kind == "not-now"
