"""The files of a library on disk: the shipped ones and those of the folders a person names."""

import os
from collections.abc import Iterable, Iterator
from pathlib import Path

from engine import resources
from engine.errors import Failure
from engine.loading.document import MOST_BYTES
from engine.loading.leaf import File
from engine.loading.pictures import there


def shipped(below: tuple[str, ...] = ("",)) -> Iterator[File]:
    """The files of the shipped library, or of those of its folders whose paths begin so (`shop/`)."""
    home = resources.trees()
    shown = _shown(home)
    for path, entry in resources.documents(home):
        if path.startswith(below):
            content = entry.read_bytes()
            yield File(f"{shown}/{path}", path, content, pictures=there(entry, content))


def below(paths: Iterable[Path]) -> Iterator[File]:
    """The YAML files of folders, and files named themselves; raises Failure where one cannot be read.

    A file that is named twice counts once. Of a file over the size limit only so much is read as
    shows that it is too large.
    """
    seen: set[tuple[int, int]] = set()
    for path in paths:
        for shown, inside, entry in _entries(path):
            content, mark = _read(entry)
            if mark not in seen:
                seen.add(mark)
                pictures = there(entry, content)
                yield File(_printable(shown), _printable(inside), content, pictures=pictures)


def _entries(path: Path) -> Iterator[tuple[str, str, Path]]:
    shown = _shown(path)
    if not path.is_dir():
        yield shown, path.name, path
        return
    try:
        for inside, entry in resources.documents(path):
            yield f"{shown}/{inside}", f"{path.name}/{inside}", entry
    except OSError as error:
        raise _unreadable(error.filename or path, error) from None


def _read(path: Path) -> tuple[bytes, tuple[int, int]]:
    """The bytes of a file, and what tells it from every other file."""
    try:
        with path.open("rb") as file:
            known = os.fstat(file.fileno())
            return file.read(MOST_BYTES + 1), (known.st_dev, known.st_ino)
    except OSError as error:
        raise _unreadable(path, error) from None


def _unreadable(path: object, error: OSError) -> Failure:
    reason = (error.strerror or "it cannot be read").lower()
    return Failure(f"{path} cannot be read: {reason}.", "Check the path and its permissions.")


def _shown(path: Path) -> str:
    try:
        return str(path.resolve().relative_to(Path.cwd()))
    except (ValueError, OSError):
        return str(path)


def _printable(path: str) -> str:
    """The path as text; bytes of a file's name that are no text become marks of replacement."""
    return path.encode(errors="surrogateescape").decode(errors="replace")
