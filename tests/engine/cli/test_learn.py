"""`confirm` and `learn`: said after the repair, counted, and written only on request."""

import json
from pathlib import Path

import pytest

from engine import api
from engine.cli.main import main
from engine.interview.command import Accept, Choose, Settle
from tests.engine.belief.test_learned import TREE
from tests.engine.cli.shell import shell
from tests.engine.interview.given import library


@pytest.fixture
def store(tmp_path: Path) -> Path:
    """A store with three cases: the shaft was convicted twice, the coupling once."""
    path = tmp_path / "cases.db"
    held = api.open_store(str(path))
    for name, answer in (("one", 0), ("two", 0), ("three", 1)):
        job = api.open_job(held, library(TREE), "bench", "wagon", case=name, label=name)
        for command in (Choose(answer), Accept()):
            after = api.act(held, job, command)
            assert isinstance(after, api.Job)
            job = after
    api.open_job(held, library(TREE), "bench", "wagon", case="open")
    held.close()
    return path


def told(capsys: pytest.CaptureFixture[str], *words: object) -> tuple[int, str, str]:
    """The exit code, the output and the errors."""
    code = main([str(word) for word in words])
    said = capsys.readouterr()
    return code, said.out, said.err


def test_it_is_kept_and_told(store: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """In the case, and on its page."""
    words = ("confirm", "one", "--fixed", "--cause", "shaft", "--remark", "quiet since", "--store", store)
    assert told(capsys, *words)[:2] == (
        0,
        "Kept for one: the complaint is gone; true cause: Shaft sheared; quiet since\n",
    )
    page = told(capsys, "report", "one", "--store", store)[1]
    assert "the complaint is gone; true cause: Shaft sheared; quiet since" in page


@pytest.mark.parametrize(
    ("words", "why"),
    [
        (("one", "--fixed", "--cause", "shfat"), "Did you mean `shaft`?"),
        (("open", "--fixed"), "accept that first."),
        (("four", "--fixed"), "four"),
    ],
    ids=["cause", "open", "no case"],
)
def test_what_cannot_be_kept_says_why(
    words: tuple[str, ...], why: str, store: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """One sentence with the cure, exit code 2, and nothing kept."""
    code, out, err = told(capsys, "confirm", *words, "--store", store)
    assert (code, out, why in err) == (2, "", True)


@pytest.fixture
def learnt(store: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> tuple[object, ...]:
    """The words of `learn` on that store, two cases confirmed, and a library that has the tree."""
    for case, became in (("one", "--fixed"), ("three", "--not-fixed")):
        told(capsys, "confirm", case, became, "--store", store)
    told(capsys, "confirm", "two", "--fixed", "--cause", "bearing", "--store", store)
    return ("learn", "bench", "--library", shell(tmp_path / "shell", TREE).folder / "own", "--store", store)


def test_weights_and_returns_are_told(learnt: tuple[object, ...], capsys: pytest.CaptureFixture[str]) -> None:
    """Beside what the author wrote, with the number of cases."""
    code, out, _ = told(capsys, *learnt)
    assert code == 0
    assert "bench: 2 confirmed cases, 0 of something else, 1 not known." in out
    assert "  Shaft sheared: 56%, 1 of 2, 43% (6% to 94%)" in out
    assert "  The coupling: 1 of 1, 75%" in out


def test_json_has_the_same(learnt: tuple[object, ...], capsys: pytest.CaptureFixture[str]) -> None:
    """For machines."""
    made = json.loads(told(capsys, *learnt, "--json")[1])
    assert (made["confirmed"], made["unknown"]) == (2, 1)
    assert [(weight["suspect"], weight["found"]) for weight in made["weights"]] == [
        ("bearing", 1),
        ("shaft", 1),
        ("coupling", 0),
    ]


def test_nothing_is_written_unless_asked_for(
    learnt: tuple[object, ...], capsys: pytest.CaptureFixture[str]
) -> None:
    """The file of the tree stays as it is; with --write only its weights change, and it still lints clean."""
    path = next(path for path in Path(str(learnt[3])).rglob("*.yaml") if "tree: bench" in path.read_text())
    before = path.read_text().splitlines()
    told(capsys, *learnt)
    assert path.read_text().splitlines() == before

    assert told(capsys, *learnt, "--write")[0] == 0
    changed = [
        (old, new) for old, new in zip(before, path.read_text().splitlines(), strict=True) if old != new
    ]
    assert [new.split("weight: ")[0] for _, new in changed] == [
        old.split("weight: ")[0] for old, _ in changed
    ]
    assert changed


def test_without_cases_nothing_is_written(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """It is refused, with the cure."""
    own = shell(tmp_path / "shell", TREE).folder / "own"
    code, _, err = told(
        capsys, "learn", "bench", "--library", own, "--store", tmp_path / "none.db", "--write"
    )
    assert (code, "witnessmark confirm" in err) == (2, True)


def test_signs_are_written_where_there_are_enough(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Ten shafts, all of which whined: hundredths that add up to 1, and all else as it was."""
    path = tmp_path / "cases.db"
    held = api.open_store(str(path))
    for number in range(10):
        job = api.open_job(held, library(TREE), "bench", "wagon", case=f"c{number}", label=f"HP-{number}")
        for command in (Choose(0), Accept(), Settle(fixed=True)):
            after = api.act(held, job, command)
            assert isinstance(after, api.Job)
            job = after
    held.close()
    own = shell(tmp_path / "shell", TREE).folder / "own"
    file = next(each for each in own.rglob("*.yaml") if "tree: bench" in each.read_text())
    before = file.read_text()

    code, out, _ = told(capsys, "learn", "bench", "--library", own, "--store", path, "--write")

    assert (code, "Signs at first: shaft." in out) == (0, True)
    after_text = file.read_text()
    assert "shaft: 0.95, coupling: 0.2" in after_text
    assert "shaft: 0.05, coupling: 0.8" in after_text
    assert len(before.splitlines()) == len(after_text.splitlines())
