"""One durable event: the store's append against a bare SQLite commit of the same bytes."""

import sqlite3
import statistics
import tempfile
import time
from pathlib import Path

from benchmarks.timing import Row, table
from engine.records.codec import NOTHING_BEFORE, encode, seal
from engine.records.event import Answered, Opened
from engine.records.opening import open_store

_AT = "2026-01-01T00:00:00+00:00"


def measure(count: int) -> str:
    """The table for this many appends of each, one after the other in turn."""
    with tempfile.TemporaryDirectory() as folder:
        store = open_store(str(Path(folder) / "cases.db"))
        bare = sqlite3.connect(Path(folder) / "bare.db", isolation_level=None)
        bare.executescript(
            "PRAGMA journal_mode=WAL; PRAGMA synchronous=FULL;"
            "CREATE TABLE t (a TEXT, b INT, c BLOB, PRIMARY KEY (a, b));"
        )
        ours: list[float] = []
        theirs: list[float] = []
        opening = Opened("tree", "vehicle", {"a.yaml": "tree: tree"}, digest="")
        entry = seal("bench", 1, _AT, opening, NOTHING_BEFORE)
        store.append(entry)
        for number in range(2, count + 2):
            entry = seal("bench", number, _AT, Answered("which-wheels", 1, "Front wheels only"), entry.hash)
            began = time.perf_counter()
            store.append(entry)
            between = time.perf_counter()
            content = encode(entry)
            before = time.perf_counter()
            bare.execute("INSERT INTO t VALUES (?, ?, ?)", ("bench", number, content))
            ours.append(between - began)
            theirs.append(time.perf_counter() - before)
        store.close()
        bare.close()
    mine, floor = statistics.median(ours), statistics.median(theirs)
    return table(
        f"Appending one durable event ({count} times, in turn)",
        (
            Row("bare INSERT, WAL, synchronous FULL", floor, 1.0, ""),
            Row("store append", mine, mine / floor, "<= 1.5"),
        ),
    )
