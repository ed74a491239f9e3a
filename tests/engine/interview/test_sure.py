"""Readings near a limit: too close to call, what would decide, and the technician's last word."""

from dataclasses import replace
from typing import Final

import pytest

from engine.errors import Refusal
from engine.interview.command import Read
from engine.interview.decide import decide
from engine.records.codec import decode, encode, seal
from engine.records.event import Measured
from tests.engine.interview.given import made, measuring, refused

BANDS: Final = "{upto: 12.5, then: ended}, {over: 12.5, then: other}"


def asked(typed: str, bands: str = BANDS) -> str:
    """What is said to a reading with the steel rule that decides nothing."""
    refusal = refused(measuring(bands, unit="mm", gauge="rule"), Read({"x": typed}))
    assert (refusal.kind, refusal.insist) == ("too-close", True)
    return str(refusal)


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
    """Half a millimetre takes 0.5/1.645 = 0.304 mm: a gauge that scatters by its step of 0.3 mm."""
    assert "use a gauge good to 0.3 mm" in asked("12")


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
    command = Read({"x": "12"}, insist=True)

    assert refused(measuring(BANDS, unit="mm", gauge="rule"), command).kind == "too-close"


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
