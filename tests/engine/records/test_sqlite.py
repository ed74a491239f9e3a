"""The store on disk: what it makes, what it turns away, and how it fails."""

import sqlite3
import stat
import subprocess
import sys
from collections.abc import Callable, Iterator
from contextlib import closing
from pathlib import Path

import pytest

from engine.errors import Damaged, Full, NotWritable, StoreFailure
from engine.records import sqlite
from engine.records.chain import verify
from engine.records.codec import encode
from engine.records.event import Entry
from engine.records.sqlite import SqliteStore
from tests.engine.records.contract import CASE, filled
from tests.engine.records.samples import chain, notes, thick

HOUSE = Path(__file__).parents[3]


@pytest.fixture
def path(tmp_path: Path) -> Path:
    """Where the cases lie."""
    return tmp_path / "cases.db"


@pytest.fixture
def store(path: Path) -> Iterator[SqliteStore]:
    """A store that is closed in the end."""
    with closing(SqliteStore(path)) as opened:
        yield opened


def run(path: Path, *statements: str) -> None:
    """Do something to a file behind the store's back."""
    with closing(sqlite3.connect(path, isolation_level=None)) as connection:
        for statement in statements:
            connection.execute(statement)


def kept(path: Path, *entries: Entry) -> None:
    """A file with these entries in it, and nothing beside it."""
    with closing(SqliteStore(path)) as opened:
        filled(opened, *entries)


class TestTheFile:
    """What the store makes on the disk."""

    def test_folder_and_file_are_private(self, tmp_path: Path) -> None:
        """Nobody else may read what customers and workshops said."""
        path = tmp_path / "new" / "cases.db"
        with closing(SqliteStore(path)) as store:
            filled(store, *CASE[:2])
            modes = {name.name: stat.S_IMODE(name.stat().st_mode) for name in path.parent.iterdir()}

        assert stat.S_IMODE(path.parent.stat().st_mode) == 0o700
        assert modes == {"cases.db": 0o600, "cases.db-wal": 0o600, "cases.db-shm": 0o600}

    def test_a_commit_is_synced_to_the_write_ahead_log(self, store: SqliteStore) -> None:
        """The settings that make an append durable, as SQLite itself tells them."""
        names = ("journal_mode", "synchronous", "page_size")
        told = [store._connection.execute(f"PRAGMA {name}").fetchone()[0] for name in names]

        assert told == ["wal", 2, 4096]
        assert store.remark == ""

    def test_the_file_says_whose_it_is(self, path: Path) -> None:
        """Application id and version stand in the header, where SQLite's file format has them."""
        kept(path, *CASE[:1])

        header = path.read_bytes()[:100]

        assert header[68:72] == b"WMrk"
        assert int.from_bytes(header[60:64], "big") == 1

    def test_an_append_is_one_insert(self, store: SqliteStore) -> None:
        """Where the end of the case is known there is no other statement, and so no other commit."""
        filled(store, *CASE[:2])
        statements: list[str] = []
        store._connection.set_trace_callback(statements.append)

        store.append(CASE[2])

        assert [statement.split(" ")[0] for statement in statements] == ["INSERT"]

    def test_heads_read_only_what_came_since(self, store: SqliteStore) -> None:
        """A second window that asks every second does not read all cases every second."""
        filled(store, *CASE[:2])
        store.heads()
        filled(store, CASE[2])
        store.heads()
        statements: list[str] = []
        store._connection.set_trace_callback(statements.append)

        store.heads()

        assert [statement.partition("WHERE ")[2] for statement in statements] == ["id > 3 ORDER BY id"]

    def test_an_empty_file_becomes_a_store(self, path: Path) -> None:
        """What is left where the program died as it made the file is no obstacle."""
        path.touch()

        kept(path, *CASE[:1])

        with closing(SqliteStore(path)) as store:
            assert store.read("k7qdx") == CASE[:1]

    def test_a_file_without_its_table_becomes_a_store(self, path: Path) -> None:
        """Nor is a file that had its journal chosen and not yet its table."""
        run(path, "PRAGMA journal_mode = WAL", "CREATE TABLE t (x)", "DROP TABLE t")

        kept(path, *CASE[:1])

        with closing(SqliteStore(path)) as store:
            assert store.read("k7qdx") == CASE[:1]

    def test_a_name_that_sqlite_has_a_meaning_for_is_a_file(
        self, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
    ) -> None:
        """A file may be called what it likes."""
        monkeypatch.chdir(tmp_path)

        kept(Path(":memory:"), *CASE[:1])

        assert [path.name for path in tmp_path.iterdir()] == [":memory:"]

    def test_a_file_moved_to_a_share_loses_its_log(self, path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
        """A file with a write-ahead log is changed over where the log cannot work, with all its cases."""
        kept(path, *CASE)
        monkeypatch.setattr(sqlite, "shared", lambda _: True)

        with closing(SqliteStore(path)) as store:
            assert store._connection.execute("PRAGMA journal_mode").fetchone()[0] == "delete"
            assert store.read("k7qdx") == CASE

    def test_sqlite_is_not_loaded_for_a_store_in_memory(self) -> None:
        """A rehearsal starts without it, and so does whoever only imports the engine's face of stores."""
        heavy = ("sqlite3", "platformdirs", "tempfile")
        program = (
            "import sys; sys.path.insert(0, sys.argv[1])\n"
            "from engine.records import chain, export, opening, rescue\n"
            "opening.open_store('memory:')\n"
            f"print([name for name in {heavy} if name in sys.modules])"
        )
        words = [sys.executable, "-I", "-S", "-c", program, str(HOUSE)]

        assert subprocess.run(words, capture_output=True, text=True, check=True).stdout == "[]\n"


class TestTurnedAway:
    """Files that are no store of ours are left as they are."""

    @pytest.mark.parametrize(
        ("statements", "words"),
        [
            (("CREATE TABLE t (x)",), "is a database of another program"),
            (("PRAGMA application_id = 77",), "is a database of another program"),
            (("PRAGMA user_version = 1",), "is a database of another program"),
            (
                (f"PRAGMA application_id = {sqlite.APPLICATION}", "PRAGMA user_version = 2"),
                "was written by a newer version (format 2, known is 1)",
            ),
        ],
    )
    def test_a_foreign_file_is_not_touched(self, path: Path, statements: tuple[str, ...], words: str) -> None:
        """Another program's file and a newer one are named, and not a byte of them is changed."""
        run(path, *statements)
        before = path.read_bytes()

        with pytest.raises(StoreFailure) as caught:
            SqliteStore(path)

        assert words in caught.value.message
        assert path.read_bytes() == before
        assert [beside.name for beside in path.parent.iterdir()] == ["cases.db"]


class TestFull:
    """There is no room left: a real SQLITE_FULL, made by allowing the file no more pages."""

    @staticmethod
    def allow(store: SqliteStore, more: int) -> None:
        """Let the file grow by so many pages and no further."""
        pages = store._connection.execute("PRAGMA page_count").fetchone()[0]
        store._connection.execute(f"PRAGMA max_page_count = {pages + more}")

    def test_a_large_entry_does_not_fit(self, store: SqliteStore) -> None:
        """The failure says where there is no room; nothing of the entry is left."""
        self.allow(store, 3)

        with pytest.raises(Full, match=r"no room left to write to .*cases\.db"):
            store.append(chain("large", thick(100_000))[0])

        assert store.cases() == ()
        assert store._connection.execute("PRAGMA integrity_check").fetchone()[0] == "ok"

    @pytest.mark.parametrize("room", range(6))
    def test_what_was_acknowledged_stays(self, path: Path, room: int) -> None:
        """However much room there was, all before is kept, and the case goes on once there is room."""
        case = notes("k7qdx", 200)
        with closing(SqliteStore(path)) as store:
            self.allow(store, room)
            with pytest.raises(Full):
                filled(store, *case)
            taken = len(store.read("k7qdx"))
            assert store.read("k7qdx") == case[:taken]
            assert dict(store.heads()).get("k7qdx", 0) == taken

            self.allow(store, 1000)
            filled(store, *case[taken:])

        with closing(SqliteStore(path)) as store:
            assert store.read("k7qdx") == case

    def test_the_same_entry_is_full_again(self, store: SqliteStore) -> None:
        """Trying again without room is the same failure and no conflict."""
        filled(store, *CASE[:1])
        self.allow(store, 0)
        entry = chain("large", thick(100_000))[0]

        for _ in range(3):
            with pytest.raises(Full):
                store.append(entry)

        assert store.cases() == ("k7qdx",)


class TestNotWritable:
    """The file or its folder may not be written."""

    def test_an_append_through_a_connection_that_only_reads(self, store: SqliteStore, path: Path) -> None:
        """Reading goes on where writing is refused."""
        filled(store, *CASE[:2])
        store._connection.close()
        store._connection = sqlite3.connect(f"file:{path}?mode=ro", uri=True, isolation_level=None)

        with pytest.raises(NotWritable, match=r"cases\.db cannot be written"):
            store.append(CASE[2])

        assert store.read("k7qdx") == CASE[:2]

    @pytest.mark.parametrize("below", ["cases.db", "deeper/cases.db"])
    def test_a_path_below_a_file(self, tmp_path: Path, below: str) -> None:
        """Where a folder should be there is a file; the file stays as it is."""
        file = tmp_path / "file"
        file.write_text("not a folder")

        with pytest.raises(NotWritable, match="--store"):
            SqliteStore(file / below)

        assert file.read_text() == "not a folder"

    def test_a_folder_in_the_place_of_the_file(self, tmp_path: Path) -> None:
        """A folder is no file to keep cases in."""
        with pytest.raises(NotWritable):
            SqliteStore(tmp_path)


def cut(content: bytes) -> bytes:
    """The first half."""
    return content[: len(content) // 2]


def overwritten(start: int, length: int) -> Callable[[bytes], bytes]:
    """With noise over a part."""
    return lambda content: content[:start] + b"\xa5" * length + content[start + length :]


class TestDamaged:
    """The file is not what was written: found when it is opened, read or written to, never passed over."""

    @pytest.mark.parametrize(
        "damage",
        [cut, overwritten(0, 100), overwritten(0, 4096), lambda _: b"no database", lambda c: c[:50]],
        ids=["half", "header", "first page", "text", "50 bytes"],
    )
    def test_a_broken_file_is_told_when_it_is_opened(
        self, path: Path, damage: Callable[[bytes], bytes]
    ) -> None:
        """The failure names the file and the way to rescue what is left; the file stays as it is."""
        kept(path, *chain("thick", thick(50_000)), *CASE)
        path.write_bytes(damage(path.read_bytes()))
        before = path.read_bytes()

        with pytest.raises(Damaged) as caught:
            SqliteStore(path)

        assert caught.value.cure.startswith(f"`witnessmark cases rescue {path}")
        assert path.read_bytes() == before

    def test_a_page_overwritten_in_the_middle_is_told_when_it_is_read(self, path: Path) -> None:
        """The file opens, and the case whose page is gone cannot be read."""
        kept(path, *notes("k7qdx", 100))
        path.write_bytes(overwritten(4 * 4096, 4096)(path.read_bytes()))

        with closing(SqliteStore(path)) as store, pytest.raises(Damaged, match="rescue"):
            store.read("k7qdx")

    @pytest.mark.parametrize("number", [1, 4, 9])
    def test_a_changed_byte_of_a_row_names_the_event(self, path: Path, number: int) -> None:
        """The failure says in which file, which case and which event."""
        kept(path, *CASE)
        changed = encode(CASE[number - 1]).replace(b'"at":"2026', b'"at":"2025')
        run(path, f"UPDATE entries SET entry = x'{changed.hex()}' WHERE sequence = {number}")

        with (
            closing(SqliteStore(path)) as store,
            pytest.raises(Damaged, match=rf"cases\.db, event {number} of case k7qdx is damaged"),
        ):
            store.read("k7qdx")

    @pytest.mark.parametrize(
        "statement",
        [
            "UPDATE entries SET \"case\" = 'other'",
            "UPDATE entries SET \"case\" = CAST(x'ff' AS TEXT)",
            "UPDATE entries SET sequence = sequence + 20",
            "UPDATE entries SET sequence = 'three' WHERE sequence = 3",
            "UPDATE entries SET entry = CAST(entry AS TEXT)",
            "UPDATE entries SET entry = x''",
            "DROP TABLE entries",
        ],
    )
    def test_a_row_in_the_wrong_place_is_damaged(self, path: Path, statement: str) -> None:
        """What was done to the file behind the store's back is found, by reading either name."""
        kept(path, *CASE)
        run(path, statement)

        with closing(SqliteStore(path)) as store, pytest.raises(Damaged):
            (store.heads(), store.read("k7qdx"), store.read("other"))

    def test_nothing_is_added_behind_a_damaged_entry(self, path: Path) -> None:
        """A case that cannot be read cannot go on."""
        kept(path, *CASE[:3])
        run(path, "UPDATE entries SET entry = x'00' WHERE sequence = 3")

        with closing(SqliteStore(path)) as store, pytest.raises(Damaged):
            store.append(CASE[3])

    def test_a_lost_row_is_found_by_the_chain(self, path: Path) -> None:
        """A row taken out by the database's own means leaves a hole that `verify` names."""
        kept(path, *CASE)
        run(path, "DELETE FROM entries WHERE sequence = 3")

        with closing(SqliteStore(path)) as store:
            assert verify(store.read("k7qdx"))[0] == "Event 4 follows on 2: 3 is missing."

    def test_any_byte_of_the_file(self, path: Path) -> None:
        """Whatever byte of the file is changed, it is told as damage, or all that is read was written.

        A byte of SQLite's own index can hide the end of a case (or all of it), which no chain can tell.
        """
        case = notes("k7qdx", 4)
        kept(path, *case)
        whole = path.read_bytes()
        places = [place for place, byte in enumerate(whole) if byte][::5]
        outcomes = [_read_changed(path, whole, place) for place in places]

        assert len(places) > 300
        assert {type(outcome) for outcome in outcomes} == {tuple, str}
        assert {o for o in outcomes if isinstance(o, str)} <= {"Damaged", "StoreFailure", "broken"}
        assert [o for o in outcomes if isinstance(o, tuple) and o != case[: len(o)]] == []
        assert sum(o in ((), case[:1], case[:2], case[:3]) for o in outcomes) < len(outcomes) / 50


def _read_changed(path: Path, whole: bytes, place: int) -> tuple[Entry, ...] | str:
    """The case as it is read with one byte of the file changed; or how it failed, or that it is broken."""
    path.write_bytes(whole[:place] + bytes([whole[place] ^ 0x55]) + whole[place + 1 :])
    try:
        with closing(SqliteStore(path)) as store:
            entries = store.read("k7qdx")
    except StoreFailure as failure:
        return type(failure).__name__
    return "broken" if verify(entries) else entries


class TestLocked:
    """Another program holds the file."""

    def test_a_file_locked_for_too_long(self, store: SqliteStore, path: Path) -> None:
        """After waiting, the failure says so; when the lock is gone the same append goes through."""
        filled(store, *CASE[:1])
        store._connection.execute("PRAGMA busy_timeout = 50")
        with closing(sqlite3.connect(path, isolation_level=None)) as other:
            other.execute("BEGIN IMMEDIATE")
            with pytest.raises(StoreFailure, match=r"Another program keeps .*cases\.db locked"):
                store.append(CASE[1])
            other.execute("ROLLBACK")

        store.append(CASE[1])

        assert store.read("k7qdx") == CASE[:2]

    def test_a_store_that_was_closed_is_a_mistake_of_the_program(self, path: Path) -> None:
        """Using it after all is no failure that a technician could cure, and is not dressed up as one."""
        store = SqliteStore(path)
        store.close()

        with pytest.raises(sqlite3.ProgrammingError):
            store.read("k7qdx")

    def test_a_short_lock_is_waited_for(self, path: Path) -> None:
        """The patience is handed to SQLite."""
        with closing(SqliteStore(path, patience=1.5)) as store:
            assert store._connection.execute("PRAGMA busy_timeout").fetchone()[0] == 1500
