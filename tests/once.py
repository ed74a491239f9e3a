"""Each file of documents is read once in a process of tests: what it holds depends on its bytes alone."""

from functools import lru_cache
from typing import Final

import pytest

from engine.loading import leaf, library

#: So many files are remembered: the shipped library, and as many again.
_FILES: Final = 4096


def read_once() -> None:
    """Whoever gathers a library from now on gets each file as it was read the first time."""
    known = lru_cache(maxsize=_FILES)(leaf.leaf)
    patched = pytest.MonkeyPatch()
    for module in (leaf, library):
        patched.setattr(module, "leaf", known)
