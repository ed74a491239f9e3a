"""Every store is held to the one contract."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from engine.records import sqlite
from engine.records.memory import MemoryStore
from engine.records.sqlite import SqliteStore
from engine.records.store import Store
from tests.engine.records.contract import CASE, Open, StoreContract, filled


def windows(path: Path, opened: list[Store]) -> Open:
    """A way to open windows on a file that remembers them."""

    def another() -> Store:
        opened.append(SqliteStore(path))
        return opened[-1]

    return another


class TestMemory(StoreContract):
    """The store in memory, where every window is the same one."""

    @pytest.fixture
    def place(self, tmp_path: Path) -> Iterator[Open]:  # noqa: ARG002  reason: other stores need a folder
        """The one window."""
        store = MemoryStore()
        yield lambda: store
        store.close()


class TestSqlite(StoreContract):
    """The store in a file, with a write-ahead log."""

    @pytest.fixture
    def place(self, tmp_path: Path) -> Iterator[Open]:
        """A window each."""
        opened: list[Store] = []
        yield windows(tmp_path / "cases.db", opened)
        for store in opened:
            store.close()

    def test_cases_outlast_the_window(self, place: Open) -> None:
        """What was written is there when the file is opened again."""
        filled(place(), *CASE).close()

        again = place()

        assert again.read("k7qdx") == CASE
        assert dict(again.heads()) == {"k7qdx": len(CASE)}


class TestSqliteOnAShare(TestSqlite):
    """The store in a file on a network share, with a rollback journal."""

    @pytest.fixture
    def place(self, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Open]:
        """A window each, where the system says that the path is a share's."""
        monkeypatch.setattr(sqlite, "shared", lambda _: True)
        opened: list[Store] = []
        yield windows(tmp_path / "cases.db", opened)
        for store in opened:
            store.close()

    def test_there_is_no_write_ahead_log(self, place: Open, tmp_path: Path) -> None:
        """Only the file itself is left on the share between writes, and the store says that it is slower."""
        store = filled(place(), *CASE[:2])

        assert isinstance(store, SqliteStore)
        assert store.remark == sqlite.SLOWER
        assert [path.name for path in tmp_path.iterdir()] == ["cases.db"]
