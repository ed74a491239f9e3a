"""Pictures that documents name, as they lie on real disks."""

from pathlib import Path

import pytest

from engine.lint.runner import run
from engine.loading import folders
from engine.loading.library import gather
from engine.loading.pictures import SUFFIXES, named, there

PROCEDURE = """\
procedure: wipe
format: 1
revision: 1
title: Wipe it
outcomes: {{done: It is done}}
start: first
steps:
  first: {{do: Wipe it., picture: {0}, then: done}}
"""


def write(home: Path, folder: str, picture: str) -> Path:
    """A procedure that shows a picture, in a folder of a library."""
    path = home / folder / "wipe.yaml"
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(PROCEDURE.format(picture), "utf-8")
    return path


def absent(*paths: Path) -> list[str]:
    """The messages about pictures when these paths are linted."""
    return [f.message for f in run(gather(folders.below(paths))) if f.rule == "picture-not-there"]


@pytest.fixture
def home(tmp_path: Path) -> Path:
    """A library with one picture."""
    (tmp_path / "lib/pictures").mkdir(parents=True)
    (tmp_path / "lib/pictures/joint.svg").write_text("<svg/>")
    return tmp_path / "lib"


@pytest.mark.parametrize("folder", ["procedures", "complaints", ""])
@pytest.mark.parametrize("asked", ["file", "folder", "library"])
def test_a_picture_is_found_whatever_is_asked_for(home: Path, folder: str, asked: str) -> None:
    """A file alone, its folder and the whole library have the same root."""
    path = write(home, folder, "pictures/joint.svg")

    assert absent({"file": path, "folder": path.parent, "library": home}[asked]) == []


def test_a_file_named_from_its_own_folder_has_its_root_above(
    home: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The bare name of a file says nothing of the folder that it lies in."""
    path = write(home, "procedures", "pictures/joint.svg")
    monkeypatch.chdir(path.parent)

    assert absent(Path("wipe.yaml")) == []


def test_a_picture_that_is_taken_away_is_told(home: Path) -> None:
    """The rule looks at the disk of this moment."""
    path = write(home, "procedures", "pictures/joint.svg")
    (home / "pictures/joint.svg").unlink()

    assert absent(path) == ["There is no picture `pictures/joint.svg`."]


def test_a_picture_of_another_root_is_not_taken_for_it(home: Path) -> None:
    """Two libraries that are read together keep their pictures apart."""
    write(home, "procedures", "pictures/joint.svg")
    other = home.parent / "other"
    write(other, "procedures", "pictures/joint.svg")

    assert absent(other) == ["There is no picture `pictures/joint.svg`."]


def test_nothing_outside_the_library_is_looked_for(home: Path) -> None:
    """Paths upwards, absolute ones and addresses name no picture."""
    outside = home.parent / "outside.svg"
    outside.write_text("<svg/>")
    path = home / "procedures/wipe.yaml"
    content = f"picture: [../outside.svg, pictures/../../outside.svg, {outside}, file://x.svg]".encode()

    assert there(path, content) == frozenset()


@pytest.mark.parametrize("suffix", SUFFIXES)
def test_every_ending_of_the_schema_is_known(home: Path, suffix: str) -> None:
    """What the schema lets pass can be found."""
    (home / f"pictures/a{suffix}").write_bytes(b"")
    path = write(home, "procedures", f"pictures/a{suffix}")

    assert gather(folders.below([path])).problems == ()
    assert absent(path) == []


@pytest.mark.parametrize(
    "picture",
    [
        *("../a.svg", "a/../b.svg", "/a.svg", "a//b.svg", ".a.svg", "a/.b.svg", "C:/a.svg", "http://a/b.svg"),
        *("a\\\\b.svg", "a b.svg", "a.gif", "a.SVG", "a.svg/", "a.svg\\n", "ä.svg", "a" * 200 + ".svg"),
    ],
)
def test_other_paths_are_refused_by_the_schema(home: Path, picture: str) -> None:
    """Only a path that leads to the same file on every system passes."""
    path = write(home, "procedures", f'"{picture}"')

    assert [problem.line for problem in gather(folders.below([path])).problems] == [8]
    assert picture not in named(picture.encode())


def test_a_path_that_no_disk_can_hold_is_no_picture() -> None:
    """The folders above it are deeper than a path may be, and nothing is raised."""
    assert there(Path("/" + "deep/" * 1000 + "a.yaml"), b"picture: a.svg") == frozenset()


def test_documents_are_only_yaml(home: Path) -> None:
    """A picture beside the documents is none."""
    write(home, "procedures", "pictures/joint.svg")

    assert [file.path for file in folders.below([home])] == ["lib/procedures/wipe.yaml"]
