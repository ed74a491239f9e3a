"""The ways of printing findings, by name."""

from collections.abc import Callable, Mapping
from typing import Final

from engine.lint.finding import Finding
from engine.lint.formats.machine import machine
from engine.lint.formats.text import text
from engine.loading.library import Library

Format = Callable[[tuple[Finding, ...], Library, frozenset[str]], str]
FORMATS: Final[Mapping[str, Format]] = {"text": text, "json": machine}
