"""A version of documents as the command line names it: a file, a folder, or `REVISION:PATH` of git."""

from collections.abc import Iterable, Iterator
from pathlib import Path, PurePosixPath
from typing import Final

from engine.cli.crew import together
from engine.errors import Failure, Unreadable
from engine.loading import folders, revisions
from engine.loading.leaf import File
from engine.loading.library import Library, gather
from engine.proof.compare.compare import Version

#: The folders of a library: who names a file in one of them means it with the rest of that library.
_FOLDERS: Final = frozenset(("complaints", "procedures", "vehicles", "shop", "rehearsals", "matrices"))
_SHOP: Final = ("cautions", "states", "gauges")


def version(argument: str) -> Version:
    """Read one version; raises Failure where it is not there, or a document of it is not sound.

    What is on disk wins over a revision of the same writing. A file is read with the library that it lies
    in, and whatever is missing there is the shipped document.
    """
    own, beside = _files(argument)
    if not own:
        raise Failure(f"There is no YAML file below {argument}.", "Name a file or a folder of documents.")
    library = gather(_all(own, beside), together)
    shown = {file.shown for file in own}
    problems = tuple(problem for problem in library.problems if problem.file in shown)
    if problems:
        raise Unreadable(problems)
    return Version(library, frozenset(_names(library, shown)))


def _files(argument: str) -> tuple[list[File], Iterator[File]]:
    """The files that are compared, and those that they may lean on."""
    path, at = Path(argument), revisions.spot(argument)
    if "\0" not in argument and path.exists():
        return list(folders.below((path,))), _beside(path)
    if at is not None:
        return list(revisions.files(at)), _beside_revision(at)
    cure = f"Check the path; a version that git keeps is written as in HEAD~1:{argument}."
    raise Failure(f"There is no file or folder {argument}.", cure)


def _beside(path: Path) -> Iterator[File]:
    if path.is_file() and path.absolute().parent.name in _FOLDERS:
        yield from folders.below((path.absolute().parents[1],))


def _beside_revision(at: revisions.Spot) -> Iterator[File]:
    path = PurePosixPath(at.path)
    if path.suffix in (".yaml", ".yml") and path.parent.name in _FOLDERS:
        above = str(path.parents[1])
        yield from revisions.files(at._replace(path="" if above == "." else above))


def _all(own: Iterable[File], beside: Iterable[File]) -> Iterator[File]:
    seen = set()
    for file in own:
        seen.add(file.shown)
        yield file
    yield from (file for file in beside if file.shown not in seen)
    yield from (file._replace(trusted=True) for file in folders.shipped() if file.shown not in seen)


def _names(library: Library, shown: set[str]) -> Iterator[str]:
    """What the files define, as `tree no-rear-drive`; the shop as one."""
    paths = {library.shown[file] for file in shown}
    for name, own in library.paths.items():
        if name.startswith(("tree ", "procedure ", "vehicle ")) and own[0] in paths:
            yield name
    if any(path in paths for kind in _SHOP for path in library.paths.get(kind, ())):
        yield "shop"
