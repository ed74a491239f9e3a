"""What every store of cases must do. One contract test holds each of them to it."""

from collections.abc import Mapping
from typing import Protocol

from engine.errors import Conflict, Damaged
from engine.plain import clean
from engine.records.chain import Tail, misfits
from engine.records.event import Entry


class Store(Protocol):
    """Keeps the entries of cases: they are added at the end, read, and never changed.

    Several windows may work on one store, and several threads may share one object. Besides what is named
    below, any method may raise a StoreFailure, with the store left as it was.
    """

    def append(self, entry: Entry) -> None:
        """Keep an entry; when this returns it is durable.

        The identical entry may be given again, which changes nothing. Raises Conflict where the case has
        other content at this number, Damaged for an entry that `seal` did not make or that does not stand
        behind the last one of its case (a gap, another entry before it, a case not opened), Full where there
        is no room, NotWritable where nothing may be written.
        """

    def read(self, case: str) -> tuple[Entry, ...]:
        """The entries of a case in their order; empty where there is no such case.

        Raises Damaged where one of them is not what was written. Whether all are there tells `verify`.
        """

    def cases(self) -> tuple[str, ...]:
        """The name of every case, sorted."""

    def heads(self) -> Mapping[str, int]:
        """The number of the last entry of every case.

        Cheap: a second window may ask every second whether there is something new.
        """

    def close(self) -> None:
        """Let go of the store; harmless when done twice. Nothing is saved here: everything already is."""


def settle(entry: Entry, tail: Tail, stored: bytes, kept: bytes | None) -> bool:
    """Whether an entry is still to be written behind the end of its case; false where it is there already.

    `stored` is what would be written, `kept` what the store has at the entry's number. Raises as `append`.
    """
    if kept == stored:
        return False
    if kept is not None:
        raise Conflict(entry.case, entry.sequence)
    for sentence in misfits(tail, entry):
        raise Damaged(
            f"Case {clean(entry.case, lines=False)} cannot go on: {sentence[0].lower()}{sentence[1:]}",
            "Open the case again to see how far the store has it.",
        )
    return True
