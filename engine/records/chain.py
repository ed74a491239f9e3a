"""The chain of a case: each entry numbered after the one before it and carrying its hash. Pure."""

from collections.abc import Iterator, Sequence
from typing import Final, NamedTuple

from engine.plain import clean
from engine.records.codec import NOTHING_BEFORE, fingerprint
from engine.records.event import Entry, Opened


class Tail(NamedTuple):
    """Where a chain ends: the number and the hash of its last entry."""

    sequence: int
    hash: str


#: The end of a chain that has no entry yet.
START: Final = Tail(0, NOTHING_BEFORE)


def verify(entries: Sequence[Entry]) -> tuple[str, ...]:
    """Every break in a case, a sentence each; empty where the chain is whole.

    What was cut off behind the last entry leaves no break: compare the last number with that of a copy.
    """
    breaks: list[str] = []
    tail = START
    for entry in entries:
        if entry.case != entries[0].case:
            breaks.append(
                f"Event {entry.sequence} belongs to another case, {clean(entry.case, lines=False)}."
            )
        breaks += _unsound(entry)
        breaks += misfits(tail, entry)
        tail = Tail(entry.sequence, entry.hash)
    return tuple(breaks)


def misfits(tail: Tail, entry: Entry) -> Iterator[str]:
    """Why an entry cannot stand behind the end of a chain, a sentence each."""
    expected = tail.sequence + 1
    if entry.sequence > expected:
        yield f"Event {entry.sequence} follows on {tail.sequence}: {_missing(expected, entry.sequence)}."
    elif entry.sequence < expected:
        yield f"Event {entry.sequence} follows on {tail.sequence}: a number is repeated."
    if entry.previous != tail.hash:
        yield f"Event {entry.sequence} does not carry the hash of the event before it."
    if tail == START and not isinstance(entry.event, Opened):
        yield f"The case begins with an event `{entry.event.kind}` and not with `opened`."


def _missing(first: int, after: int) -> str:
    return f"{first} is missing" if after == first + 1 else f"{first} to {after - 1} are missing"


def _unsound(entry: Entry) -> Iterator[str]:
    try:
        sound = fingerprint(entry) == entry.hash
    except UnicodeEncodeError:
        sound = False
    if not sound:
        yield f"Event {entry.sequence} does not match its own hash."
