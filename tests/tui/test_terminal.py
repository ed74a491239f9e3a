"""The real program in a real pseudo-terminal: walks, signals, sizes, colours, full disks."""

import os
import re
import resource
import signal
import time
from collections.abc import Callable
from pathlib import Path

import pytest

from engine import api
from engine.interview import command as ask
from engine.loading.answers import answers
from tests.killed_walks import SCRIPT, next_command
from tests.tui.terminal import ROOT, Terminal
from tests.tui.typist import CASE, give, keys
from tui.widgets.guard import QUIET

WALK = ("walk", "no-rear-drive", "--vehicle", "fellside", "--case", CASE, "--label", "HP-204")
FIRST = "CAUTION"


@pytest.fixture
def url(tmp_path: Path) -> str:
    """A store of its own."""
    return str(tmp_path / "cases.db")


def test_a_whole_walk_by_keys_alone_ends_in_its_verdict(url: str) -> None:
    """Each answer is on disk before the next question; then q, exit code 0, and the terminal as it was."""
    script = answers(SCRIPT)
    store = api.open_store(url)
    with Terminal([*WALK, "--store", url]) as terminal:
        terminal.until(FIRST)
        pressed = ""
        while (command := next_command(api.resume(store, CASE).state, script)) is not None:
            if keys(command)[0] == pressed[-1:]:
                time.sleep(QUIET + 0.05)  # a key that is held answers once
            pressed = give(terminal, store, command)
        terminal.until("VERDICT, accepted")
        terminal.press("p")
        terminal.until("WITNESSMARK")
        terminal.press("q")
        code = terminal.ended()
    job = api.resume(store, CASE)
    store.close()

    assert code == 0
    assert b"\x1b[?1049l" in terminal.sent
    assert api.verify(job.entries) == ()
    assert job.state.concluded


@pytest.mark.parametrize("size", [(40, 12), (60, 20), (100, 30), (200, 60)], ids=lambda s: f"{s[0]}x{s[1]}")
def test_it_starts_at_any_size(size: tuple[int, int], url: str) -> None:
    """The caution and its answer stand on the screen, and the key works."""
    with Terminal([*WALK, "--store", url], size) as terminal:
        terminal.until("u  Understood")
        terminal.read()

        assert FIRST in terminal.text()
        assert "u understood" in terminal.text()


def test_a_size_left_behind_by_another_program_is_not_believed(url: str) -> None:
    """What COLUMNS and LINES say was true of some other window; this one is small, and then large."""
    with Terminal([*WALK, "--store", url], (40, 12), {"COLUMNS": "80", "LINES": "24"}) as terminal:
        terminal.until("█   u  Understood")
        small = terminal.text()
        terminal.resize(140, 40)

        assert FIRST in small
        assert terminal.until("Nothing answered yet.")


def test_the_window_may_change_its_size_at_any_time(url: str) -> None:
    """Wide shows the trail, narrow hides it, and the answer stays in reach."""
    with Terminal([*WALK, "--store", url]) as terminal:
        terminal.until(FIRST)
        terminal.resize(140, 40)
        terminal.until("Nothing answered yet.")
        terminal.resize(40, 12)
        terminal.until(lambda: "Nothing answered yet." not in terminal.text())

        assert "u  Understood" in terminal.until("u  Understood")


def test_no_color_sends_no_colour(url: str) -> None:
    """Attributes, and the terminal's default colours (39, 49): nothing else."""
    with Terminal([*WALK, "--store", url], environment={"NO_COLOR": "1"}) as terminal:
        terminal.until("u understood")
        terminal.read()
        terminal.press("u")
        terminal.until("Never tow it")
        codes = {
            code for found in re.findall(rb"\x1b\[([0-9;]*)m", terminal.sent) for code in found.split(b";")
        }

    assert codes <= {b"", b"0", b"1", b"2", b"4", b"7", b"39", b"49"}


def test_colours_are_sent_without_no_color(url: str) -> None:
    """So that the test above can fail."""
    with Terminal([*WALK, "--store", url]) as terminal:
        terminal.until("u understood")

        assert b"\x1b[38;" in terminal.sent or b";38;" in terminal.sent


@pytest.mark.parametrize(
    ("words", "wanted"), [((), True), (("--no-mouse",), False)], ids=["mouse", "no-mouse"]
)
def test_the_mouse_can_be_left_to_the_terminal(words: tuple[str, ...], wanted: bool, url: str) -> None:  # noqa: FBT001  reason: a table of cases
    """With --no-mouse the program does not ask for it."""
    with Terminal([*WALK, "--store", url, *words]) as terminal:
        terminal.until(FIRST)

        assert (b"\x1b[?1000h" in terminal.sent) is wanted


def test_sigterm_ends_it_and_gives_the_terminal_back(url: str) -> None:
    """Nothing has to be saved: the case stands where it stood."""
    store = api.open_store(url)
    with Terminal([*WALK, "--store", url]) as terminal:
        terminal.until("u understood")
        give(terminal, store, ask.Acknowledge("first"))
        os.kill(terminal.process, signal.SIGTERM)
        code = terminal.ended()
    entries = api.resume(store, CASE).entries
    store.close()

    assert code == 128 + signal.SIGTERM
    assert b"\x1b[?1049l" in terminal.sent
    assert (len(entries), api.verify(entries)) == (2, ())


def test_a_closed_window_ends_it(url: str) -> None:
    """The terminal goes away; so does the program, and the case stands where it stood."""
    store = api.open_store(url)
    terminal = Terminal([*WALK, "--store", url])
    terminal.until("u understood")
    give(terminal, store, ask.Acknowledge("first"))
    os.close(terminal.child.child_fd)
    end = time.monotonic() + 10
    while (alive := os.waitpid(terminal.process, os.WNOHANG) == (0, 0)) and time.monotonic() < end:
        time.sleep(0.05)
    entries = api.resume(store, CASE).entries
    store.close()

    assert not alive
    assert (len(entries), api.verify(entries)) == (2, ())


def test_after_kill_9_the_walk_goes_on_where_it_was(url: str) -> None:
    """What was acknowledged is on disk; the second caution is shown."""
    store = api.open_store(url)
    with Terminal([*WALK, "--store", url]) as terminal:
        terminal.until("u understood")
        give(terminal, store, ask.Acknowledge("first"))
        os.kill(terminal.process, signal.SIGKILL)
        terminal.ended()
    store.close()
    with Terminal(["walk", "--case", CASE, "--store", url]) as again:
        seen = again.until("u understood")

    assert "Never tow it on two wheels" in seen


def test_without_utf_8_it_says_so_and_ends(url: str) -> None:
    """Exit code 2, one sentence, and the plain walk as the cure."""
    environment = {"LC_ALL": "C", "PYTHONCOERCECLOCALE": "0", "PYTHONUTF8": "0", "PYTHONIOENCODING": "ascii"}
    with Terminal([*WALK, "--store", url], environment=environment) as terminal:
        code = terminal.ended()

    assert code == 2
    assert b"needs a terminal with UTF-8" in terminal.sent
    assert b"\x1b[" not in terminal.sent


def test_a_damaged_store_is_told_on_the_first_screen(url: str) -> None:
    """The program opens, names the file, and says what helps."""
    Path(url).write_bytes(b"this is no store\n" * 500)
    with Terminal(["--store", url]) as terminal:
        seen = terminal.until("damaged")
        terminal.press("q")

        assert "damaged or is no store" in " ".join(seen.split())
        assert terminal.ended() == 0


def limited(blocks: int) -> Callable[[], None]:
    """No file may grow beyond so many KiB: the system then says that there is no room."""

    def limit() -> None:
        resource.setrlimit(resource.RLIMIT_FSIZE, (blocks * 1024, blocks * 1024))

    return limit


def test_a_disk_that_takes_no_more_is_told_and_what_was_written_before_is_kept(url: str) -> None:
    """Notes are taken until there is no room; then it is said, and the question stands."""
    store = api.open_store(url)
    job = api.open_job(store, api.library(), "no-rear-drive", "fellside", case=CASE)
    store.close()
    with Terminal(["walk", "--case", CASE, "--store", url], before=limited(40)) as terminal:
        terminal.until("u understood")
        for number in range(60):
            terminal.press("n")
            terminal.until("Note\n")
            terminal.press(f"{number} " + "x" * 1500 + "\r")
            terminal.until(lambda: "Note\n" not in terminal.text())
            if "NOT DONE" in terminal.text():
                break
        seen = terminal.until("Nothing was lost.")
        terminal.press("\x1b")
        after = terminal.until("u understood")
    store = api.open_store(url)
    entries = api.resume(store, CASE).entries
    store.close()

    assert "NOT DONE" in seen
    assert FIRST in after
    assert len(entries) > len(job.entries)
    assert api.verify(entries) == ()


def test_the_repository_is_where_the_terminal_runs() -> None:
    """The program under test is this one."""
    assert (ROOT / "tui" / "app.py").exists()
