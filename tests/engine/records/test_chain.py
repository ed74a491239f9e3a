"""Every way in which the chain of a case can break is named."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.records.chain import START, Tail, misfits, verify
from engine.records.codec import NOTHING_BEFORE, seal
from engine.records.event import Entry, Noted
from tests.engine.records.samples import AT, EVERY, OPENED, chain, notes

WHOLE = chain("k7qdx", *EVERY)
OTHER = notes("b2mzr", 4)


@pytest.mark.parametrize("length", range(len(WHOLE) + 1))
def test_a_case_as_it_was_written_is_whole(length: int) -> None:
    """A case has no break at any time of its life."""
    assert verify(WHOLE[:length]) == ()


BREAKS = {
    "other content": (
        (WHOLE[0], replace(WHOLE[1], event=Noted("lift", "")), WHOLE[2]),
        ("Event 2 does not match its own hash.",),
    ),
    "half a character": (
        (WHOLE[0], replace(WHOLE[1], event=Noted("lift", "\udcff")), WHOLE[2]),
        ("Event 2 does not match its own hash.",),
    ),
    "other content, sealed again": (
        (WHOLE[0], seal("k7qdx", 2, AT, Noted("lift", ""), WHOLE[0].hash), WHOLE[2]),
        ("Event 3 does not carry the hash of the event before it.",),
    ),
    "one lost": (
        (WHOLE[0], *WHOLE[2:]),
        (
            "Event 3 follows on 1: 2 is missing.",
            "Event 3 does not carry the hash of the event before it.",
        ),
    ),
    "several lost": (
        (WHOLE[0], *WHOLE[4:]),
        (
            "Event 5 follows on 1: 2 to 4 are missing.",
            "Event 5 does not carry the hash of the event before it.",
        ),
    ),
    "one twice": (
        (*WHOLE[:2], WHOLE[1], *WHOLE[2:]),
        (
            "Event 2 follows on 2: a number is repeated.",
            "Event 2 does not carry the hash of the event before it.",
        ),
    ),
    "one lost and sealed again": (
        (WHOLE[0], seal("k7qdx", 3, AT, EVERY[2], WHOLE[0].hash)),
        ("Event 3 follows on 1: 2 is missing.",),
    ),
    "the first lost": (
        WHOLE[1:],
        (
            "Event 2 follows on 0: 1 is missing.",
            "Event 2 does not carry the hash of the event before it.",
            "The case begins with an event `cautioned` and not with `opened`.",
        ),
    ),
    "another beginning": (
        chain("k7qdx", *EVERY[1:]),
        ("The case begins with an event `cautioned` and not with `opened`.",),
    ),
    "something before the first": (
        (seal("k7qdx", 1, AT, OPENED, "1" * 64),),
        ("Event 1 does not carry the hash of the event before it.",),
    ),
    "another case": (
        (WHOLE[0], seal("b2mzr", 2, AT, EVERY[1], WHOLE[0].hash)),
        ("Event 2 belongs to another case, b2mzr.",),
    ),
}


@pytest.mark.parametrize(("entries", "sentences"), BREAKS.values(), ids=BREAKS)
def test_a_break_is_named(entries: tuple[Entry, ...], sentences: tuple[str, ...]) -> None:
    """Each break is a sentence with the number of the event."""
    assert verify(entries) == sentences


@given(st.permutations(WHOLE[:5]))
def test_any_other_order_breaks(order: list[Entry]) -> None:
    """Only the order in which they were written is whole."""
    assert (verify(order) == ()) == (tuple(order) == WHOLE[:5])


@given(st.sets(st.integers(1, len(WHOLE)), min_size=1))
def test_any_gap_breaks(kept: set[int]) -> None:
    """Whatever is taken out, but for the end, leaves a break."""
    entries = tuple(entry for entry in WHOLE if entry.sequence in kept)

    assert (verify(entries) == ()) == (kept == set(range(1, len(kept) + 1)))


@given(st.integers(1, len(WHOLE)), st.text(), st.text())
def test_any_event_rewritten_breaks(number: int, step: str, text: str) -> None:
    """Whoever rewrites an event, and even seals it again, breaks the case, but for the last event."""
    before = WHOLE[number - 1]
    forged = seal(before.case, number, before.at, Noted(step, text), before.previous)

    broken = verify((*WHOLE[: number - 1], forged, *WHOLE[number:]))

    assert bool(broken) == (number < len(WHOLE) or number == 1)


def test_breaks_of_several_kinds_are_all_named() -> None:
    """The second break is not hidden by the first."""
    entries = (WHOLE[0], replace(WHOLE[1], at=""), WHOLE[3], replace(OTHER[3], previous=""))

    assert [sentence.split(" ")[1] for sentence in verify(entries)] == ["2", "4", "4", "4", "4", "4", "4"]


def test_the_start_of_a_chain_takes_an_opening() -> None:
    """An opened case stands behind nothing."""
    assert list(misfits(START, WHOLE[0])) == []


def test_an_entry_stands_behind_the_one_before() -> None:
    """The number and the hash of the last entry are all that is needed to judge the next."""
    assert list(misfits(Tail(1, WHOLE[0].hash), WHOLE[1])) == []


def test_nothing_before_is_no_hash_of_anything() -> None:
    """The zeros before the first entry have the length of a hash."""
    assert len(NOTHING_BEFORE) == len(WHOLE[0].hash)
