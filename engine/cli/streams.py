"""The program's own input and output: no text breaks them, and where they end nobody is shouted at."""

import io
import os
import sys
from contextlib import suppress


def forgive() -> None:
    """Take any byte as input, and write what the terminal has no sign for spelt out."""
    for stream, errors in (
        (sys.stdin, "surrogateescape"),
        (sys.stdout, "backslashreplace"),
        (sys.stderr, "backslashreplace"),
    ):
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(errors=errors)


def flush() -> None:
    """Write what is still held back, so that a failure shows here and not after the program has ended."""
    if sys.stdout is not None:
        sys.stdout.flush()


def drop() -> None:
    """Let whatever is still to be written go nowhere: its reader has gone, or its disk is full."""
    with suppress(OSError, ValueError, AttributeError):
        nowhere = os.open(os.devnull, os.O_WRONLY)
        os.dup2(nowhere, sys.stdout.fileno())
        os.close(nowhere)
