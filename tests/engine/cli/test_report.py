"""`report`: printed, or written to a file that was not there before."""

from pathlib import Path

import pytest

from engine import api
from engine.cli.main import main
from engine.interview.command import Note
from engine.records.sqlite import SqliteStore
from tests.engine.cli.spoken import LOOK, PROVE, TREE
from tests.engine.interview.given import library


@pytest.fixture
def store(tmp_path: Path) -> Path:
    """A store with one case."""
    path = tmp_path / "cases.db"
    held = SqliteStore(path)
    job = api.open_job(held, library(TREE, LOOK, PROVE), "bench", "wagon", case="one")
    api.act(held, job, Note("über 6 mm ≈ \x1b[31m"))
    held.close()
    return path


def page(store: Path) -> str:
    """The page of the case as the engine makes it."""
    held = SqliteStore(store)
    try:
        return api.report(api.resume(held, "one"))
    finally:
        held.close()


def test_the_page_is_printed(store: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """What is printed is the page and nothing else, and it commands no terminal."""
    code = main(["report", "one", "--store", str(store)])
    told = capsys.readouterr()

    assert (code, told.out, told.err) == (0, page(store), "")
    assert "\x1b" not in told.out


def test_the_page_is_written(store: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """With --to the page goes into the file as UTF-8, and one line says so."""
    file = tmp_path / "case.md"
    code = main(["report", "one", "--store", str(store), "--to", str(file)])

    assert (code, capsys.readouterr().out) == (0, f"Written to {file}.\n")
    assert file.read_bytes() == page(store).encode()


def test_a_file_that_is_there_is_left_alone(
    store: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Nothing is written over: exit code 2 with the cure."""
    file = tmp_path / "case.md"
    file.write_text("mine", encoding="utf-8")
    code = main(["report", "one", "--store", str(store), "--to", str(file)])

    assert (code, capsys.readouterr().err) == (
        2,
        f"witnessmark: {file} is there already. Give another name.\n",
    )
    assert file.read_text(encoding="utf-8") == "mine"


def test_a_folder_that_is_not_there_is_told(
    store: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """A place that cannot be written to is exit code 2 with the cure."""
    code = main(["report", "one", "--store", str(store), "--to", str(tmp_path / "no" / "case.md")])

    assert code == 2
    assert capsys.readouterr().err.endswith(
        "cannot be written: No such file or directory. Choose another folder.\n"
    )


def test_a_case_that_is_not_there_is_told(store: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Exit code 2 with where cases are listed."""
    code = main(["report", "two", "--store", str(store)])

    assert (code, capsys.readouterr().err) == (
        2,
        "witnessmark: There is no case two here. `witnessmark cases` lists those that are.\n",
    )
