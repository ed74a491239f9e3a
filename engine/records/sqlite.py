"""The store on disk: one SQLite file, each entry durable before `append` returns.

An append is one INSERT in a transaction of its own, with `synchronous=FULL`. Rows are only ever added: what
was seen once of a case stays true, and the numbers of the rows tell what is new.
"""

import os
import sqlite3
from collections.abc import Iterator, Mapping
from contextlib import closing, contextmanager, suppress
from pathlib import Path
from threading import Lock
from typing import Any, Final

from engine.errors import Damaged, StoreFailure
from engine.plain import clean
from engine.records import trouble
from engine.records.chain import START, Tail
from engine.records.codec import decode, encode
from engine.records.event import Entry
from engine.records.forms import legible
from engine.records.share import shared
from engine.records.store import settle

#: "WMrk": tells our files from those of other programs.
APPLICATION: Final = 0x574D726B
#: The version of the table; a file with a higher one is of a newer program.
VERSION: Final = 1
#: What `remark` says of a file that cannot have a write-ahead log.
SLOWER: Final = "The cases lie on a network share: each event takes longer to write there."

_TABLE: Final = """\
CREATE TABLE entries (
  id INTEGER PRIMARY KEY, "case" TEXT NOT NULL, sequence INTEGER NOT NULL, entry BLOB NOT NULL,
  UNIQUE ("case", sequence)
)"""
_INSERT: Final = 'INSERT INTO entries ("case", sequence, entry) VALUES (?, ?, ?)'
_ONE: Final = 'SELECT sequence, entry FROM entries WHERE "case" = ? AND sequence = ?'
_LAST: Final = 'SELECT sequence, entry FROM entries WHERE "case" = ? ORDER BY sequence DESC LIMIT 1'
_ALL: Final = 'SELECT sequence, entry FROM entries WHERE "case" = ? ORDER BY sequence'
_SINCE: Final = 'SELECT id, "case", sequence FROM entries WHERE id > ? ORDER BY id'
_HEADS: Final = 'SELECT "case", max(sequence) FROM entries GROUP BY "case"'


class SqliteStore:
    """Cases in one file, made on first use and private to its owner; see Store for what it does.

    `patience` is how many seconds to wait for another program that writes. Raises a StoreFailure where the
    file cannot be opened, or is another program's or a newer one's.
    """

    def __init__(self, path: Path, *, patience: float = 5.0) -> None:
        self.path = path.absolute()
        self._lock = Lock()
        self._tails: dict[str, Tail] = {}
        self._heads: dict[str, int] = {}
        self._seen = 0
        with self._failures():
            _make_private(self.path)
            self._connection = _connect(self.path, patience)
            try:
                journal = _prepare(self._connection, self.path)
            except BaseException:
                self._connection.close()
                raise
        #: What the user should know of where the cases lie; most often empty.
        self.remark = "" if journal == "wal" else SLOWER

    def append(self, entry: Entry) -> None:
        """Keep an entry; see Store."""
        stored = encode(entry)
        with self._lock, self._failures():
            # where we know the end of the case, the INSERT alone decides; else look first
            known = self._tails.get(entry.case) == (entry.sequence - 1, entry.previous)
            if not known and not self._settle(entry, stored):
                return
            try:
                self._connection.execute(_INSERT, (entry.case, entry.sequence, stored))
            except sqlite3.IntegrityError:
                # another window was quicker; where it wrote the same, nothing is lost
                self._settle(entry, stored)
            self._tails[entry.case] = Tail(entry.sequence, entry.hash)

    def read(self, case: str) -> tuple[Entry, ...]:
        """The entries of a case; see Store."""
        if legible(case) != case:
            return ()
        with self._lock, self._failures():
            return tuple(self._entry(case, row) for row in self._rows(_ALL, case))

    def cases(self) -> tuple[str, ...]:
        """The name of every case, sorted."""
        return tuple(sorted(self.heads()))

    def heads(self) -> Mapping[str, int]:
        """The number of the last entry of every case; only what came since the last call is read."""
        with self._lock, self._failures():
            if not self._seen:
                seen = self._rows("SELECT max(id) FROM entries")[0][0]
                self._heads = {case: self._number(last) for case, last in self._rows(_HEADS)}
                self._seen = self._number(seen or 0)
            for number, case, sequence in self._rows(_SINCE, self._seen):
                self._heads[case] = self._number(sequence)
                self._seen = number
            return dict(self._heads)

    def close(self) -> None:
        """Let go of the file; see Store."""
        with self._lock, self._failures():
            self._connection.close()

    def _settle(self, entry: Entry, stored: bytes) -> bool:
        last = [self._entry(entry.case, row) for row in self._rows(_LAST, entry.case)]
        tail = Tail(last[0].sequence, last[0].hash) if last else START
        kept: list[Any] = []
        if 0 < entry.sequence <= tail.sequence:
            kept = self._rows(_ONE, entry.case, entry.sequence)
        return settle(entry, tail, stored, kept[0][1] if kept else None)

    def _entry(self, case: str, row: tuple[Any, Any]) -> Entry:
        """The entry of a row, which must be what the row's key says. Raises Damaged where it is not."""
        sequence, stored = row
        try:
            entry = decode(stored if isinstance(stored, bytes) else b"")
        except Damaged as damage:
            raise self._damaged(case, sequence, damage.message) from damage
        if (entry.case, entry.sequence) != (case, sequence):
            raise self._damaged(case, sequence, "It lies in the place of another event.")
        return entry

    def _damaged(self, case: str, sequence: object, why: str) -> Damaged:
        name = f"event {sequence} of case {clean(case, lines=False)}"
        where = f"In {trouble.shown(self.path)}, {name} is damaged. {why}"
        return Damaged(where, trouble.damaged(self.path).cure)

    def _number(self, value: object) -> int:
        if type(value) is not int:
            raise trouble.damaged(self.path)
        return value

    def _rows(self, statement: str, *values: object) -> list[Any]:
        return self._connection.execute(statement, values).fetchall()

    @contextmanager
    def _failures(self) -> Iterator[None]:
        """Tell what SQLite or the system cannot do as a failure with its cure."""
        try:
            yield
        except sqlite3.Error as error:
            if isinstance(error, sqlite3.ProgrammingError):
                raise
            # a text that is no UTF-8 has no code: it is the module that cannot read it
            code = getattr(error, "sqlite_errorcode", trouble.CORRUPT)
            raise trouble.of_sqlite(self.path, code, str(error)) from error
        except OSError as error:
            raise trouble.of_system(self.path, error) from error


def play_back(copy: Path) -> None:
    """Let SQLite play the journals beside a copy back into it, as far as it can; the copy may be damaged."""
    with suppress(sqlite3.Error), closing(_connect(copy, 0)) as connection:
        # reading plays a rollback journal back, closing a write-ahead log
        connection.execute("SELECT count(*) FROM sqlite_schema").fetchone()


def _make_private(path: Path) -> None:
    path.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
    if not path.exists():
        # SQLite would let everybody read it; the files beside it take their mode from it
        os.close(os.open(path, os.O_RDWR | os.O_CREAT, 0o600))


def _connect(path: Path, patience: float) -> sqlite3.Connection:
    connection = sqlite3.connect(path, timeout=patience, isolation_level=None, check_same_thread=False)
    connection.execute("PRAGMA synchronous = FULL")
    return connection


def _prepare(connection: sqlite3.Connection, path: Path) -> str:
    """See that the file is ours, or make it so; gives its way of keeping a journal."""
    new = _is_new(connection)
    if not new:
        _check(connection, path)
    journal = _journal(connection, "delete" if shared(path) else "wal")
    if new:
        _create(connection)
    return journal


def _is_new(connection: sqlite3.Connection) -> bool:
    return not any(
        connection.execute(question).fetchone()[0]
        for question in ("PRAGMA user_version", "PRAGMA application_id", "SELECT count(*) FROM sqlite_schema")
    )


def _check(connection: sqlite3.Connection, path: Path) -> None:
    if connection.execute("PRAGMA application_id").fetchone()[0] != APPLICATION:
        message = f"{trouble.shown(path)} is a database of another program."
        raise StoreFailure(message, "Name another file with --store; this one was not touched.")
    version = connection.execute("PRAGMA user_version").fetchone()[0]
    if version > VERSION:
        message = (
            f"{trouble.shown(path)} was written by a newer version (format {version}, known is {VERSION})."
        )
        raise StoreFailure(message, "Bring this program up to date; the file was not touched.")


def _journal(connection: sqlite3.Connection, wanted: str) -> str:
    kept = str(connection.execute("PRAGMA journal_mode").fetchone()[0])
    if kept != wanted:
        kept = str(connection.execute(f"PRAGMA journal_mode = {wanted}").fetchone()[0])
    return kept


def _create(connection: sqlite3.Connection) -> None:
    connection.execute("BEGIN IMMEDIATE")
    try:
        # another window may have made it while we waited
        if _is_new(connection):
            connection.execute(_TABLE)
            connection.execute(f"PRAGMA application_id = {APPLICATION}")
            connection.execute(f"PRAGMA user_version = {VERSION}")
        connection.execute("COMMIT")
    except BaseException:
        if connection.in_transaction:
            connection.execute("ROLLBACK")
        raise
