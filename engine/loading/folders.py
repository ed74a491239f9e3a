"""The files of a library on disk: the shipped ones and those of the folders a person names."""

from collections.abc import Iterable, Iterator
from pathlib import Path

from engine import resources
from engine.errors import Failure
from engine.loading.document import MOST_BYTES
from engine.loading.library import File


def shipped(below: tuple[str, ...] = ("",)) -> Iterator[File]:
    """The files of the shipped library, or of those of its folders whose paths begin so (`shop/`)."""
    home = resources.trees()
    shown = _shown(home)
    for path, entry in resources.documents(home):
        if path.startswith(below):
            yield File(f"{shown}/{path}", path, entry.read_bytes())


def below(paths: Iterable[Path]) -> Iterator[File]:
    """The YAML files of folders, and files named themselves; raises Failure where one cannot be read.

    Of a file over the size limit only so much is read as shows that it is too large.
    """
    for path in paths:
        if path.is_dir():
            shown = _shown(path)
            for inside, entry in resources.documents(path):
                yield File(f"{shown}/{inside}", f"{path.name}/{inside}", _read(entry))
        else:
            yield File(_shown(path), path.name, _read(path))


def _read(path: Path) -> bytes:
    try:
        with path.open("rb") as file:
            return file.read(MOST_BYTES + 1)
    except OSError as error:
        reason = (error.strerror or "it cannot be read").lower()
        raise Failure(f"{path} cannot be read: {reason}.", "Check the path and its permissions.") from None


def _shown(path: Path) -> str:
    try:
        return str(path.resolve().relative_to(Path.cwd()))
    except (ValueError, OSError):
        return str(path)
