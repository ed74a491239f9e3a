"""`witnessmark new`: a document to begin with, right as it stands, and what to do with it."""

import argparse
import re
import shlex
import sys
from collections.abc import Iterable
from pathlib import Path
from typing import Final, NamedTuple

from engine.cli import starting
from engine.cli.command import Command, parser
from engine.cli.reviewed import named
from engine.cli.whole import made, write
from engine.errors import Failure
from engine.loading import folders, schema
from engine.loading.library import Library, gather
from engine.nearest import meant
from engine.plain import clean

_ABOUT = """\
Write a document to begin with, into the library: complaint, procedure, vehicle,
rehearsal or matrix. It is right as it stands, its first line lets an editor
complete and check it, and what has to be filled in is plain. Nothing is ever
overwritten. A rehearsal gives the first answer everywhere, with the verdict
that this leads to.

Exit code 0: written; 2: it could not be, and why."""


class _Kind(NamedTuple):
    """A kind of document: its own word, its folder in a library, what is to be done next."""

    word: str
    folder: str
    next: tuple[str, ...]


_KINDS: Final = {
    "complaint": _Kind(
        "tree",
        "complaints",
        (
            "Fill in complaint, suspects and steps; thanks to its first line your editor explains them.",
            "witnessmark lint {library}",
            "witnessmark draw {name} --library {library}",
            "witnessmark new rehearsal {name}-first --tree {name} --into {library}",
        ),
    ),
    "procedure": _Kind(
        "procedure",
        "procedures",
        (
            "Fill in outcomes and steps; say what it needs, sets and clears of the vehicle's states.",
            "Let a tree run it: {{run: {name}, outcomes: {{done: ..., cannot: ...}}}}",
            "witnessmark lint {library}",
        ),
    ),
    "vehicle": _Kind(
        "vehicle",
        "vehicles",
        (
            "Put the facts right, and fill in limits, capacities, lubricants and torques with their sources.",
            "witnessmark lint {library}",
        ),
    ),
    "rehearsal": _Kind(
        "rehearsal",
        "rehearsals",
        ("Change the answers, and the verdict that they must lead to.", "witnessmark rehearse {library}"),
    ),
    "matrix": _Kind(
        "matrix",
        "matrices",
        ("Fill in faults, set-ups and tests, with weights and minutes.", "witnessmark lint {library}"),
    ),
}
_WRITTEN: Final = re.compile("[^a-z0-9]+")


def _parser() -> argparse.ArgumentParser:
    made = parser("new", _ABOUT, "witnessmark new matrix rear-axle-noise --into trees")
    made.add_argument("kind", metavar="KIND", help=f"one of {', '.join(_KINDS)}")
    made.add_argument("name", metavar="NAME", help="its name: small letters and digits, with - between words")
    made.add_argument(
        "--into",
        type=Path,
        metavar="FOLDER",
        help="the library (else the first of the settings, else ./trees, which is made where it is missing)",
    )
    made.add_argument("--tree", help="the tree of a rehearsal (else the first one)")
    made.add_argument(
        "--vehicle", help="the sheet of a rehearsal (else the first one that the tree can be walked on)"
    )
    made.add_argument("--print", action="store_true", help="print it, and write nothing")
    return made


def _run(options: argparse.Namespace) -> int:
    kind = "complaint" if options.kind == "tree" else options.kind
    if kind not in _KINDS:
        raise Failure(f"There is no kind of document `{options.kind}`.", meant(options.kind, _KINDS))
    if kind != "rehearsal" and (options.tree or options.vehicle):
        raise Failure("Only a rehearsal has a tree and a vehicle.", "Leave `--tree` and `--vehicle` away.")
    into: Path = options.into or next(iter(named(())), Path("trees"))
    path = into / _KINDS[kind].folder / f"{_sound(options.name)}.yaml"
    text = f"{starting.schema_line(_KINDS[kind].word, path)}\n{_text(kind, into, options)}"
    if options.print:
        sys.stdout.write(text)
        return 0
    _write(path, text)
    print("\n".join(_told(kind, path, into)))
    return 0


def _sound(name: str) -> str:
    """The name, where it is one."""
    if schema.sound("common.schema.json#/$defs/name-form", name):
        return name
    near = _WRITTEN.sub("-", name.lower()).strip("-0123456789")[:60].strip("-")
    cure = "Use small letters and digits, begun by a letter, with single hyphens between words."
    raise Failure(f"`{name}` is no name for a document.", f"Did you mean `{near}`?" if near else cure)


def _text(kind: str, into: Path, options: argparse.Namespace) -> str:
    library = _library(into)
    _free(library, kind, options.name)
    if kind == "vehicle":
        return starting.text(kind, options.name, facts=starting.facts(library.shop.facts.values()))
    if kind == "rehearsal":
        return _script(library, options)
    return starting.text(kind, options.name)


def _library(into: Path) -> Library:
    """The documents of the library, and the shipped ones behind them."""
    own = tuple(folders.below((into,))) if into.is_dir() else ()
    shown = {file.shown for file in own}
    shipped = (file._replace(trusted=True) for file in folders.shipped() if file.shown not in shown)
    return gather((*own, *shipped))


def _free(library: Library, kind: str, name: str) -> None:
    word = _KINDS[kind].word
    taken = library.paths.get(f"{word} {name}")
    if taken or f"{word} {name}" in library.broken:
        where = f" in {taken[0]}" if taken else ""
        raise Failure(f"There is a {kind} named `{name}` already{where}.", "Choose another name.")


def _script(library: Library, options: argparse.Namespace) -> str:
    """A rehearsal that gives the first answer everywhere, where the tree can be walked."""
    from engine.lint.rule import suits
    from engine.lint.walkable import flaws
    from engine.proof.first_walk import FirstWalk, first_walk

    tree = _chosen("tree", options.tree, library.trees)
    fitting = [name for name, sheet in library.sheets.items() if not suits(library.trees[tree], sheet)]
    whole = (name for name in fitting if not flaws(library, tree, name))
    vehicle = _chosen("sheet that the tree is for", options.vehicle or next(whole, None), fitting)
    walk = FirstWalk((), "") if flaws(library, tree, vehicle) else first_walk(library, tree, vehicle)
    name = options.name
    title = starting.titled(name)
    return starting.rehearsal(walk, hints=True, title=title, name=name, tree=tree, vehicle=vehicle)


def _chosen(what: str, name: str | None, known: Iterable[str]) -> str:
    names = list(known)
    if name is None and names:
        return names[0]
    if name is None or name not in names:
        raise Failure(f"There is no {what}{f' named `{name}`' if name else ''}.", meant(name or "", names))
    return name


def _write(path: Path, text: str) -> None:
    if path.exists():
        raise Failure(f"{path} is there already.", "Choose another name, or take the file away.")
    made(path.parent)
    write(path, text)


def _told(kind: str, path: Path, into: Path) -> Iterable[str]:
    yield clean(f"Written to {path}. Next:", lines=False)
    for step in _KINDS[kind].next:
        yield clean(f"  {step.format(name=path.stem, library=shlex.quote(str(into)))}", lines=False)


COMMAND: Final = Command(_parser, _run)
