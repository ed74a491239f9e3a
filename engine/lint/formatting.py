"""The ways of printing findings, by name; each is imported only when it is wanted."""

from collections.abc import Callable, Mapping
from importlib import import_module
from typing import Final, cast

from engine.lint.review import Review

Format = Callable[[Review], str]
#: Each format and the file that holds it (one of its own name in `engine/lint/formats`).
FORMATS: Final[Mapping[str, str]] = {
    "text": "text",
    "lines": "lines",
    "json": "machine",
    "sarif": "sarif",
    "junit": "junit",
    "annotations": "annotations",
}


def formatted(name: str) -> Format:
    """The function that prints findings in this format."""
    file = FORMATS[name]
    return cast("Format", getattr(import_module(f"engine.lint.formats.{file}"), file))
