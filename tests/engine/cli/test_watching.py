"""`witnessmark lint --watch` in a process of its own, as a trainer has it beside the editor."""

import os
import signal
import subprocess
import sys
import threading
import time
from collections.abc import Iterator
from pathlib import Path

import pytest

BAD = Path(__file__).parents[1] / "lint/documents/no-unsure/bad-ask.yaml"
LONGEST = 60


class Watched:
    """A watching process and all that it has said."""

    def __init__(self, folder: Path, *words: str) -> None:
        # a process that a test runner has put into the background would not hear Ctrl-C
        code = (
            "import signal, sys, engine.cli.main as m\n"
            "signal.signal(signal.SIGINT, signal.default_int_handler)\n"
            "sys.exit(m.main(sys.argv[1:]))"
        )
        home = str(Path(__file__).parents[3])
        self.process = subprocess.Popen(
            [sys.executable, "-u", "-c", code, "lint", "--watch", *words],
            stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True, cwd=folder,
            env=os.environ | {"PYTHONPATH": home, "XDG_CACHE_HOME": str(folder / ".cache")},
        )  # fmt: skip
        self.said = ""
        self._ear = threading.Thread(target=self._listen, daemon=True)
        self._ear.start()

    def _listen(self) -> None:
        assert self.process.stdout is not None
        with self.process.stdout as lines:
            for line in lines:
                self.said += line

    def until(self, text: str, times: int = 1) -> None:
        """Wait until it has said a text so often."""
        end = time.monotonic() + LONGEST
        while self.said.count(text) < times:
            assert time.monotonic() < end, self.said
            assert self.process.poll() is None, self.said
            time.sleep(0.05)

    def stop(self) -> int:
        """Press Ctrl-C."""
        self.process.send_signal(signal.SIGINT)
        return self.process.wait(LONGEST)

    def end(self) -> None:
        """Whatever happened, leave nothing running."""
        self.process.kill()
        self.process.wait()
        self._ear.join()


@pytest.fixture
def watched(tmp_path: Path) -> Iterator[Watched]:
    """A process that watches a folder with one bad tree, once it has begun to."""
    (tmp_path / "trees").mkdir()
    (tmp_path / "trees/bad.yaml").write_bytes(BAD.read_bytes())
    started = Watched(tmp_path)
    try:
        started.until("Watching trees.")
        time.sleep(0.5)  # it says so just before it begins to
        yield started
    finally:
        started.end()


def test_a_mended_file_is_looked_at_again(watched: Watched, tmp_path: Path) -> None:
    """The finding is told, and told no more once the file is saved without it."""
    watched.until("warning no-unsure")
    text = BAD.read_text().replace("    minutes: 1\n", "    minutes: 1\n    unsure: refer\n")
    (tmp_path / "trees/bad.yaml").write_text(text)
    watched.until("1 file, 1 tree: ", times=2)

    assert watched.said.count("warning no-unsure") == 1
    assert "bad.yaml\n" in watched.said


def test_a_file_that_is_put_in_place_of_the_old_one_counts(watched: Watched, tmp_path: Path) -> None:
    """Many editors write a new file and rename it."""
    (tmp_path / "trees/bad.part").write_text("tre: a\n")
    (tmp_path / "trees/bad.part").replace(tmp_path / "trees/bad.yaml")

    watched.until("error unknown-kind")


def test_a_picture_that_comes_late_counts(watched: Watched, tmp_path: Path) -> None:
    """It is told as absent, and no more once it was put where the step names it."""
    text = BAD.read_text().replace("    minutes: 1\n", "    minutes: 1\n    picture: joint.svg\n")
    (tmp_path / "trees/bad.yaml").write_text(text)
    watched.until("error picture-not-there")
    (tmp_path / "trees/joint.svg").write_text("<svg xmlns='http://www.w3.org/2000/svg'/>")
    watched.until("joint.svg\n")
    watched.until("1 file, 1 tree: ", times=3)

    assert watched.said.count("error picture-not-there") == 1


def test_it_goes_on_when_nothing_is_left(watched: Watched, tmp_path: Path) -> None:
    """What cannot be done is told, and done after the next change."""
    (tmp_path / "trees/bad.yaml").unlink()
    watched.until("There is no YAML file below trees.")
    (tmp_path / "trees/new.yaml").write_text("tre: a\n")

    watched.until("error unknown-kind")


def test_ctrl_c_ends_it_with_what_was_found_last(watched: Watched) -> None:
    """Exit code 1 while a finding stands, and no traceback."""
    assert watched.stop() == 1
    assert "Traceback" not in watched.said
