"""Folders as they lie on real disks: links, lock files, pipes, odd names, missing permissions."""

import os
from collections.abc import Callable
from pathlib import Path

import pytest

from engine.errors import Failure
from engine.loading import folders
from engine.loading.document import MOST_BYTES
from engine.loading.library import gather

SHEET = b"states: {raised: {title: Raised}}\nformat: 1\n"


def paths(*named: Path) -> list[str]:
    """The paths inside the library of what is found below."""
    return [file.path for file in folders.below(named)]


def test_files_come_in_the_order_of_their_paths(tmp_path: Path) -> None:
    """Whatever order the disk has, and whether a file ends in .yaml or .yml."""
    home = tmp_path / "home"
    for name in ("b.yaml", "a/z.yaml", "a/b.yml", "c.txt", "a/deep/er/x.yaml"):
        (home / name).parent.mkdir(parents=True, exist_ok=True)
        (home / name).write_bytes(SHEET)

    assert paths(home) == ["home/a/b.yml", "home/a/deep/er/x.yaml", "home/a/z.yaml", "home/b.yaml"]


def test_a_file_named_itself_is_read_whatever_its_ending(tmp_path: Path) -> None:
    """Who names a file means it."""
    (tmp_path / "notes.txt").write_bytes(SHEET)

    assert paths(tmp_path / "notes.txt") == ["notes.txt"]


def hidden_file(home: Path) -> None:
    """What one system leaves beside each file for another."""
    (home / "._sheet.yaml").write_bytes(b"\x00\x05\x16\x07")


def hidden_folder(home: Path) -> None:
    """A folder that belongs to a tool."""
    (home / ".tool").mkdir()
    (home / ".tool/x.yaml").write_bytes(b"x")


def lock_file(home: Path) -> None:
    """The link to nowhere that an editor makes while a file has changes that are not saved."""
    (home / ".#sheet.yaml").symlink_to("somebody@somewhere.1234")


def link_to_nowhere(home: Path) -> None:
    """A link whose file was moved away."""
    (home / "gone.yaml").symlink_to("nowhere.yaml")


def link_to_itself(home: Path) -> None:
    """A link that leads to itself."""
    (home / "self.yaml").symlink_to("self.yaml")


def link_back(home: Path) -> None:
    """A link to the folder that it lies in."""
    (home / "again").symlink_to(".")


def link_far_back(home: Path) -> None:
    """Two links in a folder to one above it; to follow them all would take for ever."""
    (home / "one").mkdir()
    (home / "one/up").symlink_to("..")
    (home / "one/up-too").symlink_to("../..")


def pipe(home: Path) -> None:
    """A pipe, at which a reader would wait for ever."""
    os.mkfifo(home / "pipe.yaml")


def folder_with_ending(home: Path) -> None:
    """A folder that is called like a document, and is empty."""
    (home / "folder.yaml").mkdir()


def linked_copy(home: Path) -> None:
    """A second name of the same file."""
    (home / "z-copy.yaml").symlink_to("sheet.yaml")


ODD = (
    *(hidden_file, hidden_folder, lock_file, link_to_nowhere, link_to_itself, link_back, link_far_back),
    *(pipe, folder_with_ending, linked_copy),
)


@pytest.mark.parametrize("make", ODD)
def test_odd_things_in_a_folder_are_passed_over(make: Callable[[Path], None], tmp_path: Path) -> None:
    """The one document beside it is found, once, and nothing else."""
    home = tmp_path / "home"
    home.mkdir()
    (home / "sheet.yaml").write_bytes(SHEET)
    make(home)

    assert paths(home) == ["home/sheet.yaml"]


def test_a_link_to_another_folder_is_followed(tmp_path: Path) -> None:
    """A shared folder may be linked in."""
    (tmp_path / "shared").mkdir()
    (tmp_path / "shared/states.yaml").write_bytes(SHEET)
    (tmp_path / "home").mkdir()
    (tmp_path / "home/shop").symlink_to(tmp_path / "shared")

    assert paths(tmp_path / "home") == ["home/shop/states.yaml"]


def test_a_file_named_twice_counts_once(tmp_path: Path) -> None:
    """A folder, a folder inside it and a file inside that: no document takes its own name."""
    inner = tmp_path / "home/inner"
    inner.mkdir(parents=True)
    (inner / "states.yaml").write_bytes(SHEET)

    files = [*folders.below((tmp_path / "home", inner, inner / "states.yaml"))]

    assert [file.path for file in files] == ["home/inner/states.yaml"]
    assert gather(files).problems == ()


def test_texts_of_folders_with_one_name_are_all_kept(tmp_path: Path) -> None:
    """A case carries the text of its documents; none may be that of a namesake."""
    for number, content in enumerate((SHEET, SHEET.replace(b"raised", b"warm"))):
        (tmp_path / f"{number}/home").mkdir(parents=True)
        (tmp_path / f"{number}/home/states.yaml").write_bytes(content)

    library = gather(folders.below((tmp_path / "0/home", tmp_path / "1/home")))

    assert [library.texts[path].encode() for path in library.paths["states"]] == [
        SHEET,
        SHEET.replace(b"raised", b"warm"),
    ]


def test_a_name_that_is_no_text_can_be_shown(tmp_path: Path) -> None:
    """Bytes of a file's name that are no text are shown as such, and never stop the output."""
    (tmp_path / os.fsdecode(b"odd\xff.yaml")).write_bytes(b"[")

    problem = gather(folders.below((tmp_path,))).problems[0]

    assert str(problem).encode().decode().startswith(f"{tmp_path}/odd\ufffd.yaml:1:2: ")


def test_of_a_huge_file_no_more_is_read_than_shows_it(tmp_path: Path) -> None:
    """A disk image that is called .yaml costs no more memory than the limit."""
    with (tmp_path / "huge.yaml").open("wb") as file:
        file.truncate(1 << 34)

    assert [len(file.content) for file in folders.below((tmp_path,))] == [MOST_BYTES + 1]


@pytest.mark.parametrize("name", ["missing.yaml", "deep/missing.yaml"])
def test_a_file_that_is_not_there_is_told(name: str, tmp_path: Path) -> None:
    """In one sentence, with its cure."""
    with pytest.raises(Failure) as caught:
        paths(tmp_path / name)

    assert str(caught.value) == (
        f"{tmp_path / name} cannot be read: no such file or directory. Check the path and its permissions."
    )


def test_a_folder_that_may_not_be_read_is_told(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The disk's refusal, which no permission can bring about for every user, becomes the same sentence."""
    (tmp_path / "shut").mkdir()
    scan = os.scandir

    def refuse(path: Path) -> object:
        if str(path).endswith("shut"):
            raise PermissionError(13, "Permission denied", str(path))
        return scan(path)

    monkeypatch.setattr(os, "scandir", refuse)
    with pytest.raises(Failure) as caught:
        paths(tmp_path)

    assert str(caught.value).startswith(f"{tmp_path / 'shut'} cannot be read: permission denied.")


def test_the_shipped_files_are_those_of_the_folder() -> None:
    """Every document that ships is read, with its path inside the library."""
    home = Path(__file__).parents[3] / "trees"

    assert {file.path: file.content for file in folders.shipped()} == {
        path.relative_to(home).as_posix(): path.read_bytes() for path in home.rglob("*.yaml")
    }
