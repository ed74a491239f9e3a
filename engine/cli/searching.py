"""A search that can be watched and stopped: how far it is on stderr, Ctrl-C keeps what was found."""

import signal
import sys
import time
from types import FrameType, TracebackType
from typing import TYPE_CHECKING, Any, Self

if TYPE_CHECKING:
    from engine.planner.planning import Progress


class Watch:
    """While it lasts, Ctrl-C only ends the search; a second one ends the program as ever."""

    def __init__(self, seconds: float | None) -> None:
        self._began = time.monotonic()
        self._until = self._began + seconds if seconds is not None else None
        self._stopped = False
        self._shown = self._began
        self._written = 0
        self._line = ""
        self._before: Any = None

    def __enter__(self) -> Self:
        self._before = signal.signal(signal.SIGINT, self._stop)
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        signal.signal(signal.SIGINT, self._before)
        if self._written:
            sys.stderr.write("\r" + " " * self._written + "\r")

    def over(self) -> bool:
        """Whether to stop; asked again and again, so the sign of life is given here."""
        now = time.monotonic()
        if now - self._began > 1 and now - self._shown > 0.5:
            self._shown = now
            self._show(f"{self._line}, {now - self._began:.0f} s; Ctrl-C takes the best so far")
        return self._stopped or (self._until is not None and now >= self._until)

    def told(self, progress: "Progress") -> None:
        """How far the search is."""
        self._line = f"best {float(progress.best):.2f} min, none under {float(progress.bound):.2f} min"

    def _show(self, line: str) -> None:
        if sys.stderr.isatty():
            sys.stderr.write("\r" + line.ljust(self._written))
            sys.stderr.flush()
            self._written = len(line)
        else:
            sys.stderr.write(line + "\n")

    def _stop(self, _number: int, _frame: FrameType | None) -> None:
        if self._stopped:
            raise KeyboardInterrupt
        self._stopped = True
