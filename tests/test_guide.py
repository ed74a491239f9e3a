"""The guide for trainers, followed to the letter: what it shows is written, what it types is typed."""

import os
import re
import subprocess
import sys
from functools import cache
from pathlib import Path
from tempfile import mkdtemp

import pytest

ROOT = Path(__file__).parents[1]
TEXT = (ROOT / "trees/README.md").read_text(encoding="utf-8")
COMMANDS = [
    line[2:] for block in re.findall(r"```console\n(.*?)```", TEXT, re.DOTALL) for line in block.splitlines()
]
(TREE,) = re.findall(r"```yaml\n(.*?)```", TEXT, re.DOTALL)


def _typed(command: str, folder: Path) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-m", "tui", *command.split()[1:]],
        cwd=folder,
        env={**os.environ, "PYTHONPATH": str(ROOT), "HOME": str(folder), "XDG_CACHE_HOME": str(folder)},
        capture_output=True,
        text=True,
        check=False,
    )


@cache
def followed() -> dict[str, list[subprocess.CompletedProcess[str]]]:
    """Each command with how it ended; the new file gets what the guide shows, below its first line."""
    folder = Path(mkdtemp())
    ended: dict[str, list[subprocess.CompletedProcess[str]]] = {}
    for command in COMMANDS:
        ended.setdefault(command, []).append(_typed(command, folder))
        if command.startswith("witnessmark new"):
            path = folder / "own/complaints/rattles-at-idle.yaml"
            path.write_text(path.read_text("utf-8").splitlines()[0] + "\n" + TREE, encoding="utf-8")
    return ended


@pytest.mark.parametrize("command", dict.fromkeys(COMMANDS))
def test_every_command_of_the_guide_ends_well(command: str) -> None:
    """Exit code 0, and no complaint, each time that it is typed."""
    assert [each.returncode for each in followed()[command]] == [0] * COMMANDS.count(command)
    assert all("Traceback" not in each.stderr for each in followed()[command])


def test_lint_finds_nothing_at_the_end() -> None:
    """The tree of the guide with its drafts keeps every rule."""
    assert followed()["witnessmark lint own"][-1].stdout.endswith(" nothing found.\n")


def test_nothing_is_left_unrehearsed_at_the_end() -> None:
    """All drafts pass, and nothing is left that none visits."""
    told = followed()["witnessmark rehearse own"][-1].stdout

    assert ("never visited" in told, told.endswith(" 0 failed.\n")) == (False, True)


def test_what_is_promised_of_words_is_true() -> None:
    """A step has at most 205 characters, as the guide says, and so have those that it shows."""
    texts = re.findall(r"^    (?:do|ask|measure): (.*)$", TREE, re.MULTILINE)

    assert "at most 205 characters" in TEXT
    assert max(map(len, texts)) <= 205
