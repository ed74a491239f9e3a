"""Every kind of event, and how its fields stand in JSON: derived from the events' own declarations."""

from collections.abc import Callable, Mapping
from dataclasses import fields
from typing import Any, Final, NamedTuple

from engine.records import event as happened
from engine.records.event import Event

#: Every kind of event; the key `kind` of a record chooses among them.
EVENTS: Final[tuple[type[Event], ...]] = (
    happened.Opened,
    happened.Cautioned,
    happened.Done,
    happened.Answered,
    happened.Measured,
    happened.Undecided,
    happened.Unsure,
    happened.TakenBack,
    happened.Noted,
    happened.Concluded,
    happened.Followed,
    happened.Confirmed,
)
_KINDS: Final = {event.kind: event for event in EVENTS}


class Form(NamedTuple):
    """How a field of one type stands in JSON."""

    #: What a value of it is called in a message.
    called: str
    #: The value with every text made legible.
    legible: Callable[[Any], Any]
    #: Whether a JSON value is of this form.
    fits: Callable[[Any], bool]
    #: The field's value out of a JSON value that fits.
    read: Callable[[Any], Any]


def legible(text: str) -> str:
    r"""The text with each half of a character spelt out, as bytes that are no text reach us.

    Such halves can neither be written as UTF-8 nor be shown; spelt out, they lose nothing and harm nothing.

    >>> legible("tooth \udcff worn")
    'tooth \\udcff worn'
    """
    return text.encode("utf-8", "backslashreplace").decode("utf-8")


def _is_text(value: object) -> bool:
    return type(value) is str


_FORMS: Final[Mapping[Any, Form]] = {
    str: Form("text", legible, _is_text, str),
    int: Form("a whole number", int, lambda v: type(v) is int, int),
    bool: Form("true or false", bool, lambda v: type(v) is bool, bool),
    tuple[str, ...]: Form(
        "a list of texts",
        lambda v: tuple(legible(text) for text in v),
        lambda v: type(v) is list and all(map(_is_text, v)),
        tuple,
    ),
    Mapping[str, str]: Form(
        "texts by name",
        lambda v: {legible(name): legible(text) for name, text in v.items()},
        lambda v: type(v) is dict and all(map(_is_text, v.values())),
        dict,
    ),
}
#: Of every kind, each field with its form.
FIELDS: Final = {event.kind: {f.name: _FORMS[f.type] for f in fields(event)} for event in EVENTS}

#: Fields that a kind got after cases had been written, each with what it is where nothing is written: left
#: out then, so that those cases keep their hashes.
LATER: Final[Mapping[str, Mapping[str, Any]]] = {
    "answered": {"also": ""},
    "measured": {
        "probability": "",
        "uncertainty": "",
        "gauge": "",
        "close": False,
        "units": {},
        "also": "",
    },
    "undecided": {"units": {}, "also": ""},
}


def cleared(event: Event) -> Event:
    """The event with every text in it made legible."""
    forms = FIELDS[event.kind].items()
    return _KINDS[event.kind](**{name: form.legible(getattr(event, name)) for name, form in forms})


def told(event: Event) -> dict[str, Any]:
    """The event's fields by their names; those of later are left out where they say nothing."""
    values = {name: getattr(event, name) for name in FIELDS[event.kind]}
    later = LATER.get(event.kind, {})
    return {name: value for name, value in values.items() if name not in later or value != later[name]}


def built(kind: str, data: Mapping[str, Any]) -> Event:
    """The event out of fields that fit their forms."""
    return _KINDS[kind](
        **{name: form.read(data[name]) for name, form in FIELDS[kind].items() if name in data}
    )
