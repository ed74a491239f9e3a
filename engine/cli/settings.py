"""What a workshop has settled once for all commands, in a file that stands beside its library.

The file is `witnessmark.toml`, or the table `[tool.witnessmark]` of a `pyproject.toml`. It is looked for from
the folder that a command is started in upwards, and the nearest one counts.

    library = ["trees"]                     # folders of documents, beside the shipped ones

    [lint]
    only = []                               # only these rules; none named: all
    without = ["hard-to-read"]              # all rules but these
    backlog = "backlog.json"                # findings that are known and not told again
"""

from collections.abc import Mapping
from functools import cache
from pathlib import Path
from typing import Any, Final, NamedTuple

from engine.errors import Failure
from engine.nearest import meant

_OWN: Final = "witnessmark.toml"
_SHARED: Final = "pyproject.toml"


class Settings(NamedTuple):
    """The settings; paths are those of the file, seen from its folder."""

    library: tuple[Path, ...] = ()
    only: tuple[str, ...] = ()
    without: tuple[str, ...] = ()
    backlog: Path | None = None


@cache
def settings() -> Settings:
    """The settings that count here; Failure where their file cannot be read or says what has no meaning."""
    return read(Path.cwd())


def read(start: Path) -> Settings:
    """The settings of the nearest file, from a folder upwards; none of it is there, the plain ones."""
    for folder in (start, *start.parents):
        for name in (_OWN, _SHARED):
            path = folder / name
            table = _table(path) if path.is_file() else None
            if table is not None:
                return _settings(path, table)
    return Settings()


def _table(path: Path) -> Mapping[str, Any] | None:
    """The table of settings; None where a shared file has none."""
    import tomllib

    try:
        held = tomllib.loads(path.read_text("utf-8"))
    except (OSError, ValueError) as error:
        # a shared file is other tools' affair as well: only where it may mean us is it worth a stop
        if path.name == _SHARED and not _means_us(path):
            return None
        raise Failure(f"{path} cannot be read: {error}.", "Mend the file, or take it away.") from None
    if path.name == _OWN:
        return held
    tools = held.get("tool")
    own = tools.get("witnessmark") if isinstance(tools, dict) else None
    return own if isinstance(own, dict) else None


def _means_us(path: Path) -> bool:
    try:
        return b"witnessmark" in path.read_bytes()
    except OSError:
        return False


def _settings(path: Path, table: Mapping[str, Any]) -> Settings:
    _known(path, table, ("library", "lint"), "")
    lint = table.get("lint", {})
    if not isinstance(lint, dict):
        raise _wrong(path, "lint", "a table", lint)
    _known(path, lint, ("only", "without", "backlog"), "lint.")
    backlog = lint.get("backlog")
    if not isinstance(backlog, str | None):
        raise _wrong(path, "lint.backlog", "the path of a file", backlog)
    return Settings(
        tuple(_near(path.parent / folder) for folder in _texts(path, table, "library", "")),
        _texts(path, lint, "only", "lint."),
        _texts(path, lint, "without", "lint."),
        _near(path.parent / backlog) if backlog else None,
    )


def _known(path: Path, table: Mapping[str, Any], keys: tuple[str, ...], above: str) -> None:
    for key in table:
        if key not in keys:
            raise Failure(f"{path}: there is no setting `{above}{key}`.", meant(key, keys))


def _texts(path: Path, table: Mapping[str, Any], key: str, above: str) -> tuple[str, ...]:
    found = table.get(key, [])
    if not isinstance(found, list) or not all(isinstance(each, str) for each in found):
        raise _wrong(path, above + key, "a list of texts", found)
    return tuple(found)


def _wrong(path: Path, key: str, wanted: str, found: object) -> Failure:
    return Failure(f"{path}: `{key}` is {found!r}.", f"It has to be {wanted}.")


def _near(path: Path) -> Path:
    """The path as a person here would write it."""
    here = Path.cwd()
    return path.relative_to(here) if path.is_relative_to(here) else path
