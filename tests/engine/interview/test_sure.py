"""Readings near a limit: too close to call, what would decide, and the technician's last word."""

from dataclasses import replace
from typing import Final

import pytest

from engine.errors import Refusal
from engine.interview.command import CannotTell, Confirm, Note, Read, StepBack
from engine.interview.decide import decide
from engine.interview.evolve import evolve
from engine.interview.prompt import prompt
from engine.interview.question import MeasurePrompt
from engine.interview.state import State
from engine.records.codec import decode, encode, seal
from engine.records.event import Measured, Undecided
from tests.engine.interview.given import after, entry, made, measuring, read, tree, walk

BANDS: Final = "{upto: 12.5, then: ended}, {over: 12.5, then: other}"


def asked(typed: str, bands: str = BANDS) -> str:
    """What is said to a reading with the steel rule that decides nothing."""
    asks = prompt(left(typed, bands))
    assert isinstance(asks, MeasurePrompt)
    assert asks.close is not None
    return asks.close.told


def left(typed: str, bands: str = BANDS) -> State:
    """A walk whose last event is a reading with the steel rule that is too close to call."""
    state = measuring(bands, unit="mm", gauge="rule")
    decision = decide(state, Read({"x": typed}))
    assert not isinstance(decision, Refusal)
    (event,) = decision
    assert isinstance(event, Undecided)
    return evolve(state, entry(state, event))


def event(typed: str, *, settle: bool = False) -> Measured:
    """What a reading with the steel rule makes, which scatters by 0.3 mm and shows 0.5 mm."""
    decision = decide(measuring(BANDS, unit="mm", gauge="rule"), Read({"x": typed}, settle=settle))
    assert not isinstance(decision, Refusal)
    (got,) = decision
    assert isinstance(got, Measured)
    return got


def test_a_clear_reading_is_decided() -> None:
    """1 mm from its limit a reading is beyond 2.9 standard uncertainties (0.3 and 0.5/sqrt(12): 0.333)."""
    got = event("11.5")

    assert (got.probability, got.uncertainty, got.gauge, got.close) == ("0.9987", "0.3329", "rule", False)


def test_a_reading_near_its_limit_is_too_close() -> None:
    """Half a millimetre is 1.5 standard uncertainties: 93 %."""
    assert asked("12").startswith("Too close to call: 12 mm, up to 12.5 mm: 93 % sure, 95 % is wanted.")


def test_repeating_is_proposed_where_it_helps() -> None:
    """The scatter of two readings shrinks by the root of two, and that does."""
    assert "Read it once more, or use a gauge" in asked("12")


def test_a_finer_gauge_is_proposed() -> None:
    """Half a millimetre takes 0.5/1.645 = 0.304 mm: one that scatters by its step of 0.3 mm has 0.312 mm."""
    assert "use a gauge good to 0.2 mm" in asked("12")


def test_on_the_limit_nothing_helps() -> None:
    """On the limit itself neither gauge nor repeat is proposed."""
    assert "no gauge here decides it." in asked("12.5")


def test_a_repeat_decides() -> None:
    """Two readings of 12 mm are surer than one; what was typed is kept, the value is their mean."""
    got = event("12; 12")

    assert (got.values["x"], got.typed["x"], got.close) == ("12", "12; 12", False)


def test_repeats_are_averaged_exactly() -> None:
    """The figure of several readings is their mean."""
    assert event("11; 11.5 mm").values["x"] == "45/4"


def test_readings_that_disagree_are_read_again() -> None:
    """Readings further apart than the gauge scatters ask for one more, near the limit."""
    assert "one was misread" in asked("10; 14.5")


def test_a_stray_reading_does_not_decide() -> None:
    """Of three readings, the one that was misread does not move the value."""
    assert event("10; 10; 25", settle=True).values["x"] == "10"


@pytest.mark.parametrize("typed", ["12; ", "12;"])
def test_nothing_behind_the_last_mark(typed: str) -> None:
    """A mark at the end, before the next reading is typed, is not taken for a reading."""
    assert asked(typed) == asked("12")


def test_it_is_taken_as_it_stands() -> None:
    """The technician has the last word, and the record says that it was close."""
    got = event("12", settle=True)

    assert (got.band, got.close, got.insisted) == (0, True, False)


def test_believing_a_reading_does_not_settle_it() -> None:
    """Who confirms an odd reading has not yet been told that it is close as well."""
    decision = decide(measuring(BANDS, unit="mm", gauge="rule"), Read({"x": "12"}, insist=True))

    assert not isinstance(decision, Refusal)
    assert isinstance(decision[0], Undecided)


def test_what_was_sure_survives_the_record() -> None:
    """A measured event comes back from its record as it was."""
    sealed = seal("bench", 1, "", event("12", settle=True), "0" * 64)

    assert decode(encode(sealed)) == sealed


def test_a_case_of_before_keeps_its_hash() -> None:
    """Nothing of the new fields is written where they say nothing, so that old entries read as they were."""
    old = replace(event("11"), probability="", uncertainty="", gauge="", close=False)
    sealed = seal("bench", 1, "", old, "0" * 64)

    assert "probability" not in str(encode(sealed))
    assert decode(encode(sealed)) == sealed


def test_the_trail_says_how_sure() -> None:
    """A reading without its own words still has a probability."""
    (got,) = made(measuring(BANDS, unit="mm", gauge="rule"), Read({"x": "12.5"}))

    assert isinstance(got, Measured)
    assert got.probability == "0.5000"


def test_a_close_reading_is_kept_and_the_step_stands() -> None:
    """What was typed is an event of its own, with how sure it made, and the same is asked again with it."""
    state = left("12")
    asks = prompt(state)

    assert isinstance(asks, MeasurePrompt)
    assert asks.close is not None
    assert (state.where, asks.close.typed) == ("first", {"x": "12"})
    assert state.undecided is not None
    assert (state.undecided.probability, state.undecided.limits) == ("0.9334", "up to 12.5 mm")


def test_a_close_reading_survives_the_record() -> None:
    """An undecided event comes back from its record as it was."""
    event = left("12").undecided
    assert event is not None
    sealed = seal("bench", 1, "", event, "0" * 64)

    assert decode(encode(sealed)) == sealed


def test_a_close_reading_is_written_once() -> None:
    """The same sent again, as after a key that bounced, is told anew and not written again."""
    refusal = refused_as_it_stands(left("12"), "12")

    assert (refusal.kind, refusal.insist) == ("too-close", True)


def refused_as_it_stands(state: State, typed: str) -> Refusal:
    """The refusal of readings that nothing settles."""
    decision = decide(state, Read({"x": typed}))
    assert isinstance(decision, Refusal)
    return decision


@pytest.mark.parametrize("typed", ["12", "12; 12", "11"], ids=["as it stands", "repeated", "corrected"])
def test_once_it_is_decided_only_that_stands_in_the_trail(typed: str) -> None:
    """The line of the close reading gives way to that which decides it."""
    state = after(left("12"), Read({"x": typed}))

    assert (state.undecided, state.where) == (None, "ended")
    assert [past.line.step for past in state.past] == ["first"]
    assert "not decided" not in state.past[0].line.answer


def test_stepping_back_over_a_close_reading_asks_anew() -> None:
    """As if nothing had been read."""
    state = left("12")
    back = after(state, StepBack(state.past[-1].line.sequence))

    assert (back.undecided, back.past, back.where) == (None, (), "first")


def test_stepping_back_over_its_decision_finds_it_undecided() -> None:
    """A step back leads to just before the event, and before that it was close."""
    state = left("12")
    decided = after(state, Read({"x": "12"}))
    back = after(decided, StepBack(decided.past[-1].line.sequence))

    assert (back.undecided, back.past) == (state.undecided, state.past)


def test_a_further_reading_that_is_close_as_well_can_be_taken_back_alone() -> None:
    """Each was typed by itself, and each is an event."""
    once = left("12")
    decision = decide(once, Read({"x": "12; 12.5"}))
    assert not isinstance(decision, Refusal)
    twice = evolve(once, entry(once, decision[0]))
    back = after(twice, StepBack(twice.past[-1].line.sequence))

    assert (len(twice.past), back.undecided) == (1, once.undecided)


def test_notes_and_cautions_stand_at_the_line_that_decides() -> None:
    """What was acknowledged before and written during a close reading is told once, where it is settled."""
    step = """
        first:
          measure: How far?
          reading: {name: x, gauge: rule, unit: mm, plausible: [0, 300]}
          bands: [{upto: 12.5, then: ended}, {over: 12.5, then: ended}]
          cautions: [hot]
        """
    state = after(read(walk(tree(step))), Note("it drips"))
    decision = decide(state, Read({"x": "12"}))
    assert not isinstance(decision, Refusal)
    state = after(evolve(state, entry(state, decision[0])), Note("still"), Read({"x": "12"}))

    assert state.past[-1].line.remarks == ("Caution acknowledged: Hot parts", "Note: it drips", "Note: still")


def test_who_cannot_tell_leaves_it_undecided() -> None:
    """A close reading does not keep anybody from saying that it cannot be told."""
    state = after(left("12"), CannotTell("gauge broke"))

    assert (state.undecided, state.where, state.past[-1].line.answer) == (
        None,
        "ended",
        "Could not be done or told here: gauge broke",
    )


def test_it_fits_no_step_that_measures_nothing() -> None:
    """A record that says otherwise was never written by this walk."""
    event = left("12").undecided
    assert event is not None
    state = walk(tree("first: {do: Look., then: ended}\n"))

    with pytest.raises(ValueError, match="does not fit"):
        evolve(state, entry(state, event))


def test_a_close_reading_leaves_a_reminder_where_it_is() -> None:
    """What stepping back told of may still be so: nothing has been settled since."""
    steps = """
        first:
          measure: How far?
          reading: {name: x, gauge: rule, unit: mm, plausible: [0, 300]}
          bands: [{upto: 12.5, then: second}, {over: 12.5, then: second}]
        second: {do: Drive it., sets: [warm], then: ended}
        """
    state = after(walk(tree(steps)), Read({"x": "1"}), Confirm())
    back = after(state, StepBack(state.past[0].line.sequence))
    decision = decide(back, Read({"x": "12"}))
    assert not isinstance(decision, Refusal)

    assert back.reminders == ("warm",)
    assert evolve(back, entry(back, decision[0])).reminders == ("warm",)
