"""A case as one JSON document, held to its schema by both validators."""

import json
from collections.abc import Mapping
from dataclasses import fields
from typing import Any

import pytest
from hypothesis import given, settings

from engine import api
from engine.errors import Failure
from engine.records.codec import decode
from engine.records.event import Entry, Event
from engine.records.export import export
from engine.records.forms import EVENTS, LATER, told
from engine.records.memory import MemoryStore
from tests.engine.records.samples import EVERY, OPENED, chain, events, whole
from tests.schema_files import FILES, decided, explained, resolved

SCHEMA = "case.schema.json"
CASE = chain("k7qdx", *EVERY)
DATA = {kind.kind: FILES[SCHEMA]["$defs"][kind.kind] for kind in EVENTS}
#: How the schema says what the type of a field is.
TYPES: dict[Any, str] = {
    str: "string",
    int: "integer",
    bool: "boolean",
    tuple[str, ...]: "array",
    Mapping[str, str]: "object",
}


def exported() -> Any:
    """A case with an event of every kind, as it is exported."""
    return export(CASE)


def wrong(document: Any) -> set[str]:
    """Where a document breaks the schema; both validators agree."""
    found = explained(SCHEMA, document)
    assert bool(decided(SCHEMA, document)) == bool(found)
    return found


def test_a_case_with_every_kind_of_event_keeps_the_schema() -> None:
    """What is exported is what the schema promises."""
    assert wrong(exported()) == set()


def test_what_a_walk_writes_keeps_the_schema() -> None:
    """A case that was opened on the shipped library is exported by the schema too."""
    store = MemoryStore()
    job = api.open_job(store, api.library(), "no-rear-drive", "fellside", label="Order 118")

    assert wrong(export(store.read(job.case))) == set()


def test_the_document_names_the_case_and_its_format() -> None:
    """The frame around the entries."""
    document = exported()

    assert (document["case"], document["format"], len(document["entries"])) == ("k7qdx", 1, len(EVERY))
    assert list(document) == ["case", "format", "entries"]


def test_the_entries_are_read_again() -> None:
    """An exported entry, written with sorted keys and no spaces, is the stored one, hash and all."""
    written = [
        json.dumps(entry, sort_keys=True, separators=(",", ":"), ensure_ascii=False).encode()
        for entry in exported()["entries"]
    ]

    assert tuple(map(decode, written)) == CASE


def test_the_example_of_the_schema_is_a_true_entry() -> None:
    """Whoever tries the hash on the schema's own example finds it right."""
    example = FILES[SCHEMA]["examples"][0]["entries"][0]
    written = json.dumps(example, sort_keys=True, separators=(",", ":"), ensure_ascii=False).encode()

    assert decode(written).event == OPENED.__class__(**example["data"])


def test_nothing_is_exported_of_nothing() -> None:
    """A case that is not there has no document."""
    with pytest.raises(Failure, match="without events"):
        export(())


def test_the_schema_knows_every_kind() -> None:
    """The kinds of the schema are those that can be stored."""
    assert FILES[SCHEMA]["$defs"]["entry"]["properties"]["kind"]["enum"] == [kind.kind for kind in EVENTS]


@pytest.mark.parametrize("kind", EVENTS, ids=lambda kind: kind.kind)
def test_the_schema_knows_every_field(kind: type[Event]) -> None:
    """Each field of an event is in the schema with its type, needed unless it came later, and no other is."""
    schema = DATA[kind.kind]
    types = {name: resolved(SCHEMA, inner)[1]["type"] for name, inner in schema["properties"].items()}

    assert types == {field.name: TYPES[field.type] for field in fields(kind)}
    assert schema["required"] == [name for name in types if name not in LATER.get(kind.kind, {})]
    assert schema["additionalProperties"] is False


@pytest.mark.parametrize("number", range(len(EVERY)), ids=[event.kind for event in EVERY])
@pytest.mark.parametrize("change", ["more", "less", "type", "kind"])
def test_a_wrong_event_is_placed(number: int, change: str) -> None:
    """A fault in one event is found in that event, by the fields of its kind."""
    document = exported()
    entry = document["entries"][number]
    name = next(name for name in entry["data"] if name not in LATER.get(entry["kind"], {}))
    if change == "more":
        entry["data"]["more"] = "text"
    elif change == "less":
        del entry["data"][name]
    elif change == "type":
        entry["data"][name] = None
    else:
        entry["kind"] = "done" if entry["kind"] != "done" else "followed"

    places = wrong(document)

    assert places
    assert all(place.startswith(f"entries/{number}/data") for place in places)


@pytest.mark.parametrize(
    ("name", "value"),
    [
        ("sequence", 0),
        ("sequence", 1.5),
        ("at", "yesterday"),
        ("at", "2026-03-05T08:30:00"),
        ("at", "2026-03-05T08:30:00+01:00\n"),
        ("kind", "guessed"),
        ("previous", ""),
        ("hash", "A" * 64),
        ("data", []),
        ("more", 1),
    ],
)
def test_a_wrong_place_is_found(name: str, value: object) -> None:
    """What frames an event is checked as well."""
    document = exported()
    document["entries"][1][name] = value

    assert wrong(document) == {f"entries/1/{name}" if name != "more" else "entries/1"}


@pytest.mark.parametrize("change", [{"format": 2}, {"entries": []}, {"case": 5}, {"more": 1}])
def test_a_wrong_frame_is_found(change: dict[str, object]) -> None:
    """The frame has its fields and no others."""
    assert wrong({**exported(), **change})


@settings(max_examples=60)
@given(events(whole))
def test_any_event_of_any_text_keeps_the_schema(event: Event) -> None:
    """The schema asks nothing of texts that a store would not."""
    entries: tuple[Entry, ...] = chain("k7qdx", event)
    numbers = [
        value for value in told(event).values() if isinstance(value, int) and not isinstance(value, bool)
    ]

    assert bool(wrong(export(entries))) == any(value < (event.kind == "taken-back") for value in numbers)
