"""Several processes read a large library together; a small one is not worth their start."""

import os
import signal
import sys
from collections import deque
from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager
from itertools import islice
from typing import TYPE_CHECKING, Final

from engine.loading.leaf import File, Leaf

if TYPE_CHECKING:
    from concurrent.futures import Future

#: So many files one process reads in less time than several need to start.
FEW: Final = 150
#: Files handed over at once.
_BATCH: Final = 25


def together(read: Callable[[File], Leaf], files: Iterable[File]) -> Iterator[Leaf]:
    """The leaves of the files, in their order; from the 150th file on read by every core there is."""
    files = iter(files)
    yield from map(read, islice(files, FEW))
    ahead = list(islice(files, _BATCH))
    cores = _cores()
    if len(ahead) < _BATCH or cores == 1:
        yield from map(read, ahead)
        yield from map(read, files)
    else:
        yield from _spread(read, ahead, files, cores)


def _spread(
    read: Callable[[File], Leaf], ahead: list[File], files: Iterator[File], cores: int
) -> Iterator[Leaf]:
    from concurrent.futures import ProcessPoolExecutor
    from multiprocessing import get_context

    # a process that is split off has already imported all it needs
    context = get_context("fork" if sys.platform == "linux" else "spawn")
    with ProcessPoolExecutor(cores, context, _ignore_interrupt) as pool:
        with _interrupt_later():
            pool.submit(int)  # with the first task they are all started
        waiting: deque[Future[list[Leaf]]] = deque()
        try:
            while ahead or waiting:
                while ahead and len(waiting) < 2 * cores:
                    waiting.append(pool.submit(_batch, read, ahead))
                    ahead = list(islice(files, _BATCH))
                yield from waiting.popleft().result()
        finally:
            pool.shutdown(cancel_futures=True)


def _batch(read: Callable[[File], Leaf], files: list[File]) -> list[Leaf]:
    return [read(file) for file in files]


def _ignore_interrupt() -> None:
    """Ctrl-C reaches every process of a terminal; the first one tells the others to end."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)


@contextmanager
def _interrupt_later() -> Iterator[None]:
    """Let Ctrl-C wait, where the system can, so that none of the others hears it while it starts."""
    if not hasattr(signal, "pthread_sigmask"):
        yield
        return
    before = signal.pthread_sigmask(signal.SIG_BLOCK, (signal.SIGINT,))
    try:
        yield
    finally:
        signal.pthread_sigmask(signal.SIG_SETMASK, before)


def _cores() -> int:
    """The processor cores that this process may use."""
    return len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1
