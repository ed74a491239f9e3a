"""Every kind of event can be written, and half characters are spelt out."""

import inspect

import pytest
from hypothesis import given

from engine.records import event as happened
from engine.records.event import Entry, Event, Noted, Opened
from engine.records.forms import EVENTS, FIELDS, built, cleared, legible, told
from tests.engine.records.samples import EVERY, events, nasty, whole


def test_no_kind_of_event_is_missing() -> None:
    """Every class of the module with a kind of its own can be stored."""
    classes = [value for _, value in inspect.getmembers(happened, inspect.isclass) if hasattr(value, "kind")]

    assert set(EVENTS) == set(classes)


def test_the_registry_is_the_union() -> None:
    """What a store accepts is what the hints call an event."""
    assert set(EVENTS) == set(Event.__args__)


def test_kinds_are_unique() -> None:
    """A kind in a record means one class."""
    assert len(FIELDS) == len(EVENTS)


def test_an_entry_is_no_event() -> None:
    """Only what happened has a kind."""
    assert not hasattr(Entry, "kind")


def test_there_is_a_sample_of_every_kind() -> None:
    """The tests leave no kind out."""
    assert {type(event) for event in EVERY} == set(EVENTS)


@pytest.mark.parametrize("event", EVERY, ids=lambda event: event.kind)
def test_every_field_is_told(event: Event) -> None:
    """A record has the fields of its event, by the same names."""
    assert list(told(event)) == list(FIELDS[event.kind])


@given(events(whole))
def test_whole_texts_stay_as_they_are(event: Event) -> None:
    """Nothing is spelt out that can be written."""
    assert cleared(event) == event


@given(events(nasty))
def test_a_cleared_event_is_built_from_what_it_tells(event: Event) -> None:
    """Telling and building are each other's inverse."""
    clear = cleared(event)

    assert built(clear.kind, {name: _plain(value) for name, value in told(clear).items()}) == clear


def _plain(value: object) -> object:
    return list(value) if isinstance(value, tuple) else value


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("\udcff", r"\udcff"),
        ("\ud83d\ude00", r"\ud83d\ude00"),
        ("a\ud800b", r"a\ud800b"),
        ("😀 N·m \0", "😀 N·m \0"),
    ],
)
def test_half_a_character_is_spelt_out(text: str, expected: str) -> None:
    """A byte that was no text can still be told from another one."""
    assert legible(text) == expected


def test_every_text_of_an_event_is_cleared() -> None:
    """Names and texts of a mapping are cleared as any other text."""
    event = Opened("\udc80", "x", {"\udc81": "\udc82"}, "")

    assert cleared(event) == Opened(r"\udc80", "x", {r"\udc81": r"\udc82"}, "")


def test_a_clear_event_is_of_the_same_kind() -> None:
    """A note stays a note."""
    assert cleared(Noted("lift", "\udcff")) == Noted("lift", r"\udcff")
