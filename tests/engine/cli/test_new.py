"""`witnessmark new`: what is written is right as it stands, and nothing is ever lost by it."""

import re
import shutil
from collections.abc import Iterator
from pathlib import Path
from typing import Final

import pytest

from engine import resources
from engine.cli import settings
from engine.cli.main import main
from tests.schema_files import HOME

#: Each kind with the folder that it is written to.
KINDS: Final = {
    "complaint": "complaints",
    "procedure": "procedures",
    "vehicle": "vehicles",
    "rehearsal": "rehearsals",
    "matrix": "matrices",
}


@pytest.fixture(autouse=True)
def _place(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    """A folder of one's own, with settings and memory of its own."""
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    settings.settings.cache_clear()
    yield
    settings.settings.cache_clear()


def new(*words: str, capsys: pytest.CaptureFixture[str]) -> tuple[int, str, str]:
    """How the command ended, and what it printed where."""
    code = main(["new", *words])
    told = capsys.readouterr()
    return code, told.out, told.err


@pytest.mark.parametrize("kind", KINDS)
def test_a_new_document_has_no_finding(kind: str, capsys: pytest.CaptureFixture[str]) -> None:
    """Alone in a library of one's own, it is right as it stands."""
    assert new(kind, "rear-axle-noise", capsys=capsys)[0] == 0
    main(["lint"])

    assert re.fullmatch(r"1 file, [01] trees?: nothing found\.\n", capsys.readouterr().out)


@pytest.mark.parametrize(("kind", "folder"), KINDS.items())
def test_it_stands_where_its_kind_stands(kind: str, folder: str, capsys: pytest.CaptureFixture[str]) -> None:
    """In the library below the folder that one is in, under its name; and it is said where."""
    out = new(kind, "rear-axle-noise", capsys=capsys)[1]
    path = Path("trees", folder, "rear-axle-noise.yaml")

    assert path.is_file()
    assert out.startswith(f"Written to {path}. Next:\n")


@pytest.mark.parametrize("kind", KINDS)
def test_what_comes_next_works(kind: str, capsys: pytest.CaptureFixture[str]) -> None:
    """Each command that is named can be typed as it stands."""
    commands = re.findall(
        r"^  witnessmark (.*)$", new(kind, "rear-axle-noise", capsys=capsys)[1], re.MULTILINE
    )

    assert commands
    assert [command for command in commands if main(command.split())] == []


@pytest.mark.parametrize("kind", KINDS)
def test_an_editor_is_led_to_the_schema(kind: str, capsys: pytest.CaptureFixture[str]) -> None:
    """By a first line that holds on this machine."""
    line = new(kind, "rear-axle-noise", "--print", capsys=capsys)[1].splitlines()[0]
    word = "tree" if kind == "complaint" else kind

    assert line == f"# yaml-language-server: $schema={resources.schema_file(word).as_uri()}"
    assert resources.schema_file(word).is_file()


def test_within_the_repository_the_schema_is_found_from_the_document(
    capsys: pytest.CaptureFixture[str],
) -> None:
    """So that it is found in every clone."""
    out = new("matrix", "rear-axle-noise", "--into", str(HOME / "trees"), "--print", capsys=capsys)[1]

    assert out.splitlines()[0] == "# yaml-language-server: $schema=../../schemas/matrix.schema.json"


def test_a_copy_of_the_repository_leads_to_its_own_schema(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Also where the program that writes it lies elsewhere: another machine has no such folder."""
    (tmp_path / "schemas").mkdir()
    shutil.copy(resources.schema_file("matrix"), tmp_path / "schemas")
    out = new("matrix", "rear-axle-noise", "--into", str(tmp_path / "trees"), "--print", capsys=capsys)[1]

    assert out.splitlines()[0] == "# yaml-language-server: $schema=../../schemas/matrix.schema.json"


def test_all_kinds_go_together(capsys: pytest.CaptureFixture[str]) -> None:
    """What lint then finds says what is to be done: the procedure is there, and no tree runs it."""
    for kind in KINDS:
        new(kind, f"new-{kind}", capsys=capsys)
    main(["lint", "--format", "lines"])
    *told, _ = capsys.readouterr().out.splitlines()

    assert ["procedure-never-used" in line for line in told] == [True]
    assert main(["rehearse", "trees"]) == 0


def test_a_rehearsal_walks_the_tree_that_is_named(capsys: pytest.CaptureFixture[str]) -> None:
    """And passes as it stands."""
    assert new("rehearsal", "first", "--tree", "no-rear-drive", "--vehicle", "skerry", capsys=capsys)[0] == 0
    text = Path("trees/rehearsals/first.yaml").read_text("utf-8")

    assert "\ntree: no-rear-drive\nvehicle: skerry\n" in text
    assert main(["rehearse"]) == 0


def test_a_vehicle_that_misses_values_is_passed_over(capsys: pytest.CaptureFixture[str]) -> None:
    """The new sheet has no figures yet, so a rehearsal of the shipped tree takes another one."""
    new("vehicle", "a-new-one", capsys=capsys)
    new("rehearsal", "first", "--tree", "no-rear-drive", capsys=capsys)

    assert "\nvehicle: corran\n" in Path("trees/rehearsals/first.yaml").read_text("utf-8")


def test_the_settings_say_where(capsys: pytest.CaptureFixture[str]) -> None:
    """Into the first library of the workshop."""
    Path("witnessmark.toml").write_text('library = ["ours"]\n', "utf-8")
    new("matrix", "rear-axle-noise", capsys=capsys)

    assert Path("ours/matrices/rear-axle-noise.yaml").is_file()


def test_printing_writes_nothing(capsys: pytest.CaptureFixture[str]) -> None:
    """The document is on stdout, and nowhere else."""
    out = new("matrix", "rear-axle-noise", "--print", capsys=capsys)[1]

    assert "\nmatrix: rear-axle-noise\n" in out
    assert list(Path.cwd().iterdir()) == []


@pytest.mark.parametrize("name", ["true", "null", "x1"])
def test_a_name_stays_a_name(name: str, capsys: pytest.CaptureFixture[str]) -> None:
    """Even where YAML would take it for something else."""
    new("matrix", name, capsys=capsys)

    assert main(["lint"]) == 0


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("matrx", "a"), "There is no kind of document `matrx`. Did you mean `matrix`?"),
        (
            ("matrix", "Rear Axle_Noise"),
            "`Rear Axle_Noise` is no name for a document. Did you mean `rear-axle-noise`?",
        ),
        (("matrix", "../a"), "`../a` is no name for a document. Did you mean `a`?"),
        (("matrix", "7"), "`7` is no name for a document. Use small letters and digits, begun by a letter,"),
        (("vehicle", "a", "--tree", "b"), "Only a rehearsal has a tree and a vehicle. Leave `--tree`"),
        (("rehearsal", "a", "--tree", "no-rear-driv"), "There is no tree named `no-rear-driv`. Did you mean"),
        (
            ("rehearsal", "a", "--vehicle", "skery"),
            "There is no sheet that the tree is for named `skery`. Did you",
        ),
        (
            ("vehicle", "skerry"),
            "There is a vehicle named `skerry` already in vehicles/skerry.yaml. Choose another",
        ),
    ],
)
def test_what_cannot_be_is_refused_with_its_cure(
    words: tuple[str, ...], told: str, capsys: pytest.CaptureFixture[str]
) -> None:
    """In one sentence, and nothing is written."""
    code, _, err = new(*words, capsys=capsys)

    assert (code, err.removeprefix("witnessmark: ")[: len(told)]) == (2, told)
    assert list(Path.cwd().iterdir()) == []


def test_nothing_is_overwritten(capsys: pytest.CaptureFixture[str]) -> None:
    """Neither a document of the name, nor a file that is no document."""
    path = Path("trees/matrices/mine.yaml")
    path.parent.mkdir(parents=True)
    path.write_text("notes: of mine\n", "utf-8")

    assert new("matrix", "mine", capsys=capsys)[0] == 2
    assert path.read_text("utf-8") == "notes: of mine\n"


def test_a_folder_that_cannot_be_made_is_told(capsys: pytest.CaptureFixture[str]) -> None:
    """With the folder, and without a traceback."""
    Path("trees").write_text("no folder", "utf-8")
    code, _, err = new("matrix", "mine", "--into", "trees", capsys=capsys)

    assert code == 2
    assert err.startswith("witnessmark: trees/matrices cannot be made: ")
