"""The door of the command line: which command, and what a failure looks like."""

import errno
import io
import sys

import pytest

from engine import __version__
from engine.cli.main import COMMANDS, main


class FullDisk(io.StringIO):
    """An output that has no room for anything."""

    def write(self, _: str, /) -> int:
        """Refuse as a full disk does."""
        raise OSError(errno.ENOSPC, "No space left on device")


def test_a_full_disk_under_the_output_is_one_sentence(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """What cannot be written is said on stderr, with exit code 2 and without a traceback."""
    monkeypatch.setattr(sys, "stdout", FullDisk())

    assert main(["--help"]) == 2
    assert capsys.readouterr().err == (
        "witnessmark: The output cannot be used: No space left on device. "
        "Check the disk and its permissions.\n"
    )


@pytest.mark.parametrize("words", [["--version"], ["-V"]])
def test_the_version_is_told(capsys: pytest.CaptureFixture[str], words: list[str]) -> None:
    """One line with name and version."""
    assert (main(words), capsys.readouterr().out) == (0, f"witnessmark {__version__}\n")


@pytest.mark.parametrize("words", [[], ["--help"], ["-h"], ["help"]])
def test_help_names_every_command(capsys: pytest.CaptureFixture[str], words: list[str]) -> None:
    """Each command stands in the help with its one line."""
    code = main(words)
    told = capsys.readouterr().out

    assert code == 0
    assert [name for name, about in COMMANDS.items() if f"  {name} " not in told or about not in told] == []


@pytest.mark.parametrize("command", COMMANDS)
def test_every_command_helps_with_an_example(capsys: pytest.CaptureFixture[str], command: str) -> None:
    """`--help` ends with a line that can be typed as it stands."""
    with pytest.raises(SystemExit) as ended:
        main([command, "--help"])

    assert ended.value.code == 0
    assert f"example: witnessmark {command}" in capsys.readouterr().out


def test_a_slip_in_the_command_is_told(capsys: pytest.CaptureFixture[str]) -> None:
    """The nearest command is the cure."""
    code = main(["reherse"])

    assert (code, capsys.readouterr().err) == (
        2,
        "witnessmark: There is no command `reherse`. Did you mean `rehearse`?\n",
    )


def test_a_failure_shows_escapes_and_does_not_obey_them(capsys: pytest.CaptureFixture[str]) -> None:
    """What was typed stands in the sentence as it was, and commands nothing."""
    main(["\x1b[31mwalk\n"])

    assert capsys.readouterr().err.startswith("witnessmark: There is no command `␛[31mwalk `.")
