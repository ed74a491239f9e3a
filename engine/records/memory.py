"""A store in memory: for rehearsals and tests, gone with the program."""

from collections.abc import Mapping
from threading import Lock

from engine.records.chain import START, Tail
from engine.records.codec import decode, encode
from engine.records.event import Entry
from engine.records.store import settle


class MemoryStore:
    """Keeps the same bytes as the store on disk, so that it accepts and gives exactly the same."""

    def __init__(self) -> None:
        self._lock = Lock()
        self._cases: dict[str, list[bytes]] = {}
        self._tails: dict[str, Tail] = {}

    def append(self, entry: Entry) -> None:
        """Keep an entry; see Store."""
        stored = encode(entry)
        with self._lock:
            rows = self._cases.get(entry.case, [])
            kept = rows[entry.sequence - 1] if 0 < entry.sequence <= len(rows) else None
            if settle(entry, self._tails.get(entry.case, START), stored, kept):
                self._cases.setdefault(entry.case, []).append(stored)
                self._tails[entry.case] = Tail(entry.sequence, entry.hash)

    def read(self, case: str) -> tuple[Entry, ...]:
        """The entries of a case; see Store."""
        with self._lock:
            rows = tuple(self._cases.get(case, ()))
        return tuple(map(decode, rows))

    def cases(self) -> tuple[str, ...]:
        """The name of every case, sorted."""
        return tuple(sorted(self.heads()))

    def heads(self) -> Mapping[str, int]:
        """The number of the last entry of every case."""
        with self._lock:
            return {case: tail.sequence for case, tail in self._tails.items()}

    def close(self) -> None:
        """Nothing to let go of."""
