"""Several processes on one file: races, and processes that are killed at any instant."""

import random
import subprocess
import sys
import time
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from contextlib import closing, contextmanager
from pathlib import Path
from typing import IO, Final, NamedTuple

import pytest

from engine.records.chain import verify
from engine.records.codec import seal
from engine.records.event import Noted, Opened
from engine.records.sqlite import SqliteStore
from tests.engine.records.samples import AT, OPENED, chain

HOUSE: Final = Path(__file__).parents[3]
WINDOW: Final = Path(__file__).with_name("window.py")
KILLS: Final = 200
ROUNDS: Final = 25
#: What makes the instants of the kills the same in every run, as far as the machine allows.
SEED: Final = 20260305


@contextmanager
def window(mode: str, file: Path, name: str, count: int) -> Iterator["subprocess.Popen[str]"]:
    """A window in a process of its own, which is gone afterwards."""
    words = [sys.executable, "-I", "-S", str(WINDOW), str(HOUSE), mode, str(file), name, str(count)]
    process = subprocess.Popen(words, stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True)
    try:
        yield process
    finally:
        process.kill()
        process.communicate()


def pipe(end: IO[str] | None) -> IO[str]:
    """The end of a pipe, which is there because it was asked for."""
    assert end is not None
    return end


def tell(process: "subprocess.Popen[str]") -> None:
    """Let a window go on."""
    pipe(process.stdin).write("\n")
    pipe(process.stdin).flush()


def hear(process: "subprocess.Popen[str]") -> str:
    """The next line that a window says."""
    return pipe(process.stdout).readline().strip()


class Killed(NamedTuple):
    """What came of one window that was killed."""

    acknowledged: list[str]
    #: Number and hash of every entry that was there afterwards.
    there: list[str]
    breaks: tuple[str, ...]
    went_on: bool
    exit_code: int


def killed(file: Path, case: str, delay: float) -> Killed:
    """Kill a window while it writes a case; then open the file, look, and go on with the case."""
    with window("append", file, case, 1_000_000) as process:
        acknowledged = [hear(process)]
        time.sleep(delay)
        process.kill()
        acknowledged += pipe(process.stdout).read().split("\n")[:-1]
        process.wait()
    with closing(SqliteStore(file)) as store:
        entries = store.read(case)
        last = entries[-1]
        store.append(last)
        after = seal(case, last.sequence + 1, AT, Noted("lift", "after the crash"), last.hash)
        store.append(after)
        went_on = store.read(case) == (*entries, after)
    there = [f"{entry.sequence} {entry.hash}" for entry in entries]
    return Killed(acknowledged, there, verify((*entries, after)), went_on, process.returncode)


@pytest.fixture(scope="module")
def crashes(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, list[Killed]]:
    """Two hundred windows on one file, two at a time, each killed at a random instant after its first ack."""
    file = tmp_path_factory.mktemp("crashes") / "cases.db"
    instants = random.Random(SEED)
    delays = [instants.uniform(0, 0.06) for _ in range(KILLS)]
    with ThreadPoolExecutor(2) as pool:
        futures = [pool.submit(killed, file, f"case-{n}", delay) for n, delay in enumerate(delays)]
        return file, [future.result() for future in futures]


class TestKilled:
    """A window that is killed (SIGKILL) loses nothing that it acknowledged.

    A kill leaves what the system has taken over from the program, synced or not; it proves nothing about a
    loss of power. There only `synchronous=FULL`, which another test holds the store to, and a disk that does
    as it is told will help.
    """

    def test_they_were_killed_at_work(self, crashes: tuple[Path, list[Killed]]) -> None:
        """Every one of them ended by the kill and had acknowledged at least its first entry."""
        codes = {crash.exit_code for crash in crashes[1]}

        assert len(crashes[1]) == KILLS
        assert codes == {1 if sys.platform == "win32" else -9}
        assert all(crash.acknowledged for crash in crashes[1])

    def test_nothing_acknowledged_is_lost(self, crashes: tuple[Path, list[Killed]]) -> None:
        """What was acknowledged is there, first to last; at most the one entry behind it is there as well."""
        lost = [c for c in crashes[1] if c.there[: len(c.acknowledged)] != c.acknowledged]
        invented = [c for c in crashes[1] if len(c.there) > len(c.acknowledged) + 1]

        assert (lost, invented) == ([], [])

    def test_no_chain_breaks(self, crashes: tuple[Path, list[Killed]]) -> None:
        """No case has a hole or a half of an entry."""
        assert [crash.breaks for crash in crashes[1] if crash.breaks] == []

    def test_the_case_goes_on(self, crashes: tuple[Path, list[Killed]]) -> None:
        """Giving the last entry again is harmless, and the next one is taken."""
        assert all(crash.went_on for crash in crashes[1])

    def test_all_cases_are_whole_in_the_end(self, crashes: tuple[Path, list[Killed]]) -> None:
        """Later crashes do not harm the cases of earlier ones, and the file is sound."""
        with closing(SqliteStore(crashes[0])) as store:
            heads = store.heads()
            broken = [case for case in store.cases() if verify(store.read(case))]
            sound = store._connection.execute("PRAGMA integrity_check").fetchone()[0]

        assert heads == {f"case-{n}": len(crash.there) + 1 for n, crash in enumerate(crashes[1])}
        assert (broken, sound) == ([], "ok")


def test_of_processes_that_write_one_number_one_wins(tmp_path: Path) -> None:
    """Each number is written once, however many windows try; the losers are told of the conflict."""
    file = tmp_path / "cases.db"
    with closing(SqliteStore(file)) as store:
        store.append(chain("race", OPENED)[0])
    with window("race", file, "a", ROUNDS) as a, window("race", file, "b", ROUNDS) as b:
        both = (a, b)
        assert [hear(process) for process in both] == ["ready", "ready"]
        outcomes = [_round(*both) for _ in range(ROUNDS)]

    with closing(SqliteStore(file)) as store:
        entries = store.read("race")
    assert outcomes == [["conflict", "won"]] * ROUNDS
    assert len(entries) == ROUNDS + 1
    assert verify(entries) == ()


def _round(*both: "subprocess.Popen[str]") -> list[str]:
    """Let the windows read, then release them to write."""
    for process in both:
        tell(process)
    assert [hear(process) for process in both] == ["read", "read"]
    for process in both:
        tell(process)
    return sorted(hear(process) for process in both)


@pytest.mark.parametrize("attempt", range(4))
def test_processes_may_open_a_new_file_together(tmp_path: Path, attempt: int) -> None:
    """Whoever is first makes the table; nobody fails, and every window's case is there."""
    file = tmp_path / f"new-{attempt}" / "cases.db"
    names = [f"case-{number}" for number in range(4)]
    words = [sys.executable, "-I", "-S", str(WINDOW), str(HOUSE), "append", str(file)]
    processes = [subprocess.Popen([*words, name, "3"], stdout=subprocess.PIPE) for name in names]
    for process in processes:
        process.communicate()

    with closing(SqliteStore(file)) as store:
        assert [process.returncode for process in processes] == [0, 0, 0, 0]
        assert dict(store.heads()) == dict.fromkeys(names, 3)
        assert isinstance(store.read("case-0")[0].event, Opened)
