"""Files that a command writes: whole, or not at all."""

from pathlib import Path

from engine.errors import Failure


def write(path: Path, text: str) -> None:
    """Write a text in place of what the file held; Failure where that cannot be done."""
    part = path.with_name(path.name + ".part")
    try:
        part.write_text(text, encoding="utf-8", newline="\n")
        part.replace(path)
    except OSError as error:
        part.unlink(missing_ok=True)
        raise Failure(f"{path} cannot be written: {error.strerror}.", "Choose another folder.") from None
