"""Documents of a git revision, read from a real repository."""

import subprocess
from pathlib import Path

import pytest

from engine.errors import Failure
from engine.loading.revisions import Spot, files, spot

_NAMES = (
    "trees/a.yaml",
    "trees/-rf.yaml",
    "trees/two words:colon.yaml",
    "trees/straße.yaml",
    "trees/\x1b[31m.yaml",
)
_PASSED_OVER = ("trees/notes.txt", "trees/.hidden/b.yaml")


def git(folder: Path, *words: str) -> None:
    """Git in a folder, as nobody in particular."""
    who = ("-c", "user.name=Bench", "-c", "user.email=bench@example.org")
    subprocess.run(["git", *who, *words], cwd=folder, check=True, capture_output=True)


@pytest.fixture
def repository(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A repository with two commits; the second one changes a file and removes the others from disk."""
    git(tmp_path, "init", "--quiet", "--initial-branch", "main")
    for name in (*_NAMES, *_PASSED_OVER):
        path = tmp_path / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(f"first: {name!r}\n", encoding="utf-8")
    (tmp_path / "trees" / "link.yaml").symlink_to("a.yaml")
    git(tmp_path, "add", "--all")
    git(tmp_path, "commit", "--quiet", "--message", "fix: first")
    git(tmp_path, "rm", "--quiet", "-r", "trees")
    (tmp_path / "trees").mkdir()
    (tmp_path / "trees/a.yaml").write_text("second\n", encoding="utf-8")
    git(tmp_path, "add", "--all")
    git(tmp_path, "commit", "--quiet", "--message", "second")
    monkeypatch.chdir(tmp_path)
    return tmp_path


@pytest.mark.usefixtures("repository")
@pytest.mark.parametrize("name", _NAMES)
def test_a_file_is_read_whatever_its_name(name: str) -> None:
    """Names that look like options, hold colons, blanks or escape sequences are names."""
    (file,) = files(Spot("HEAD~1", name))

    assert file.content.decode() == f"first: {name!r}\n"
    assert file.shown == f"HEAD~1:{name}"


@pytest.mark.usefixtures("repository")
@pytest.mark.parametrize("path", ["trees", "trees/", ""])
def test_a_folder_is_read_with_all_below(path: str) -> None:
    """Every YAML file; hidden ones, links and other files are passed over."""
    found = {
        file.shown.removeprefix("HEAD~1:").removeprefix("trees/") for file in files(Spot("HEAD~1", path))
    }

    assert found == {name.removeprefix("trees/") for name in _NAMES}


@pytest.mark.usefixtures("repository")
@pytest.mark.parametrize("revision", ["HEAD", "main", "main@{0}", "HEAD^{/second}", ""])
def test_revisions_are_written_as_git_writes_them(revision: str) -> None:
    """A branch, its past, a commit by its message; before a colon alone, what is staged."""
    (file,) = files(Spot(revision, "trees/a.yaml"))

    assert file.content == b"second\n"


@pytest.mark.usefixtures("repository")
@pytest.mark.parametrize(
    ("revision", "path", "why"),
    [
        ("HEAD~9", "trees", "there is no revision HEAD~9"),
        ("HEAD", "tree", "there is no tree in it"),
        ("--help", "trees", "there is no revision --help"),
        ("--output=stolen", "trees", "there is no revision --output=stolen"),
        ("HEAD", "a\nb", "has a line end in it"),
    ],
)
def test_what_is_not_there_is_said(revision: str, path: str, why: str) -> None:
    """Which of the two is wrong; nothing is taken for an option."""
    with pytest.raises(Failure, match="REVISION:PATH") as raised:
        list(files(Spot(revision, path)))

    assert why in str(raised.value)
    assert not Path("stolen").exists()


def test_outside_of_a_repository_the_cure_is_told(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Git's own reason stands in the message."""
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("GIT_CEILING_DIRECTORIES", str(tmp_path.parent))

    with pytest.raises(Failure, match=r"not a git repository.*Run it inside the repository"):
        list(files(Spot("HEAD", "trees")))


def test_without_git_the_cure_is_told(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    """Where there is no git, files and folders still compare."""
    monkeypatch.setenv("PATH", str(tmp_path))

    with pytest.raises(Failure, match="Install git, or name files and folders"):
        list(files(Spot("HEAD", "trees")))


@pytest.mark.parametrize(
    ("argument", "expected"),
    [
        ("HEAD:a", Spot("HEAD", "a")),
        (":a", Spot("", "a")),
        ("HEAD^{/a: b}:c:d", Spot("HEAD^{/a: b}", "c:d")),
        ("trees", None),
    ],
)
def test_revision_and_path_part_at_the_first_colon_outside_of_braces(
    argument: str, expected: Spot | None
) -> None:
    """A path may have colons too, and so may the words that a commit is looked for by."""
    assert spot(argument) == expected
