"""`witnessmark draw`: what it writes, and what it says where it cannot."""

import os
from pathlib import Path
from xml.etree import ElementTree as ET

import pytest

from tests.engine.cli.shell import ROOT, Shell, shell

WALKED = "u\n" * 3 + "1\n"


@pytest.fixture
def here(tmp_path: Path) -> Shell:
    """A shell with the test tree."""
    return shell(tmp_path)


def draw(here: Shell, *words: str, case: bool = False) -> tuple[int, str, str]:
    """How a drawing command ended."""
    ended = here.run("draw", *words, "--store", "cases.db", *(() if case else ("--library", "own")))
    return ended.code, ended.out, ended.err


def test_the_picture_is_svg(here: Shell) -> None:
    """Without a word of the format, standard output is an SVG file and nothing else."""
    code, out, err = draw(here, "bench")

    assert (code, err) == (0, "")
    assert ET.fromstring(out).tag == "{http://www.w3.org/2000/svg}svg"


@pytest.mark.parametrize(("name", "first"), [("mermaid", "flowchart TD"), ("dot", "digraph tree {")])
def test_the_other_formats_are_texts(here: Shell, name: str, first: str) -> None:
    """Mermaid and DOT begin as they must."""
    assert draw(here, "bench", "--format", name)[1].splitlines()[0] == first


def test_a_case_is_drawn_as_its_trail(here: Shell) -> None:
    """The tree of the case, the steps visited and the answers taken marked in words."""
    here.walk("bench", "--vehicle", "wagon", typed=WALKED)
    code, out, _ = draw(here, "--case", "one", "--format", "mermaid", case=True)

    assert code == 0
    assert "With the trail of case one" in out
    assert "(visited at 1)" in out.replace("#40;", "(").replace("#41;", ")")
    assert "==>" in out


def test_the_picture_of_a_case_needs_no_documents(here: Shell) -> None:
    """It is drawn from what the case carries, after the tree has gone."""
    here.walk("bench", "--vehicle", "wagon", typed=WALKED)
    for file in here.folder.joinpath("own").rglob("*.yaml"):
        file.unlink()

    assert draw(here, "--case", "one", case=True)[0] == 0


def test_a_file_is_written_whole_and_anew(here: Shell) -> None:
    """`--out` puts the picture in the place of what was there."""
    out = here.write("tree.svg", "old")
    code, said, err = draw(here, "bench", "--out", "tree.svg")

    assert (code, said, err) == (0, "", "Written to tree.svg.\n")
    assert out.read_text(encoding="utf-8") == draw(here, "bench")[1]
    assert not (here.folder / "tree.svg.part").exists()


def test_findings_are_drawn_at_their_steps(here: Shell) -> None:
    """What lint finds in the tree stands in words on the picture."""
    file = here.folder / "own" / "documents" / "0.yaml"
    file.write_text(
        file.read_text(encoding="utf-8").replace("start: first", "start: second"), encoding="utf-8"
    )
    _, out, _ = draw(here, "bench", "--format", "dot")

    assert "!! error: unreachable-step" in out.replace("\\n", " ")


@pytest.mark.parametrize(
    ("words", "said"),
    [
        ((), "No tree is named."),
        (("bensh",), "There is no tree or procedure `bensh`."),
        (("bench", "--vehicle", "cart"), "There is no vehicle `cart`."),
        (("bench", "--case", "none"), "There is no case none here."),
        (("bench", "--out", "no/such/tree.svg"), "cannot be written"),
    ],
    ids=["no tree", "unknown tree", "unknown vehicle", "unknown case", "no folder"],
)
def test_what_cannot_be_drawn_is_told(here: Shell, words: tuple[str, ...], said: str) -> None:
    """Exit code 2, one sentence, nothing on standard output."""
    code, out, err = draw(here, *words)

    assert (code, out) == (2, "")
    assert said in err
    assert "Traceback" not in err


def test_a_case_of_another_tree_is_not_drawn(here: Shell) -> None:
    """A tree named beside a case must be the case's own."""
    here.walk("bench", "--vehicle", "wagon", typed=WALKED)
    code, _, err = draw(here, "other", "--case", "one", case=True)

    assert code == 2
    assert "was walked on the tree `bench`" in err


def test_the_picture_in_the_readme_is_of_today(tmp_path: Path) -> None:
    """It is what the command draws of the shipped tree; WITNESSMARK_REFRESH=1 draws it anew."""
    kept = ROOT / ".pictures" / "tree.svg"
    out = Shell(tmp_path).run("draw", "no-rear-drive", "--vehicle", "fellside").out
    if os.environ.get("WITNESSMARK_REFRESH"):
        kept.write_text(out, encoding="utf-8", newline="\n")

    assert kept.read_text(encoding="utf-8") == out
