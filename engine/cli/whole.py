"""Files that are written whole, or not at all."""

import os
from pathlib import Path

from engine.errors import Failure


def write(path: Path, text: str, cure: str = "Choose another folder.") -> None:
    """Write a text in place of what the file held, durable before it is seen; Failure where it cannot be."""
    part = path.with_name(f".{path.name}.part")
    try:
        with part.open("w", encoding="utf-8", newline="\n") as file:
            file.write(text)
            file.flush()
            os.fsync(file.fileno())
        part.replace(path)
    except OSError as error:
        part.unlink(missing_ok=True)
        raise Failure(f"{path} cannot be written: {error.strerror or error}.", cure) from None


def made(folder: Path, cure: str = "Choose another folder.") -> None:
    """See that a folder is there, with those above it; Failure where it cannot be made."""
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise Failure(f"{folder} cannot be made: {error.strerror or error}.", cure) from None
