"""Every command in the README does what the README says, from the folder of the repository."""

import os
import re
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

from engine.cli.main import COMMANDS
from engine.cli.settings import Settings, read
from engine.loading import folders
from engine.loading.library import gather

ROOT = Path(__file__).parents[1]
TEXT = (ROOT / "README.md").read_text(encoding="utf-8")


def _shown() -> Iterator[str]:
    """The `witnessmark ...` lines of the console blocks, in order."""
    for block in re.findall(r"```console\n(.*?)```", TEXT, re.DOTALL):
        yield from (line[2:] for line in block.splitlines() if line.startswith("$ "))


def _run(command: str, home: Path) -> subprocess.CompletedProcess[str]:
    words = command.split()
    assert words[0] == "witnessmark"
    environment = {**os.environ, "XDG_DATA_HOME": str(home), "HOME": str(home)}
    return subprocess.run(
        [sys.executable, "-m", "tui", *words[1:]],
        cwd=ROOT,
        env=environment,
        capture_output=True,
        text=True,
        check=False,
        input="",
    )


def test_every_command_shown_works_in_order(tmp_path: Path) -> None:
    """Typed one after the other, each command ends well (a walk by hand ends at once: nobody answers)."""
    for command in _shown():
        done = _run(command, tmp_path)
        by_hand = "--plain" in command and "--answers" not in command

        with_commit = " compare HEAD" in command
        codes = (1,) if by_hand else _of_compare() if with_commit else (0,)

        assert done.returncode in codes, f"{command}\n{done.stdout[-500:]}{done.stderr[-500:]}"
        assert "Traceback" not in done.stderr


def _of_compare() -> tuple[int, ...]:
    """How a comparison with the last commit ends: work may be under way, and a copy may have no commits."""
    return (0, 1) if (ROOT / ".git").exists() else (2,)


def test_the_settings_shown_are_settings(tmp_path: Path) -> None:
    """What stands there as TOML is read, every key of it."""
    (shown,) = re.findall(r"```toml\n(.*?)```", TEXT, re.DOTALL)
    (tmp_path / "witnessmark.toml").write_text(shown, encoding="utf-8")

    assert read(tmp_path) == Settings(
        (tmp_path / "trees",), (), ("tree-not-rehearsed",), tmp_path / "backlog.json"
    )


def test_every_command_is_shown() -> None:
    """No command of the command line is missing from the README."""
    shown = {command.split()[1] for command in _shown() if len(command.split()) > 1}

    assert set(COMMANDS) <= shown


def test_every_complaint_is_listed() -> None:
    """The technician finds the titles of all shipped trees, and of no others."""
    shown = TEXT.split("The complaints that it comes with")[1].split("The same walk")[0]

    assert sorted(re.findall(r"^- (.*)$", shown, re.MULTILINE)) == sorted(
        tree.title for tree in gather(folders.shipped()).trees.values()
    )


def test_pictures_are_there() -> None:
    """Every picture that the README shows exists."""
    pictures = re.findall(r"!\[[^\]]*\]\(([^)]+)\)", TEXT)

    assert pictures
    assert [picture for picture in pictures if not (ROOT / picture).is_file()] == []


@pytest.mark.parametrize("mark", ["main job", "tests"])
def test_two_commands_do_everything(mark: str) -> None:
    """The two commands stand behind their marks, one line each, and need only Python and pip."""
    block = TEXT.split(f"<!-- {mark} -->")[1].split("```")[1]
    command = block.removeprefix("sh\n").strip()

    assert "\n" not in command
    assert command.startswith("python3 -m venv .venv && .venv/bin/pip install ")
