"""Entries as canonical JSON and back, and everything that is not what was written."""

import hashlib
import json
from dataclasses import replace
from types import MappingProxyType
from typing import Any

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from engine.errors import Damaged
from engine.records.codec import NOTHING_BEFORE, decode, encode, seal
from engine.records.event import Answered, Entry, Noted
from engine.records.forms import told
from tests.engine.records.samples import AT, EVERY, OPENED, chain, entries, nasty, whole

CASE = chain("2026-03-05-k7qdx", *EVERY)
NOTE = seal("k7qdx", 1, AT, Noted("lift", "ölig"), NOTHING_BEFORE)


def written(record: object) -> bytes:
    """A record in canonical JSON, with the library's own words for it."""
    return json.dumps(
        record, sort_keys=True, separators=(",", ":"), ensure_ascii=False, allow_nan=False
    ).encode()


def resealed(record: dict[str, Any]) -> bytes:
    """A record with a hash that matches, so that only what else is wrong with it can be found."""
    bare = {name: value for name, value in record.items() if name != "hash"}
    return written({**bare, "hash": hashlib.sha256(written(bare)).hexdigest()})


def record(**changes: object) -> dict[str, Any]:
    """The record of a note, with changes."""
    return {**json.loads(encode(NOTE)), **changes}


@given(entries(nasty))
def test_what_is_sealed_is_read_again(entry: Entry) -> None:
    """Any event with any text in it comes back exactly as it was sealed."""
    assert decode(encode(entry)) == entry


def test_any_mapping_is_written() -> None:
    """Texts by name may stand in a mapping that cannot be changed; it is read again as an equal one."""
    event = replace(OPENED, documents=MappingProxyType(dict(OPENED.documents)))

    assert decode(encode(seal("k7qdx", 1, AT, event, NOTHING_BEFORE))).event == OPENED


@given(entries(nasty))
@example(seal("k7qdx", 1, AT, Noted("lift", "\ud83d\ude00 \udcff"), NOTHING_BEFORE))
def test_what_is_stored_is_canonical(entry: Entry) -> None:
    """The bytes are UTF-8 with sorted keys and no spaces, by the judgement of the standard library."""
    stored = encode(entry)

    assert stored == written(json.loads(stored.decode("utf-8")))


@given(entries(whole))
def test_the_hash_is_sha_256_over_the_rest(entry: Entry) -> None:
    """Anybody can check the hash with a JSON library and SHA-256."""
    told = json.loads(encode(entry))

    assert resealed(told) == encode(entry)
    assert set(told) == {"case", "sequence", "at", "kind", "data", "previous", "hash"}


def test_a_hash_that_was_worked_out_elsewhere() -> None:
    """The record of a short note and its hash, as printf and sha256sum have them."""
    bare = (
        '{"at":"2026-03-05T08:30:00+01:00","case":"k7qdx","data":{"step":"lift","text":"ölig"},'
        f'"kind":"noted","previous":"{NOTHING_BEFORE}","sequence":1}}'
    )

    assert NOTE.hash == "6657980772ae4e380e53c2a6ee9036ab0a8cb776835fb966bcb8994a22f4e5f2"
    assert encode(NOTE).decode() == bare.replace(',"kind"', f',"hash":"{NOTE.hash}","kind"')


@pytest.mark.parametrize("entry", CASE, ids=lambda entry: entry.event.kind)
def test_any_byte_changed_is_found(entry: Entry) -> None:
    """Of a stored entry no byte can be changed to any neighbouring value, or to its opposite, unseen."""
    stored = encode(entry)
    for place in range(len(stored)):
        for mask in (0x01, 0x02, 0x04, 0x08, 0x10, 0x20, 0x40, 0x80, 0xFF):
            changed = bytearray(stored)
            changed[place] ^= mask
            with pytest.raises(Damaged):
                decode(bytes(changed))


@pytest.mark.parametrize("entry", CASE, ids=lambda entry: entry.event.kind)
def test_any_byte_lost_is_found(entry: Entry) -> None:
    """Of a stored entry no byte can be missing, nor anything behind it."""
    stored = encode(entry)
    for place in range(len(stored)):
        for left in (stored[:place], stored[:place] + stored[place + 1 :]):
            with pytest.raises(Damaged):
                decode(left)


@given(st.binary())
def test_bytes_that_are_no_entry_are_damaged(stored: bytes) -> None:
    """Whatever lies in a store, reading it raises one kind of failure."""
    with pytest.raises(Damaged):
        decode(stored)


@given(
    st.recursive(
        st.none() | st.booleans() | st.integers() | st.floats(allow_nan=False, allow_infinity=False) | whole,
        lambda inner: st.lists(inner, max_size=3) | st.dictionaries(whole, inner, max_size=3),
        max_leaves=6,
    ),
    st.sampled_from(["case", "sequence", "at", "kind", "data", "previous", "hash"]),
)
def test_any_other_value_in_a_place_is_damaged(value: object, name: str) -> None:
    """A record with anything else in one of its places is no record."""
    told = record()
    if told[name] == value and type(told[name]) is type(value):
        return

    with pytest.raises(Damaged):
        decode(written({**told, name: value}))


WRONG = {
    "an unknown kind": (resealed(record(kind="guessed")), "unknown kind `guessed`"),
    "a missing field": (resealed(record(data={"step": "lift"})), "lacks `text`"),
    "an extra field": (
        resealed(record(data={"step": "a", "text": "b", "more": "c"})),
        "`more`, which is unknown",
    ),
    "a number for a text": (resealed(record(data={"step": "lift", "text": 1})), "should have text as `text`"),
    "nothing for a text": (
        resealed(record(data={"step": "lift", "text": None})),
        "should have text as `text`",
    ),
    "a text for a number": (
        resealed(record(kind="answered", data={"step": "a", "answer": "0", "say": "b"})),
        "a whole number as `answer`",
    ),
    "true for a number": (
        resealed(record(kind="answered", data={"step": "a", "answer": True, "say": "b"})),
        "a whole number as `answer`",
    ),
    "a fraction for a number": (
        resealed(record(kind="answered", data={"step": "a", "answer": 1.0, "say": "b"})),
        "a whole number as `answer`",
    ),
    "a number for true": (
        resealed(record(kind="confirmed", data={"fixed": 1, "cause": "", "remark": ""})),
        "true or false as `fixed`",
    ),
    "a text for a list": (
        resealed(
            record(
                kind="concluded",
                data={"step": "", "verdict": "", "suspects": "ab", "grade": "", "correction": ""},
            )
        ),
        "a list of texts as `suspects`",
    ),
    "numbers in a list of texts": (
        resealed(
            record(
                kind="concluded",
                data={"step": "", "verdict": "", "suspects": [1], "grade": "", "correction": ""},
            )
        ),
        "a list of texts as `suspects`",
    ),
    "a number among texts by name": (
        resealed(record(kind="opened", data={**told(OPENED), "documents": {"a.yaml": 1}})),
        "should have texts by name as `documents`",
    ),
    "a list for texts by name": (
        resealed(record(kind="opened", data={**told(OPENED), "documents": ["a.yaml"]})),
        "should have texts by name as `documents`",
    ),
    "a missing place": (written({k: v for k, v in record().items() if k != "at"}), "lacks `at`"),
    "an extra place": (resealed(record(more=1)), "`more`, which is unknown"),
    "a text for the number": (resealed(record(sequence="1")), "`sequence` of the wrong type"),
    "true for the number of the entry": (resealed(record(sequence=True)), "`sequence` of the wrong type"),
    "a list for the data": (resealed(record(data=[])), "`data` of the wrong type"),
    "another hash": (written(record(hash="0" * 64)), "does not match its hash"),
    "no hash": (written(record(hash="")), "does not match its hash"),
    "other content": (written(record(case="k7qdy")), "does not match its hash"),
    "a space": (encode(NOTE).replace(b'"case":', b'"case": '), "was written otherwise"),
    "a key twice": (encode(NOTE).replace(b'{"at"', b'{"at":"","at"'), "was written otherwise"),
    "an escape that was not needed": (
        encode(NOTE).replace("ö".encode(), rb"\u00f6"),
        "was written otherwise",
    ),
    "half a character": (encode(NOTE).replace("ö".encode(), rb"\udcff"), "half a character"),
    "a list": (b"[]", "not a JSON object"),
    "nothing": (b"", "not JSON"),
    "no UTF-8": (b"\xff", "not JSON"),
    "UTF-16": (encode(NOTE).decode().encode("utf-16"), "not JSON"),
    "a depth without end": (b"[" * 100_000, "not JSON"),
    "a number without end": (b"1" * 10_000, "not JSON"),
    "not a number": (b"NaN", "not a JSON object"),
}


@pytest.mark.parametrize(("stored", "words"), WRONG.values(), ids=WRONG)
def test_what_is_wrong_is_said(stored: bytes, words: str) -> None:
    """Damage is told in one sentence that names it, with its cure."""
    with pytest.raises(Damaged) as caught:
        decode(stored)

    assert words in caught.value.message
    assert caught.value.message.count(". ") == 0
    assert "rescue" in caught.value.cure


def test_names_out_of_a_damaged_entry_cannot_steer_a_terminal() -> None:
    """A kind that holds an escape sequence is shown, not obeyed."""
    with pytest.raises(Damaged) as caught:
        decode(resealed(record(kind="\x1b[31m")))

    assert "\x1b" not in str(caught.value)


@pytest.mark.parametrize(
    "entry",
    [
        replace(NOTE, hash=""),
        replace(NOTE, sequence=2),
        replace(NOTE, event=Noted("lift", "trocken")),
        replace(NOTE, event=Answered("lift", 0, "ölig")),
        replace(NOTE, event=Noted("lift", "\udcff")),
    ],
)
def test_only_what_was_sealed_is_written(entry: Entry) -> None:
    """An entry that could not be read again is refused before it is stored."""
    with pytest.raises(Damaged):
        encode(entry)
