"""Which store a name stands for."""

import re
from pathlib import Path
from typing import Final

from engine.errors import Failure
from engine.plain import clean
from engine.records.memory import MemoryStore
from engine.records.store import Store

_SCHEME: Final = re.compile(r"[A-Za-z][A-Za-z0-9+.-]+:")  # two characters or more: `C:` is a drive
_FILE: Final = "sqlite:///"
_CURE: Final = "Give the path of a file, `sqlite:///PATH`, or `memory:` for cases that nobody keeps."


def open_store(url: str | None) -> Store:
    """The store of this name: a path or `sqlite:///PATH` is a file, `memory:` ends with the program.

    None is the user's own file. Raises Failure for any other name, and a StoreFailure where the store cannot
    be opened.
    """
    if url is None:
        return _file(usual_place())
    if url == "memory:":
        return MemoryStore()
    if url.startswith(_FILE) and len(url) > len(_FILE):
        return _file(Path(url.removeprefix(_FILE)))
    if not url or "\0" in url or _SCHEME.match(url):
        raise Failure(f"Cases cannot be kept in `{clean(url, lines=False)}`.", _CURE)
    return _file(Path(url))


def usual_place() -> Path:
    """Where the user's cases lie unless another place is named."""
    # only needed here, and a store in a named place starts without it
    from platformdirs import user_data_dir

    return Path(user_data_dir("witnessmark", appauthor=False)) / "cases.db"


def _file(path: Path) -> Store:
    # a rehearsal, which keeps nothing, starts without SQLite
    from engine.records.sqlite import SqliteStore

    return SqliteStore(path)
