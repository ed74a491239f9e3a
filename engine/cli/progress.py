"""A sign of life on stderr for what takes more than a second; nothing where nobody looks."""

import sys
import time
from collections.abc import Iterable, Iterator
from typing import TypeVar

Item = TypeVar("Item")


def counted(items: Iterable[Item], doing: str) -> Iterator[Item]:
    """The items as they are, with `doing 120 ...` kept up to date in a terminal from the second second on."""
    began = told = time.monotonic()
    watched = sys.stderr.isatty()
    for number, item in enumerate(items, 1):
        yield item
        now = time.monotonic()
        if watched and now - began > 1 and now - told > 0.2:
            told = now
            sys.stderr.write(f"\r{doing} {number} ")
            sys.stderr.flush()
    if told > began:
        sys.stderr.write("\r" + " " * (len(doing) + 12) + "\r")
