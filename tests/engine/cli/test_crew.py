"""A large library read by several processes is the library that one process reads."""

import os
import signal
import subprocess
import sys
import time
from collections.abc import Iterator
from pathlib import Path

import pytest

from engine.cli import crew
from engine.loading.leaf import File, Leaf, leaf
from engine.loading.library import gather

TREE = """\
tree: tree-{number}
format: 1
revision: 1
title: A tree
complaint: It does not drive.
suspects: {{shaft: {{name: Shaft broken, weight: {weight}}}}}
start: end
steps:
  end: {{verdict: Broken, suspects: [shaft], grade: repair, correction: Mend it.}}
"""


def files(count: int) -> Iterator[File]:
    """So many files; every seventh breaks the schema, every eleventh is no YAML at all."""
    for number in range(count):
        text = TREE.format(number=number, weight="none" if number % 7 == 3 else 2)
        content = b"{" if number % 11 == 5 else text.encode()
        yield File(f"{number}.yaml", f"{number}.yaml", content)


@pytest.mark.parametrize(
    "count", [0, 1, crew.FEW, crew.FEW + 1, crew.FEW + 24, crew.FEW + 25, crew.FEW + 230]
)
def test_same_library(count: int, monkeypatch: pytest.MonkeyPatch) -> None:
    """Whatever the number of files, each comes once, in its order, with the same documents and problems."""
    monkeypatch.setattr(crew, "_cores", lambda: 3)
    alone, shared = gather(files(count)), gather(files(count), crew.together)
    assert (shared, list(shared.texts)) == (alone, list(alone.texts))


def _elsewhere(file: File) -> Leaf:
    return leaf(file)._replace(text=str(os.getpid()))


def test_shared_out(monkeypatch: pytest.MonkeyPatch) -> None:
    """The first files are read here, those after them by other processes."""
    monkeypatch.setattr(crew, "_cores", lambda: 2)
    readers = [int(read.text) for read in crew.together(_elsewhere, files(crew.FEW + 100))]
    assert set(readers[: crew.FEW]) == {os.getpid()}
    assert os.getpid() not in readers[crew.FEW :]


def test_one_core(monkeypatch: pytest.MonkeyPatch) -> None:
    """Where there is one core, no other process is started."""
    monkeypatch.setattr(crew, "_cores", lambda: 1)
    readers = {read.text for read in crew.together(_elsewhere, files(crew.FEW + 100))}
    assert readers == {str(os.getpid())}


_INTERRUPTED = """\
import signal, sys
from engine.cli import crew
from tui.__main__ import main
spread = crew._spread
def told(*given):
    print("shared out", flush=True)
    return spread(*given)
crew._spread = told
crew._cores = lambda: 2
signal.signal(signal.SIGINT, signal.default_int_handler)
sys.argv = ["witnessmark", "lint", sys.argv[1]]
sys.exit(main())
"""


def test_interrupted(tmp_path: Path) -> None:
    """Ctrl-C ends all of them at once, without a traceback."""
    for file in files(3000):
        (tmp_path / file.path).write_bytes(file.content)
    words = (sys.executable, "-c", _INTERRUPTED, str(tmp_path))
    pipe = subprocess.PIPE
    with subprocess.Popen(words, stdout=pipe, stderr=pipe, start_new_session=True) as running:
        assert running.stdout is not None
        assert running.stdout.readline() == b"shared out\n"
        time.sleep(0.1)
        os.killpg(running.pid, signal.SIGINT)
        _, told = running.communicate(timeout=120)
    assert (running.returncode, told.decode()) == (130, "\nStopped. What was answered is kept.\n")
