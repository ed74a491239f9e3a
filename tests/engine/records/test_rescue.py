"""What can be read of a damaged store is brought over whole, and what is lost is said."""

import random
import shutil
import sqlite3
from contextlib import closing
from pathlib import Path
from typing import Final

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from engine.errors import Damaged, Failure, Full
from engine.records.chain import verify
from engine.records.codec import encode, seal
from engine.records.event import Entry, Noted
from engine.records.memory import MemoryStore
from engine.records.rescue import Rescued, rescue
from engine.records.sqlite import SqliteStore
from tests.engine.records.contract import filled, rewritten
from tests.engine.records.samples import AT, OPENED, chain, notes, thick

PAGE: Final = 4096
NOISE: Final = random.Random(7).randbytes(PAGE)
#: A few cases of several pages: short entries, and openings that need pages of their own.
CASES: Final = {
    "a": notes("a", 60),
    "b": chain("b", thick(30_000), *(Noted("lift", "b" * 300) for _ in range(25))),
    "c": chain("c", thick(9_000)),
    "d": notes("d", 30),
}
TOTAL: Final = sum(map(len, CASES.values()))


def woven() -> list[Entry]:
    """The entries of all cases in an order in which they might have been written."""
    places = [(number, case) for case, entries in CASES.items() for number in range(len(entries))]
    return [CASES[case][number] for number, case in sorted(places)]


@pytest.fixture(scope="module")
def sound(tmp_path_factory: pytest.TempPathFactory) -> bytes:
    """A sound store with all cases, as its file's bytes."""
    path = tmp_path_factory.mktemp("sound") / "cases.db"
    with closing(SqliteStore(path)) as store:
        filled(store, *woven())
    return path.read_bytes()


@pytest.fixture
def path(tmp_path: Path) -> Path:
    """Where the damaged file lies."""
    return tmp_path / "damaged" / "cases.db"


def brought(path: Path, content: bytes) -> tuple[Rescued, MemoryStore]:
    """What a rescue makes of a file with this content."""
    path.parent.mkdir(exist_ok=True)
    path.write_bytes(content)
    store = MemoryStore()
    return rescue(path, store), store


def over(content: bytes, page: int) -> bytes:
    """The file with noise over one page, counted from 1."""
    start = (page - 1) * PAGE
    return content[:start] + NOISE + content[start + PAGE :]


def wrong(store: MemoryStore) -> list[str]:
    """The cases that are not the beginning of what was written."""
    read = {case: store.read(case) for case in store.cases()}
    return [case for case, found in read.items() if found != CASES[case][: len(found)] or verify(found)]


def test_a_sound_file_is_brought_over_whole(path: Path, sound: bytes) -> None:
    """Where nothing is lost nothing is told."""
    rescued, store = brought(path, sound)

    assert rescued == Rescued(len(CASES), TOTAL, 0, ())
    assert {case: store.read(case) for case in store.cases()} == CASES


def test_a_lost_header_loses_nothing(path: Path, sound: bytes) -> None:
    """A file that SQLite does not even take for a database gives all its cases."""
    rescued, store = brought(path, over(sound, 1))

    assert rescued == Rescued(len(CASES), TOTAL, 0, ())
    assert wrong(store) == []


def test_any_one_page_may_be_lost(path: Path, sound: bytes) -> None:
    """Whichever page it is, nothing wrong is brought over, and every event is kept or counted as lost."""
    results = [brought(path, over(sound, page)) for page in range(1, len(sound) // PAGE + 1)]

    assert len(results) > 20
    assert [wrong(store) for _, store in results if wrong(store)] == []
    assert {rescued.entries + rescued.lost for rescued, _ in results} == {TOTAL}
    assert 0 < sum(rescued.lost > 0 for rescued, _ in results) < len(results)


def test_more_is_brought_over_than_sqlite_reads(path: Path, sound: bytes) -> None:
    """Every case that SQLite, asked row by row, can still read from its first event on is there as well."""
    for page in range(2, len(sound) // PAGE + 1):
        _, store = brought(path, over(sound, page))
        readable = _row_by_row(path)

        fewer = [case for case, count in readable.items() if len(store.read(case)) < count]
        assert (page, fewer) == (page, [])


def _row_by_row(path: Path) -> dict[str, int]:
    """For each case how many events, from the first on without a hole, SQLite can read one at a time."""
    found: set[tuple[str, int]] = set()
    statement = 'SELECT "case", sequence, entry FROM entries WHERE id = ?'
    with closing(sqlite3.connect(path, isolation_level=None)) as connection:
        for number in range(1, TOTAL + 1):
            try:
                for case, sequence, entry in connection.execute(statement, (number,)):
                    if encode(CASES[case][sequence - 1]) == entry:
                        found.add((case, sequence))
            except sqlite3.DatabaseError:
                continue
    kept = {case: [(case, entry.sequence) in found for entry in entries] for case, entries in CASES.items()}
    return {case: [*there, False].index(False) for case, there in kept.items()}


def test_a_file_may_be_cut_anywhere(path: Path, tmp_path: Path) -> None:
    """Of a cut file all that lies before the cut is brought over, up to the first event that does not."""
    with closing(SqliteStore(tmp_path / "whole.db")) as store:
        filled(store, *CASES["a"])
    whole = (tmp_path / "whole.db").read_bytes()
    counts = []
    for length in range(len(whole), 2 * PAGE, -701):
        there = [encode(entry) in whole[:length] for entry in CASES["a"]]
        expected = [*there, False].index(False)
        if any(there):
            rescued, rest = brought(path, whole[:length])
            counts.append(expected)
            assert (rescued.entries, rest.read("a")) == (expected, CASES["a"][:expected])

    assert (max(counts), len(set(counts)) > 5) == (60, True)


def test_what_lies_behind_a_hole_is_counted_and_named(path: Path) -> None:
    """The case is kept up to the hole; how many are lost is told for each case."""
    path.parent.mkdir()
    with closing(SqliteStore(path)) as store:
        filled(store, *CASES["a"], *CASES["d"], *CASES["c"])
    with closing(sqlite3.connect(path, isolation_level=None)) as connection:
        connection.execute("DELETE FROM entries WHERE \"case\" = 'a' AND sequence = 5")
        connection.execute("UPDATE entries SET entry = x'00' WHERE \"case\" = 'd' AND sequence = 30")
        connection.execute("UPDATE entries SET entry = x'00' WHERE \"case\" = 'c'")
        connection.execute("VACUUM")

    rescued, store_ = brought(path, path.read_bytes())

    assert rescued == Rescued(
        2,
        4 + 29,
        56 + 1 + 1,
        (
            "Case a is kept up to event 4; 56 after it are lost.",
            "Case c is lost: the event that opened it cannot be read (1 in all).",
            "Case d is kept up to event 29; 1 after it is lost.",
        ),
    )
    assert dict(store_.heads()) == {"a": 4, "d": 29}


def test_an_event_of_another_case_history_ends_the_chain(path: Path) -> None:
    """An event that is sound in itself and does not carry the hash of the one before is a hole."""
    forged = seal("d", 7, AT, Noted("lift", "forged"), "1" * 64)
    path.parent.mkdir()
    with closing(SqliteStore(path)) as store:
        filled(store, *CASES["d"])
        store._connection.execute("UPDATE entries SET entry = ? WHERE sequence = 7", (encode(forged),))

    rescued, rest = brought(path, path.read_bytes())

    assert (rescued.entries, rescued.lost, rest.read("d")) == (6, 24, CASES["d"][:6])


@settings(max_examples=25, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(
    st.lists(st.tuples(st.floats(0, 1), st.integers(1, 9000)), min_size=1, max_size=8),
    st.integers(0, 1 << 32),
)
def test_any_damage(path: Path, sound: bytes, holes: list[tuple[float, int]], seed: int) -> None:
    """With noise over any parts of the file nothing wrong is brought over."""
    content, noise = bytearray(sound), random.Random(seed)
    for place, length in holes:
        start = int(place * (len(sound) - 1))
        content[start : start + length] = noise.randbytes(len(content[start : start + length]))
    try:
        _, store = brought(path, bytes(content))
    except Damaged:
        return

    assert wrong(store) == []


class TestTheLog:
    """A crash leaves a write-ahead log beside the file, and the last events may be nowhere else."""

    @pytest.fixture
    def crashed(self, path: Path, tmp_path: Path) -> Path:
        """A file as a crash leaves it, with everything but the first case in the log."""
        path.parent.mkdir()
        live = tmp_path / "cases.db"
        with closing(SqliteStore(live)) as store:
            filled(store, *CASES["a"])
        with closing(SqliteStore(live)) as store:
            filled(store, *CASES["d"], *CASES["b"])
            for ending in ("", "-wal"):
                shutil.copyfile(f"{live}{ending}", f"{path}{ending}")
        return path

    def test_the_log_is_read(self, crashed: Path) -> None:
        """What is only in the log is brought over."""
        store = MemoryStore()

        assert rescue(crashed, store) == Rescued(3, 116, 0, ())
        assert wrong(store) == []

    def test_without_the_log_only_the_file_is_left(self, crashed: Path) -> None:
        """The log is what held the rest, so the test above is one."""
        crashed.with_name("cases.db-wal").unlink()

        assert rescue(crashed, MemoryStore()) == Rescued(1, 60, 0, ())

    def test_the_log_is_read_beside_a_lost_header(self, crashed: Path) -> None:
        """SQLite no longer knows the file, yet both are read."""
        crashed.write_bytes(over(crashed.read_bytes(), 1))

        assert rescue(crashed, MemoryStore()).entries == 116

    def test_the_log_is_read_behind_a_damaged_place(self, crashed: Path) -> None:
        """SQLite ignores the log behind the first frame that is wrong; the events there prove themselves."""
        log = crashed.with_name("cases.db-wal")
        content = bytearray(log.read_bytes())
        content[32 + 2 * (PAGE + 24) + 100] ^= 1
        log.write_bytes(content)

        rescued = rescue(crashed, MemoryStore())

        assert rescued.entries + rescued.lost == 116
        assert rescued.entries > 110

    def test_noise_in_the_place_of_the_log_is_left_out(self, crashed: Path) -> None:
        """A log that is none costs only what was in it."""
        crashed.with_name("cases.db-wal").write_bytes(NOISE * 20)

        assert rescue(crashed, MemoryStore()) == Rescued(1, 60, 0, ())

    def test_a_transaction_that_was_cut_off_is_undone(self, path: Path, tmp_path: Path) -> None:
        """A rollback journal beside the file is played back before anything is read."""
        path.parent.mkdir()
        live = tmp_path / "cases.db"
        with closing(SqliteStore(live)) as store:
            filled(store, *CASES["a"])
            store._connection.execute("PRAGMA journal_mode = DELETE")
        with closing(sqlite3.connect(live, isolation_level=None)) as connection:
            connection.execute("PRAGMA cache_size = 1")
            connection.execute("BEGIN")
            connection.execute("UPDATE entries SET entry = zeroblob(3000)")
            for ending in ("", "-journal"):
                shutil.copyfile(f"{live}{ending}", f"{path}{ending}")
            connection.execute("ROLLBACK")
        alone = tmp_path / "alone.db"
        shutil.copyfile(path, alone)

        assert rescue(path, MemoryStore()) == Rescued(1, 60, 0, ())
        with pytest.raises(Damaged):
            rescue(alone, MemoryStore())


def test_the_damaged_file_is_not_touched(path: Path, sound: bytes) -> None:
    """A rescue may be tried again, by other means too: every byte and date stays."""
    path.parent.mkdir()
    path.write_bytes(over(sound, 3))
    path.with_name("cases.db-wal").write_bytes(NOISE)
    before = {file.name: (file.read_bytes(), file.stat().st_mtime_ns) for file in path.parent.iterdir()}
    path.chmod(0o400)
    path.parent.chmod(0o500)

    rescue(path, MemoryStore())

    path.parent.chmod(0o700)
    assert {f.name: (f.read_bytes(), f.stat().st_mtime_ns) for f in path.parent.iterdir()} == before


def test_a_rescue_may_be_repeated(path: Path, sound: bytes) -> None:
    """What is there already is no obstacle, and is counted as kept."""
    first, store = brought(path, over(sound, 9))

    assert rescue(path, store) == first
    assert wrong(store) == []


def test_a_case_that_went_on_otherwise_is_left(path: Path, sound: bytes) -> None:
    """The other store's own events are never put aside for rescued ones."""
    path.parent.mkdir()
    path.write_bytes(sound)
    store = MemoryStore()
    own = (CASES["a"][0], rewritten(CASES["a"][1]))
    filled(store, *own)

    rescued = rescue(path, store)

    assert rescued == Rescued(
        3, TOTAL - 60, 60, ("Case a stands otherwise in the other store and was left so there.",)
    )
    assert store.read("a") == own


def test_a_case_that_went_on_is_complete(path: Path) -> None:
    """A store that has all of the file's events and more loses nothing."""
    path.parent.mkdir()
    with closing(SqliteStore(path)) as store:
        filled(store, *CASES["d"][:10])
    further = MemoryStore()
    filled(further, *CASES["d"])

    assert rescue(path, further) == Rescued(1, 10, 0, ())
    assert further.read("d") == CASES["d"]


def test_a_full_disk_stops_the_rescue(path: Path, sound: bytes, tmp_path: Path) -> None:
    """The failure is the store's own; what was brought over until then is whole."""
    path.parent.mkdir()
    path.write_bytes(sound)
    with closing(SqliteStore(tmp_path / "into.db")) as into:
        into._connection.execute("PRAGMA max_page_count = 12")
        with pytest.raises(Full):
            rescue(path, into)

        assert [case for case in into.cases() if verify(into.read(case))] == []
        assert into.read("a")[0].event == OPENED


@pytest.mark.parametrize(
    "content",
    [b"", b"no database at all", NOISE * 5, b"SQLite format 3\0" + NOISE * 3],
    ids=["empty", "text", "noise", "header"],
)
def test_a_file_with_nothing_in_it_is_told(path: Path, content: bytes) -> None:
    """Where not one event can be read, the failure says so and names what to look for."""
    with pytest.raises(Damaged, match=r"No event can be read out of .*cases\.db\. Look for a backup"):
        brought(path, content)


def test_another_programs_file_has_no_events(path: Path) -> None:
    """A sound database that holds something else is read without harm and told."""
    path.parent.mkdir()
    with closing(sqlite3.connect(path, isolation_level=None)) as connection:
        connection.execute(
            'CREATE TABLE entries (id INTEGER PRIMARY KEY, "case" TEXT, sequence INT, entry BLOB)'
        )
        connection.execute("INSERT INTO entries VALUES (1, 'a', 1, x'7b7d')")

    with pytest.raises(Damaged, match="No event can be read"):
        rescue(path, MemoryStore())


@pytest.mark.parametrize("name", ["none.db", "."])
def test_a_file_that_is_not_there_is_told(tmp_path: Path, name: str) -> None:
    """A slip of the name is no damage."""
    with pytest.raises(Failure, match="There is no file"):
        rescue(tmp_path / name, MemoryStore())
