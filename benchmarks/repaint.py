"""From a key to the first changed output, through a real pseudo-terminal; no library's own waits."""

import os
import pty
import select
import statistics
import sys
import tempfile
import time
from pathlib import Path

from benchmarks.timing import ROOT, Row, table

_KEYS = (b"\x1b[B", b"\x1b[A")


def measure(count: int) -> str:
    """The table for this many presses of an arrow key in a list of the app."""
    with tempfile.TemporaryDirectory() as folder:
        child, terminal = _start(Path(folder))
        try:
            _settle(terminal, 3.0)
            os.write(terminal, b"n")  # the list of vehicles, in which the arrows move
            _settle(terminal, 1.0)
            times = [_press(terminal, _KEYS[n % 2]) for n in range(count)]
        finally:
            os.kill(child, 15)
            os.waitpid(child, 0)
            os.close(terminal)
    ordered = sorted(times)
    middle, last = statistics.median(ordered), ordered[int(len(ordered) * 0.99)]
    return table(
        f"Key press to repaint ({count} presses through a pseudo-terminal)",
        (
            Row("median", middle, middle / 0.05, "of 50 ms"),
            Row("99th percentile", last, last / 0.05, "<= 1.00 of 50 ms"),
        ),
    )


def _start(folder: Path) -> tuple[int, int]:
    child, terminal = pty.fork()
    if child == 0:
        os.environ.update(TERM="xterm-256color", COLUMNS="80", LINES="24", LC_ALL="C.UTF-8")
        os.chdir(ROOT)
        os.execv(sys.executable, [sys.executable, "-m", "tui", "--store", str(folder / "cases.db")])
    return child, terminal


def _settle(terminal: int, quiet: float) -> None:
    """Read until nothing has come for a while."""
    until = time.monotonic() + 20
    while time.monotonic() < until and select.select([terminal], [], [], quiet)[0]:
        os.read(terminal, 65536)


def _press(terminal: int, key: bytes) -> float:
    began = time.perf_counter()
    os.write(terminal, key)
    if not select.select([terminal], [], [], 2)[0]:
        sys.exit("the app did not answer a key within two seconds")
    os.read(terminal, 65536)
    seconds = time.perf_counter() - began
    _settle(terminal, 0.05)
    return seconds
