"""Entries as bytes and back: canonical JSON, sealed with SHA-256, so that nothing can change unseen.

Canonical means: sorted keys, no spaces, UTF-8, every character as itself where JSON allows it. There is then
one way to write an entry, and what is read must be written in exactly that way.
"""

import hashlib
import json
from collections.abc import Mapping
from dataclasses import replace
from json.encoder import encode_basestring as _text
from typing import Any, Final, NoReturn

from engine.errors import Damaged
from engine.plain import clean
from engine.records.event import Entry, Event
from engine.records.forms import FIELDS, LATER, built, cleared, legible, told

#: What stands as the hash of the entry before the first.
NOTHING_BEFORE: Final = "0" * 64

_CURE: Final = "`witnessmark cases rescue FILE --store NEW-FILE` saves what can still be read."
_PLACES: Final = {
    "case": str,
    "sequence": int,
    "at": str,
    "kind": str,
    "previous": str,
    "hash": str,
    "data": dict,
}
# a field that names texts may hold any mapping, so what is no dict is made one
_write: Final = json.JSONEncoder(
    sort_keys=True, separators=(",", ":"), ensure_ascii=False, allow_nan=False, default=dict
).encode


def seal(case: str, sequence: int, at: str, event: Event, previous: str) -> Entry:
    """The entry with its hash: SHA-256 over the canonical JSON of everything else in it.

    Texts that are not whole characters are spelt out first (see `legible`); work on with the event of the
    entry that is given back, which is the one that will be read again.
    """
    bare = Entry(case, sequence, at, event, previous)
    try:
        return replace(bare, hash=fingerprint(bare))
    except UnicodeEncodeError:
        return seal(legible(case), sequence, legible(at), cleared(event), legible(previous))


def fingerprint(entry: Entry) -> str:
    """The hash that the entry must carry. Raises UnicodeEncodeError for half a character."""
    return _hash(_halves(entry))


def encode(entry: Entry) -> bytes:
    """The entry as canonical JSON with its hash.

    Raises Damaged where the entry is not as `seal` made it: nothing is written that cannot be read.
    """
    name = f"Event {entry.sequence} of case {clean(entry.case, lines=False)}"
    try:
        halves = _halves(entry)
    except UnicodeEncodeError:
        _damaged(f"{name} holds half a character.")
    if _hash(halves) != entry.hash:
        _damaged(f"{name} does not match its hash.")
    return b'%b,"hash":"%b",%b' % (halves[0], entry.hash.encode(), halves[1])


def decode(stored: bytes) -> Entry:
    """The entry that these bytes are. Raises Damaged, in one sentence, for what `encode` never wrote."""
    entry = _entry(_object(stored))
    if encode(entry) != stored:
        _damaged(f"Event {entry.sequence} of case {clean(entry.case, lines=False)} was written otherwise.")
    return entry


def _halves(entry: Entry) -> tuple[bytes, bytes]:
    """The canonical JSON without the hash, parted where the order of the keys will put it."""
    # spelt out here, for an append waits for it; the tests hold it against the library's own sorting
    before = f'{{"at":{_text(entry.at)},"case":{_text(entry.case)},"data":{_write(told(entry.event))}'
    previous = _text(entry.previous)
    after = f'"kind":"{entry.event.kind}","previous":{previous},"sequence":{entry.sequence}}}'
    return before.encode(), after.encode()


def _hash(halves: tuple[bytes, bytes]) -> str:
    return hashlib.sha256(b",".join(halves)).hexdigest()


def _object(stored: bytes) -> dict[str, Any]:
    try:
        value = json.loads(stored.decode("utf-8"))
    except (ValueError, RecursionError):
        _damaged("A stored event is not JSON.")
    if type(value) is not dict:
        _damaged("A stored event is not a JSON object.")
    return value


def _entry(record: dict[str, Any]) -> Entry:
    _keys("A stored event", record, _PLACES)
    for name, type_ in _PLACES.items():
        if type(record[name]) is not type_:
            _damaged(f"A stored event has `{name}` of the wrong type.")
    kind, data = record["kind"], record["data"]
    if kind not in FIELDS:
        _damaged(f"A stored event is of the unknown kind `{clean(kind, lines=False)}`.")
    _keys(f"A stored event `{kind}`", LATER.get(kind, {}) | data, FIELDS[kind])
    for name, form in FIELDS[kind].items():
        if name in data and not form.fits(data[name]):
            _damaged(f"A stored event `{kind}` should have {form.called} as `{name}`.")
    places = record["case"], record["sequence"], record["at"]
    return Entry(*places, built(kind, data), record["previous"], record["hash"])


def _keys(what: str, found: Mapping[str, Any], expected: Mapping[str, Any]) -> None:
    if missing := sorted(expected.keys() - found.keys()):
        _damaged(f"{what} lacks `{missing[0]}`.")
    if extra := sorted(found.keys() - expected.keys()):
        _damaged(f"{what} has `{clean(extra[0], lines=False)}`, which is unknown.")


def _damaged(message: str) -> NoReturn:
    raise Damaged(message, _CURE)
