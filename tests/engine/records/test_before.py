"""A case that was written before readings knew how sure they made: byte by byte, it is still what it was."""

import json
from functools import cache
from pathlib import Path

from engine import api
from engine.records.chain import verify
from engine.records.codec import decode
from engine.records.event import Entry, Measured
from engine.records.memory import MemoryStore


@cache
def entries() -> tuple[Entry, ...]:
    """The entries as they stood in their store, in the one form in which an entry is written."""
    held = json.loads(Path(__file__).with_name("before.json").read_text("utf-8"))["entries"]
    told = (json.dumps(one, sort_keys=True, separators=(",", ":"), ensure_ascii=False) for one in held)
    return tuple(decode(one.encode()) for one in told)


def test_every_entry_has_the_hash_of_before() -> None:
    """Each is read, written as it was, and carries the hash of the one before it."""
    assert verify(entries()) == ()


def test_a_reading_of_before_says_nothing_of_what_was_not_known() -> None:
    """How sure it made was not reckoned then, and is not made up now."""
    read = entries()[1].event

    assert isinstance(read, Measured)
    assert (read.figure, read.probability, read.gauge, read.close) == ("11.9", "", "", False)


def test_it_walks_to_the_verdict_of_before() -> None:
    """11.9 mm of 12 mm is too close to call today; what was decided then stays decided."""
    store = MemoryStore()
    for entry in entries():
        store.append(entry)
    job = api.resume(store, "before")

    assert (job.state.accepted, api.prompt(job).where.step) == (True, "fine")
    assert "11.9 mm" in api.report(job)
