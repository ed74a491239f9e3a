"""Where the shipped documents and schemas lie; no other file knows.

An installed wheel carries them as `engine/_data`; a checkout has them beside the package.
"""

import os
from collections.abc import Iterator
from pathlib import Path
from typing import Final

# not importlib.resources: it costs more to import than a whole tree costs to lint
_INSTALLED: Final = Path(__file__).parent / "_data"
_HOME: Final = _INSTALLED if _INSTALLED.is_dir() else Path(__file__).parents[1]


def trees() -> Path:
    """The folder of the shipped library."""
    return _HOME / "trees"


def schemas() -> Iterator[tuple[str, bytes]]:
    """Each schema file's name and content, in the order of the names."""
    for entry in sorted((_HOME / "schemas").iterdir(), key=lambda e: e.name):
        if entry.name.endswith(".schema.json"):
            yield entry.name, entry.read_bytes()


def schema_file(kind: str) -> Path:
    """The schema of a kind of document, which editors are led to."""
    return _HOME / "schemas" / f"{kind}.schema.json"


def documents(folder: Path, above: str = "") -> Iterator[tuple[str, Path]]:
    """Every YAML file below a folder with its path inside it, in the order of the paths.

    Names that begin with a dot are passed over: editors and systems keep their own there.
    """
    for entry in sorted(os.scandir(folder), key=lambda e: e.name):
        name = f"{above}{entry.name}"
        if entry.name.startswith(".") or (entry.is_symlink() and _leads_back(entry.path)):
            continue
        # unlike an entry, a path says no of a link that leads to itself
        real = Path(entry.path) if entry.is_symlink() else entry
        if real.is_dir():
            yield from documents(Path(entry.path), f"{name}/")
        elif entry.name.endswith((".yaml", ".yml")) and real.is_file():
            yield name, Path(entry.path)


def _leads_back(link: str) -> bool:
    """Whether a link leads to a folder that it lies in, directly or not: to follow it would never end."""
    return Path(link).parent.resolve().is_relative_to(os.path.realpath(link))
