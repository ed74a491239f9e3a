"""`learn`: cases counted beside what the author wrote, and written only on request."""

import json
import re
import sqlite3
from pathlib import Path

import pytest

from engine import api
from engine.cli.main import main
from engine.interview.command import Accept, Choose, Settle
from tests.engine.belief.counted import TREE
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
    assert out.splitlines() == [
        "bench: 2 confirmed cases (20 are enough), 1 whose cause nobody knows.",
        "",
        "how often it was the cause: authored; counted, by the cases (95 %)",
        "  Bearing worn: 10%; 1 of 2, 38% (6% to 94%)",
        "  Shaft sheared: 50%; 1 of 2, 38% (6% to 94%)",
        "  Coupling dead: 30%; 0 of 2, 12% (0% to 67%)",
        "  Something else, not in this tree: 10%; 0 of 2, 12% (0% to 67%)",
        "",
        "signs: authored; counted, by the cases (95 %)",
        "  none of which there are enough yet",
        "",
        "verdicts that came back: counted, by the cases (95 %)",
        "  The coupling; 1 of 1, 75% (15% to 100%)",
        "  The shaft; 0 of 2, 17% (0% to 67%)",
    ]


def test_json_has_the_same(learnt: tuple[object, ...], capsys: pytest.CaptureFixture[str]) -> None:
    """For machines."""
    made = json.loads(told(capsys, *learnt, "--json")[1])

    assert (made["confirmed"], made["enough"], made["unknown"], made["written"]) == (2, 20, 1, None)
    assert [(weight["suspect"], weight["found"]) for weight in made["weights"]] == [
        ("bearing", 1),
        ("shaft", 1),
        ("coupling", 0),
        ("elsewhere", 0),
    ]
    assert [(back["step"], back["found"], back["of"], back["open"]) for back in made["returns"]] == [
        ("dead", 1, 1, 0),
        ("shaft", 0, 2, 0),
    ]


@pytest.mark.usefixtures("learnt")
def test_without_a_tree_the_verdicts_of_all_are_told(store: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Each with the name of its tree; the library need not have it."""
    assert told(capsys, "learn", "--store", store)[1].splitlines() == [
        "verdicts that came back: counted, by the cases (95 %)",
        "  bench: The coupling; 1 of 1, 75% (15% to 100%)",
        "  bench: The shaft; 0 of 2, 17% (0% to 67%)",
    ]
    assert len(json.loads(told(capsys, "learn", "--store", store, "--json")[1])["returns"]) == 2


def test_a_damaged_case_is_told(
    learnt: tuple[object, ...], store: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """It is left out, and the others count."""
    connection = sqlite3.connect(store)
    with connection:
        connection.execute("""UPDATE entries SET entry = ? WHERE "case" = 'one' AND sequence = 1""", (b"?",))
    connection.close()
    out = told(capsys, *learnt)[1].splitlines()

    assert out[:2] == [
        "Left out, for they cannot be read: 1. `witnessmark cases verify` names them.",
        "bench: 1 confirmed cases (20 are enough), 1 whose cause nobody knows.",
    ]


def file_of(words: tuple[object, ...]) -> Path:
    """The file of the tree."""
    (found,) = (path for path in Path(str(words[3])).rglob("*.yaml") if "tree: bench" in path.read_text())
    return found


def test_only_the_numbers_are_written(learnt: tuple[object, ...], capsys: pytest.CaptureFixture[str]) -> None:
    """Without --write nothing; with it the weights, line for line, and what something else would weigh."""
    path = file_of(learnt)
    before = path.read_text()
    told(capsys, *learnt)
    untouched = path.read_text()
    code, out, _ = told(capsys, *learnt, "--write", "--enough", 2)

    assert (code, untouched) == (0, before)
    assert path.read_text() == (
        before.replace("worn, weight: 1", "worn, weight: 3.75")
        .replace("sheared, weight: 5", "sheared, weight: 3.75")
        .replace("dead, weight: 3", "dead, weight: 1.25")
    )
    assert out.splitlines()[-1] == f"Written to {path}: look at the difference, and lint it."


def test_what_something_else_would_weigh_is_told(
    learnt: tuple[object, ...], store: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Where the tree says nothing of it, it is left to its author; where it does, it is written."""
    path = file_of(learnt)
    for case in ("one", "two", "three"):
        told(capsys, "confirm", case, "--fixed", "--cause", "elsewhere", "--store", store)
    code, out, _ = told(capsys, *learnt, "--write", "--enough", 3)
    path.write_text(path.read_text().replace("suspects:", "elsewhere: 1  # who knows\nsuspects:", 1))
    again = told(capsys, *learnt, "--write", "--enough", 3)[1]

    assert (code, "the cases say `elsewhere: 7`." in out) == (0, True)
    assert "something else to its lightest" not in again
    assert "\nelsewhere: 2.8  # who knows\n" in path.read_text()


def test_json_says_what_was_written(learnt: tuple[object, ...], capsys: pytest.CaptureFixture[str]) -> None:
    """One object and nothing else."""
    made = json.loads(told(capsys, *learnt, "--write", "--enough", 1, "--json")[1])

    assert made["written"] == str(file_of(learnt))


@pytest.mark.parametrize(
    ("words", "why"),
    [
        (
            ("bench", "--write"),
            "2 confirmed cases are too few to write: 20 are enough. Say what became of more",
        ),
        (("no-rear-drive", "--write"), "is of the shipped library, which is not written to. Name the folder"),
        (("bensh",), "There is no tree `bensh`. Did you mean `bench`?"),
        (("--write",), "Only one tree is written at a time."),
    ],
    ids=["few", "shipped", "no tree", "all"],
)
def test_what_cannot_be_done_says_why(
    words: tuple[str, ...], why: str, learnt: tuple[object, ...], capsys: pytest.CaptureFixture[str]
) -> None:
    """One sentence with the cure, exit code 2, and the file as it was."""
    before = file_of(learnt).read_bytes()
    code, out, err = told(capsys, "learn", *words, *learnt[2:])

    assert (code, out, why in err) == (2, "", True)
    assert file_of(learnt).read_bytes() == before


def test_a_file_whose_numbers_are_shared_stays_as_it_is(
    learnt: tuple[object, ...], capsys: pytest.CaptureFixture[str]
) -> None:
    """A weight that is an alias of another one cannot be changed alone."""
    path = file_of(learnt)
    path.write_text(path.read_text().replace("weight: 1", "weight: &w 1").replace("weight: 3", "weight: *w"))
    before = path.read_bytes()
    code, _, err = told(capsys, *learnt, "--write", "--enough", 1)

    assert (code, "stays as it is. There is no number at suspects, bearing, weight." in err) == (2, True)
    assert path.read_bytes() == before


def test_signs_are_written_where_there_are_enough(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Ten shafts that all whined: hundredths that add up to 1, all else as it was, and lint says the same."""
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
    words = ("learn", "bench", "--library", own, "--store", path)
    before = file_of(words).read_text()
    findings = told(capsys, "lint", own, "--format", "lines")[:2]

    code, out, _ = told(capsys, *words, "--write", "--enough", 10)
    after_text = file_of(words).read_text()

    assert (code, "Signs at first: shaft." in out) == (0, True)
    assert "fits: {shaft: 0.95, coupling: 0.2, bearing: 0.5}" in after_text
    assert "fits: {shaft: 0.05, coupling: 0.8, bearing: 0.5}" in after_text
    assert re.sub("[0-9.]+", "", after_text) == re.sub("[0-9.]+", "", before)
    assert told(capsys, "lint", own, "--format", "lines")[:2] == findings
