"""A real terminal around the real program: a pseudo-terminal, and a screen that obeys what is sent to it."""

import os
import re
import signal
import sys
import time
from collections.abc import Callable, Mapping, Sequence
from pathlib import Path
from types import TracebackType
from typing import Final, Self

import pexpect
import pyte

ROOT: Final = Path(__file__).parents[2]
#: Seconds after which something that should have appeared will not any more.
PATIENCE: Final = 60.0
#: What the terminal of whoever runs the tests left behind: this one has a size and colours of its own.
_FOREIGN: Final = frozenset(("NO_COLOR", "COLUMNS", "LINES"))
#: Lines that are drawn, and the mark of the chosen answer.
_FRAME: Final = re.compile("[\u2500-\u259f›]")


class Terminal:
    """The program in a terminal of some size, with the keys and the eyes of a person."""

    def __init__(
        self,
        words: Sequence[str],
        size: tuple[int, int] = (80, 24),
        environment: Mapping[str, str] | None = None,
        before: Callable[[], None] | None = None,
    ) -> None:
        width, height = size
        inherited = {name: value for name, value in os.environ.items() if name not in _FOREIGN}
        self._screen = pyte.Screen(width, height)
        self._stream = pyte.ByteStream(self._screen)
        #: Every byte that the program has sent.
        self.sent = b""
        self.child: pexpect.spawn[bytes] = pexpect.spawn(
            sys.executable,
            ["-m", "tui", *words],
            cwd=str(ROOT),
            env={**inherited, "TERM": "xterm-256color", "LC_ALL": "C.UTF-8", **(environment or {})},
            dimensions=(height, width),
            encoding=None,
            preexec_fn=before,
        )

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self.child.close(force=True)

    @property
    def process(self) -> int:
        """The number of the program's process."""
        assert self.child.pid is not None
        return self.child.pid

    def text(self) -> str:
        """What stands on the screen, without the blanks at the ends of the lines."""
        return "\n".join(line.rstrip() for line in self._screen.display)

    def hear(self, seconds: float = 0.05) -> bool:
        """Take in what the program sends within this time; false once it has ended."""
        try:
            data = self.child.read_nonblocking(65536, timeout=seconds)
        except pexpect.TIMEOUT:
            return True
        except pexpect.EOF:
            return False
        self.sent += data
        self._stream.feed(data)
        return True

    def seen(self) -> str:
        """The words on the screen in their order, without frames and however the lines were broken."""
        return " ".join(_FRAME.sub(" ", self.text()).split())

    def until(self, words: str | Callable[[], bool]) -> str:
        """Wait until these words stand on the screen (or something else has come true)."""
        end = time.monotonic() + PATIENCE
        true = words if callable(words) else lambda: words in self.text()
        while not true():
            assert self.hear(), f"ended before {words!r}:\n{self.text()}"
            assert time.monotonic() < end, f"no {words!r} in:\n{self.text()}"
        return self.text()

    def press(self, keys: str) -> None:
        """Press keys."""
        self.child.send(keys.encode())

    def read(self) -> None:
        """Take the time that a caution wants to be read."""
        end = time.monotonic() + 0.7
        while time.monotonic() < end:
            self.hear()

    def resize(self, width: int, height: int) -> None:
        """Make the window larger or smaller."""
        self._screen.resize(height, width)
        self.child.setwinsize(height, width)

    def ended(self) -> int:
        """Wait for the end; the exit code, or minus the signal's number."""
        end = time.monotonic() + PATIENCE
        while self.hear() and self.child.isalive():
            assert time.monotonic() < end, f"still running:\n{self.text()}"
        self.child.wait()
        status = self.child.exitstatus
        return status if status is not None else -int(self.child.signalstatus or signal.SIGKILL)
