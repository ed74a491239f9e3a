"""`compare`: what moved between files, folders and git revisions; exit codes; words and JSON."""

import json
import subprocess
import sys
from pathlib import Path

import pytest
import yaml

from engine.cli.main import main
from tests.engine.loading.test_revisions import git

_CASES = Path(__file__).parents[1] / "proof" / "compare" / "documents"


def write(path: Path, case: str, side: str) -> Path:
    """One version of a case of the comparison, as a file."""
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(
        yaml.safe_load((_CASES / f"{case}.yaml").read_text(encoding="utf-8"))[side], encoding="utf-8"
    )
    return path


def compared(capsys: pytest.CaptureFixture[str], *words: object) -> tuple[int, str, str]:
    """The command with these words: exit code, output, errors."""
    code = main(["compare", *map(str, words)])
    told = capsys.readouterr()
    return code, told.out, told.err


@pytest.fixture
def history(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A repository whose last commit moved a limit."""
    git(tmp_path, "init", "--quiet", "--initial-branch", "main")
    for side in ("old", "new"):
        write(tmp_path / "trees/complaints/bench.yaml", "limit-moved", side)
        git(tmp_path, "add", "--all")
        git(tmp_path, "commit", "--quiet", "--message", side)
    monkeypatch.chdir(tmp_path)
    return tmp_path


def test_a_moved_verdict_ends_with_1_and_its_walk(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """First what moved, with the numbered walk and its places."""
    old, new = (write(tmp_path / f"{side}.yaml", "limit-moved", side) for side in ("old", "new"))
    code, out, err = compared(capsys, old, new)

    assert (code, err) == (1, "")
    assert out.startswith("MOVED 1. tree bench: ended in `worn`, now in `sound`.\n")
    assert f"    2. play: over 5 mm, up to 6 mm  {new}:19:3\n" in out
    assert out.endswith("1 verdict moved, 3 other changes.\n")


@pytest.mark.parametrize("case", ["caution-dropped", "answer-added", "step-renamed"])
def test_where_no_verdict_moved_it_ends_with_0(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], case: str
) -> None:
    """However serious the change."""
    old, new = (write(tmp_path / f"{side}.yaml", case, side) for side in ("old", "new"))
    code, out, _ = compared(capsys, old, new)

    assert code == 0
    assert out.endswith("0 verdicts moved, 1 other change.\n")


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("HEAD~1:trees/complaints/bench.yaml", "trees/complaints/bench.yaml"),
        ("HEAD~1:trees", "trees"),
        ("main~1:trees", "main:trees"),
        ("main^{/old}:", "HEAD:"),
    ],
)
@pytest.mark.usefixtures("history")
def test_revisions_compare_with_disk_and_with_each_other(
    capsys: pytest.CaptureFixture[str], old: str, new: str
) -> None:
    """Files and folders, of either kind on either side."""
    code, out, err = compared(capsys, old, new)

    assert (code, err) == (1, "")
    assert "ended in `worn`, now in `sound`" in out


@pytest.mark.usefixtures("history")
def test_a_revision_compared_with_itself_has_not_changed(capsys: pytest.CaptureFixture[str]) -> None:
    """Nothing moved, nothing else changed."""
    assert compared(capsys, "HEAD:trees", "trees") == (0, "0 verdicts moved, 0 other changes.\n", "")


def test_a_file_with_a_colon_in_its_name_wins(history: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """What is on disk is meant, even where a revision would be written so."""
    write(history / "HEAD~1:trees/complaints/bench.yaml", "limit-moved", "new")
    code, out, _ = compared(capsys, "HEAD~1:trees/complaints/bench.yaml", "trees/complaints/bench.yaml")

    assert (code, out) == (0, "0 verdicts moved, 0 other changes.\n")


@pytest.mark.usefixtures("history")
@pytest.mark.parametrize(
    ("old", "message"),
    [
        (
            "nowhere",
            "There is no file or folder nowhere. Check the path; a version that git keeps is written",
        ),
        ("HEAD~9:trees", "there is no revision HEAD~9"),
        ("HEAD:nowhere", "there is no nowhere in it"),
        ("--upload-pack=x:trees", "there is no revision --upload-pack=x"),
        ("red\x1b[31m:trees", "there is no revision red\u241b[31m"),
    ],
)
def test_what_cannot_be_read_ends_with_2(capsys: pytest.CaptureFixture[str], old: str, message: str) -> None:
    """One sentence with its cure, no escape sequence, nothing on the output."""
    code, out, err = compared(capsys, "--", old, "trees")

    assert (code, out) == (2, "")
    assert message in err


def test_a_document_that_is_not_sound_ends_with_2(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Its first problem is told with its place."""
    old = write(tmp_path / "old.yaml", "limit-moved", "old")
    new = tmp_path / "new.yaml"
    new.write_text(old.read_text(encoding="utf-8").replace("upto: 5", "upto: [5]"), encoding="utf-8")
    code, _, err = compared(capsys, old, new)

    assert code == 2
    assert f"witnessmark: {new}:23:" in err


def test_a_document_that_goes_round_in_a_circle_ends_with_2(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Such walks have no end that could move."""
    old = write(tmp_path / "old.yaml", "limit-moved", "old")
    new = tmp_path / "new.yaml"
    text = old.read_text(encoding="utf-8")
    new.write_text(text.replace("{upto: 5, then: sound}", "{upto: 5, then: look}"), encoding="utf-8")
    code, out, err = compared(capsys, old, new)

    assert (code, out) == (2, "")
    assert "`bench` goes round in a circle. Lint it, then compare." in err


@pytest.mark.usefixtures("history")
def test_a_tree_that_went_ends_nowhere(capsys: pytest.CaptureFixture[str]) -> None:
    """Who had its complaint has no walk any more: exit code 1."""
    write(Path("other/complaints/second.yaml"), "limit-moved", "new")
    Path("other/complaints/second.yaml").write_text(
        Path("other/complaints/second.yaml")
        .read_text(encoding="utf-8")
        .replace("tree: bench", "tree: second"),
        encoding="utf-8",
    )
    write(Path("other/complaints/bench.yaml"), "limit-moved", "new")
    code, out, _ = compared(capsys, "other", "HEAD:trees")

    assert code == 1
    assert out.startswith("MOVED 1. tree second: ended in `any verdict`, now nowhere.\n    on ")


def test_json_keeps_its_shape(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """The fields that the manual of the command tells, and no other."""
    old, new = (write(tmp_path / f"{side}.yaml", "step-removed", side) for side in ("old", "new"))
    code, out, _ = compared(capsys, old, new, "--format", "json")
    told = json.loads(out)

    assert code == 1
    assert list(told) == ["format", "old", "new", "moved", "paths", "changes"]
    assert (told["format"], told["old"], told["new"]) == (1, str(old), str(new))
    (moved,) = told["moved"]
    assert list(moved) == ["document", "vehicles", "old", "new", "old-place", "new-place", "walk"]
    assert (moved["document"], moved["old"], moved["new"]) == ("tree bench", "worn", "sound")
    assert moved["walk"][1] == {
        "step": "play",
        "answer": "over 5 mm, up to 80 mm",
        "old-place": f"{old}:19:3",
        "new-place": None,
    }
    counts = told["paths"]["tree bench"]
    assert list(counts) == ["old", "new", "shared", "shortest-gained", "shortest-lost"]
    assert (counts["old"], counts["new"], counts["shared"]) == (3, 2, 1)
    fields = ["serious", "kind", "document", "step", "message", "old-place", "new-place"]
    assert all(list(change) == fields for change in told["changes"])


def _chain(path: Path, steps: int, last: str) -> Path:
    """A tree whose every question doubles the paths."""
    asked = "".join(
        f"  s{k}: {{ask: Question {k}?, answers: [{{say: a, then: s{k + 1}}}, {{say: b, then: s{k + 1}}}]}}\n"
        for k in range(steps)
    )
    head = (
        "tree: bench\nformat: 1\nrevision: 1\ntitle: T\ncomplaint: C\nsuspects: {a: {name: S, weight: 1}}\n"
    )
    end = f"  s{steps}: {{verdict: {last}, suspects: [], grade: refer, correction: C}}\n"
    path.write_text(f"{head}start: s0\nsteps:\n{asked}{end}", encoding="utf-8")
    return path


def test_counts_beyond_all_reading_are_told_shortly(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """More paths than Python writes digits: a power of two in words, base 16 for machines."""
    old, new = _chain(tmp_path / "old.yaml", 60, "Over"), _chain(tmp_path / "new.yaml", 61, "Over")
    _, out, _ = compared(capsys, old, new)
    _, told, _ = compared(capsys, old, new, "--format", "json")

    assert "Paths of tree bench: 2^61 or more, were 2^60 or more;" in out
    assert json.loads(told)["paths"]["tree bench"]["new"] == hex(2**61)


def test_the_program_itself_ends_so(history: Path) -> None:
    """As a process of its own, through a pipe."""
    root = Path(__file__).parents[3]
    done = subprocess.run(
        [sys.executable, "-m", "tui", "compare", "HEAD~1:trees", "trees"],
        cwd=history,
        env={"PYTHONPATH": str(root), "PATH": "/usr/bin:/bin"},
        capture_output=True,
        text=True,
        check=False,
    )

    assert (done.returncode, done.stderr) == (1, "")
    assert "MOVED 1. tree bench" in done.stdout
