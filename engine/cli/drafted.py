"""What `witnessmark rehearse --draft` writes: rehearsals that go every way that no other goes."""

import re
from collections.abc import Iterable, Iterator
from pathlib import Path
from textwrap import shorten
from typing import Final, NamedTuple

from engine.cli import starting
from engine.cli.progress import counted
from engine.cli.whole import made, write
from engine.errors import Failure
from engine.lint.rule import suits
from engine.lint.walkable import flaws
from engine.loading.library import Library
from engine.nearest import meant
from engine.proof.drafts.drafting import Draft, drafted
from engine.proof.drafts.standings import Goal
from engine.proof.drafts.ways import CANNOT

_NO_LETTER: Final = re.compile("[^a-z0-9]+")
#: A name has 60 characters at most, and a number may have to stand behind it.
_LONGEST: Final = 56
#: Longer answers are called by their first words.
_LONGEST_PART: Final = 20


class Written(NamedTuple):
    """A rehearsal that was written: its file, and the verdict that it ends in today."""

    path: Path
    verdict: str


def write_drafts(
    library: Library, tree: str, files: Iterable[str], done: frozenset[Goal]
) -> Iterator[Written]:
    """Write what a tree lacks into its library; Failure where it is not theirs or cannot be walked."""
    folder = _folder(library, tree, frozenset(files))
    vehicles = _walkable(library, tree)
    taken = set(library.rehearsals)
    for draft in drafted(library, tree, counted(vehicles, "walking on vehicle"), done):
        name = _free(_name(tree, draft), taken)
        taken.add(name)
        path = folder / f"{name}.yaml"
        named = {"name": name, "tree": tree, "vehicle": draft.vehicle}
        text = starting.rehearsal(draft.walk, hints=False, title=_title(draft), **named)
        write(path, f"{starting.schema_line('rehearsal', path)}\n{text}")
        yield Written(path, draft.walk.verdict)


def _folder(library: Library, tree: str, files: frozenset[str]) -> Path:
    """Where rehearsals of the library lie that the tree is in."""
    if tree not in library.trees:
        raise Failure(f"There is no tree named `{tree}`.", meant(tree, library.trees))
    file = library.trees[tree].place.file
    if file not in files:
        raise Failure(f"The tree `{tree}` is not below these paths.", "Name the folder of its library.")
    folder = Path(file).parent
    folder = (folder.parent if folder.name == "complaints" else folder) / "rehearsals"
    made(folder)
    return folder


def _walkable(library: Library, tree: str) -> list[str]:
    """The vehicles that the tree can be walked on."""
    fitting = [name for name, sheet in library.sheets.items() if not suits(library.trees[tree], sheet)]
    barred = {vehicle: flaws(library, tree, vehicle) for vehicle in fitting}
    whole = [vehicle for vehicle, found in barred.items() if not found]
    if not whole:
        first = next((str(found[0]) for found in barred.values()), "No sheet has the facts that it asks for.")
        raise Failure(f"`{tree}` can be walked on no vehicle: {first}", "Put that right first.")
    return whole


def _title(draft: Draft) -> str:
    """What it was made for, in words."""
    document, step, _ = draft.meant
    where = ", ".join(word.replace("-", " ") for word in (document, step) if word)
    what = _way(draft)
    return shorten(f"{where[:1].upper()}{where[1:]}{': ' if what else ''}{what}", 80, placeholder=" ...")


def _name(tree: str, draft: Draft) -> str:
    _, step, way = draft.meant
    parts = (
        tree,
        "cannot" if way == CANNOT else "",
        step,
        _way(draft) if way != CANNOT else "",
        draft.vehicle,
    )
    words = [_NO_LETTER.sub("-", part.lower()).strip("-") for part in parts if part]
    kept = [word if len(word) <= _LONGEST_PART else "-".join(word.split("-")[:3]) for word in words[1:-1]]
    middle = "-".join(kept)[: _LONGEST - len(words[0]) - len(words[-1]) - 2].strip("-")
    return "-".join(word for word in (words[0], middle, words[-1]) if word)


def _way(draft: Draft) -> str:
    """The way out that it was made for: what is said there, or what is read where that leads to a band."""
    document, step, way = draft.meant
    at = f"{document}/{step}" if document else step
    read = next((line.read for line in reversed(draft.walk.lines) if line.at == at and line.read), {})
    if not read or way == CANNOT:
        return way.removeprefix("answer ").strip("`")
    return ", ".join(read.values()) if len(read) == 1 else ", ".join(f"{n} {v}" for n, v in read.items())


def _free(name: str, taken: set[str]) -> str:
    """The name, or the name with the first number that is free."""
    numbers = (name if number == 1 else f"{name}-{number}" for number in range(1, len(taken) + 2))
    return next(each for each in numbers if each not in taken)
