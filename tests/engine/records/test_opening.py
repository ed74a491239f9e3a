"""Which store a name stands for."""

from contextlib import closing
from pathlib import Path

import pytest

from engine.errors import Failure
from engine.records.memory import MemoryStore
from engine.records.opening import open_store, usual_place
from engine.records.sqlite import SqliteStore

SUPPORTED = "Give the path of a file, `sqlite:///PATH`, or `memory:` for cases that nobody keeps."


@pytest.mark.parametrize("name", ["cases.db", "./a b/cases.db", "C", "cases", ":memory:"])
def test_a_path_is_a_file(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, name: str) -> None:
    """Any path is a file to keep cases in, seen from the folder one stands in."""
    monkeypatch.chdir(tmp_path)

    with closing(open_store(name)) as store:
        assert isinstance(store, SqliteStore)
        assert store.path == tmp_path / name
    assert (tmp_path / name).is_file()


@pytest.mark.parametrize("absolute", [False, True])
def test_a_url_of_sqlite_is_a_file(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, *, absolute: bool
) -> None:
    """What stands behind the third slash is the path, absolute with a fourth."""
    monkeypatch.chdir(tmp_path)

    with closing(open_store(f"sqlite:///{tmp_path / 'cases.db' if absolute else 'cases.db'}")) as store:
        assert isinstance(store, SqliteStore)
        assert store.path == tmp_path / "cases.db"


def test_cases_can_be_kept_in_memory() -> None:
    """Nothing is written to the disk."""
    assert isinstance(open_store("memory:"), MemoryStore)


def test_the_usual_place_is_the_users_own(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Without a name the cases lie where the system keeps the user's data."""
    monkeypatch.setattr("platformdirs.user_data_dir", lambda name, **_: str(tmp_path / name))

    with closing(open_store(None)) as store:
        assert isinstance(store, SqliteStore)
        assert store.path == tmp_path / "witnessmark" / "cases.db" == usual_place()


@pytest.mark.parametrize(
    "name",
    [
        "postgresql://depot/cases",
        "POSTGRESQL://depot/cases",
        "postgresql+psycopg://depot/cases",
        "sqlite:cases.db",
        "sqlite://cases.db",
        "sqlite:///",
        "memory:cases",
        "file:cases.db",
        "",
        "a\0b",
    ],
)
def test_any_other_name_is_told_what_there_is(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, name: str
) -> None:
    """The cure names all that is supported; nothing is made on the disk."""
    monkeypatch.chdir(tmp_path)

    with pytest.raises(Failure) as caught:
        open_store(name)

    assert caught.value.cure == SUPPORTED
    assert list(tmp_path.iterdir()) == []


def test_a_name_cannot_steer_a_terminal() -> None:
    """A name that holds an escape sequence is shown, not obeyed."""
    with pytest.raises(Failure) as caught:
        open_store("memory:\x1b[31m")

    assert "\x1b" not in str(caught.value)
