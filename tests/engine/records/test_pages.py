"""Rows read straight from pages, held against SQLite's own reading, and against noise."""

import sqlite3
from collections.abc import Sequence
from contextlib import closing
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from engine.records.pages import Row, logged, pages, rows

SIZES = [512, 1024, 4096, 8192, 65536]
TABLE = "CREATE TABLE t (id INTEGER PRIMARY KEY, name TEXT, number INTEGER, content BLOB)"


def made(path: Path, size: int, contents: Sequence[tuple[object, ...]]) -> None:
    """A database with pages of this size and a table with these rows."""
    with closing(sqlite3.connect(path, isolation_level=None)) as connection:
        connection.execute(f"PRAGMA page_size = {size}")
        connection.execute(TABLE)
        connection.execute("BEGIN")
        connection.executemany("INSERT INTO t (name, number, content) VALUES (?, ?, ?)", contents)
        connection.execute("COMMIT")


def told(path: Path) -> list[Row]:
    """The rows of the table as pages have them, without the schema's own row."""
    found = list(rows(pages(path.read_bytes())))
    return sorted(row for row in found if row[0] is None and len(row) == 4)


@pytest.mark.parametrize("size", SIZES)
def test_rows_of_any_length_are_read(tmp_path: Path, size: int) -> None:
    """A record may lie in its page or go on in others; at each length around the edges it is read whole."""
    edges = [size - 35, (size - 12) * 32 // 255 - 23, size - 4, 2 * size, 3 * (size - 4)]
    lengths = [0, 1, *(edge + step for edge in edges for step in range(-12, 3)), 10 * size + 7]
    contents = [(f"row-{n:04}", n, bytes([n % 251]) * length) for n, length in enumerate(lengths)]
    made(tmp_path / "t.db", size, contents)

    assert told(tmp_path / "t.db") == [(None, *row) for row in contents]


@settings(max_examples=60, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(
    st.lists(
        st.tuples(st.text(max_size=9), st.integers(-(2**63), 2**63 - 1), st.binary(max_size=1500)),
        max_size=12,
        unique_by=lambda row: row[0],
    )
)
def test_values_are_those_that_sqlite_was_given(tmp_path: Path, contents: list[tuple[object, ...]]) -> None:
    """Texts, whole numbers of every width, and bytes come back as they were."""
    path = tmp_path / "t.db"
    path.unlink(missing_ok=True)
    made(path, 512, contents)

    assert told(path) == sorted((None, *row) for row in contents)


@pytest.mark.parametrize("size", SIZES)
def test_keys_are_read_from_every_level_of_an_index(tmp_path: Path, size: int) -> None:
    """An index that has grown inner pages tells all its keys."""
    path = tmp_path / "t.db"
    count = size // 2
    made(path, size, [(f"{'long ' * 20}{number}", number, b"") for number in range(count)])
    with closing(sqlite3.connect(path, isolation_level=None)) as connection:
        connection.execute("CREATE INDEX i ON t (name, number)")

    keys = [row for row in rows(pages(path.read_bytes())) if len(row) == 3 and isinstance(row[0], str)]

    assert sorted(row[1] for row in keys if isinstance(row[1], int)) == list(range(count))


def test_a_lost_page_costs_no_other_rows(tmp_path: Path) -> None:
    """Of a record that goes on in a lost page the first columns are still told."""
    path = tmp_path / "t.db"
    made(path, 512, [("short", 1, b"a"), ("long", 2, b"b" * 5000), ("last", 3, b"c")])
    held = pages(path.read_bytes())
    lost = next(number for number, page in held.items() if page[4:].startswith(b"bbbb"))
    del held[lost]

    found = [row for row in rows(held) if row[0] is None]

    assert [row[1:3] for row in found] == [("short", 1), ("long", 2), ("last", 3)]
    assert [len(row[3]) == 5000 for row in found if isinstance(row[3], bytes)] == [False] * 3


def test_a_log_has_the_last_of_each_page(tmp_path: Path) -> None:
    """What was written to the write-ahead log and not yet to the file is read from there."""
    path = tmp_path / "t.db"
    made(path, 1024, [("first", 1, b"a" * 3000)])
    with closing(sqlite3.connect(path, isolation_level=None)) as connection:
        connection.execute("PRAGMA journal_mode = WAL")
        for number in range(2, 40):
            connection.execute(
                "INSERT INTO t (name, number, content) VALUES ('more', ?, ?)", (number, b"b" * 90)
            )
        whole, log = path.read_bytes(), path.with_name("t.db-wal").read_bytes()

    held = {**pages(whole), **logged(log)}

    assert sorted({row[2] for row in rows(held) if row[0] is None and isinstance(row[2], int)}) == list(
        range(1, 40)
    )


def test_frames_of_an_earlier_log_are_left_out() -> None:
    """A log is used again from its beginning; what an earlier round left behind the end is not taken."""
    log = bytearray(32 + 2 * (512 + 24))
    log[8:12] = (512).to_bytes(4, "big")
    log[16:24] = b"saltsalt"
    for start, number, salt in ((32, 3, b"saltsalt"), (32 + 536, 4, b"old salt")):
        log[start : start + 4] = number.to_bytes(4, "big")
        log[start + 8 : start + 16] = salt

    assert list(logged(bytes(log))) == [3]


def test_a_record_that_goes_on_in_a_circle_comes_to_an_end() -> None:
    """A page that names itself as the next one does not keep the reader for ever."""
    itself = 0x03030303
    cell = b"\xff" * 8 + b"\x7f" + b"\x01"  # as long as can be told, in row 1
    leaf = b"\x0d\0\0\0\x01\0\0\0" + (12).to_bytes(2, "big") + b"\0\0" + cell
    held = {2: leaf.ljust(512, b"\x03"), itself: b"\x03" * 512}

    assert len(list(rows(held))) == 1


@given(st.binary(max_size=3000), st.sampled_from([b"", b"SQLite format 3\0\x02\x00"]))
def test_noise_is_read_without_failing(noise: bytes, header: bytes) -> None:
    """Whatever lies in a file, reading it comes to an end and raises nothing."""
    held = {**pages(header + noise), **logged(noise)}

    assert all(isinstance(row, tuple) for row in rows(held))


@given(st.data())
def test_damage_is_read_without_failing(data: st.DataObject) -> None:
    """Pages with everything right but a few bytes lead neither out of bounds nor round in circles."""
    whole = bytearray(_sample())
    for place in data.draw(st.lists(st.integers(0, len(whole) - 1), min_size=1, max_size=20)):
        whole[place] = data.draw(st.sampled_from([0, 1, 2, 10, 13, 127, 128, 255]))

    assert all(isinstance(row, tuple) for row in rows(pages(bytes(whole))))


def _sample() -> bytes:
    """A small database in bytes."""
    with closing(sqlite3.connect(":memory:", isolation_level=None)) as connection:
        connection.execute("PRAGMA page_size = 512")
        connection.execute(TABLE)
        for number in range(8):
            row = ("n" * number, number, b"x" * (number * 200))
            connection.execute("INSERT INTO t (name, number, content) VALUES (?, ?, ?)", row)
        return connection.serialize()
