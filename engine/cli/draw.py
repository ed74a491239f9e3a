"""`witnessmark draw`: the picture of a tree or a procedure, with a walked case as its trail."""

import argparse
import sys
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, Final

from engine import api
from engine.cli.command import Command, add_store, parser
from engine.cli.reviewed import under_review
from engine.cli.whole import write
from engine.errors import Failure, Unreadable
from engine.loading import folders
from engine.loading.library import Library, gather
from engine.model.tree import Document, Tree
from engine.model.vehicle import Sheet
from engine.nearest import meant

if TYPE_CHECKING:
    from engine.report.drawing.chart import Chart
    from engine.report.drawing.graph import Subject

_ABOUT = """\
Draw a tree from top to bottom: steps with their cautions and with what lint finds at them, answers and
bands on the wires, verdicts. With --case, the way that the case took is drawn on it, as its own documents
have it; with --vehicle, limits are the numbers of that sheet."""
_FORMATS: Final = ("svg", "mermaid", "dot")


def _parser() -> argparse.ArgumentParser:
    made = parser("draw", _ABOUT, "witnessmark draw no-rear-drive --vehicle fellside --out tree.svg")
    made.add_argument(
        "tree", nargs="?", metavar="TREE", help="the name of a tree or procedure; not needed with --case"
    )
    made.add_argument(
        "paths", nargs="*", type=Path, metavar="PATH", help="files and folders (else ./trees, else all)"
    )
    made.add_argument(
        "--library", metavar="FOLDER", type=Path, action="append", default=[], help="the same as PATH"
    )
    made.add_argument("--format", choices=_FORMATS, default="svg", help="how it is written")
    made.add_argument("--out", metavar="FILE", type=Path, help="write to a file, in place of what it held")
    made.add_argument("--case", metavar="CASE", help="the case whose trail is drawn on its tree")
    made.add_argument("--vehicle", metavar="SHEET", help="draw it for this vehicle")
    add_store(made)
    return made


def _run(options: argparse.Namespace) -> int:
    from engine.report.drawing.graph import chart

    subject = _walked(options) if options.case else _read(options)
    text = _writer(options.format)(chart(subject))
    if options.out is None:
        sys.stdout.write(text)
    else:
        write(options.out, text)
        sys.stderr.write(f"Written to {options.out}.\n")
    return 0


def _writer(name: str) -> "Callable[[Chart], str]":
    from engine.report.drawing.dot import dot
    from engine.report.drawing.layout import picture
    from engine.report.drawing.mermaid import mermaid
    from engine.report.drawing.svg import svg

    return {"dot": dot, "mermaid": mermaid}.get(name) or (lambda chart: svg(picture(chart)))


def _walked(options: argparse.Namespace) -> "Subject":
    """The tree of a case, with its trail."""
    from engine.report.drawing.graph import Subject
    from engine.report.drawing.trail import trail

    store = api.open_store(options.store)
    try:
        job = api.resume(store, options.case)
    finally:
        store.close()
    state = job.state
    for said, own, kind in (
        (options.tree, state.tree.name, "tree"),
        (options.vehicle, state.sheet.name, "vehicle"),
    ):
        if said not in (None, own):
            raise Failure(
                f"Case {job.case} was walked on the {kind} `{own}`, not `{said}`.", "Leave that out."
            )
    return Subject(state.library, state.tree, state.sheet, trail=trail(job.entries, state), case=job.case)


def _read(options: argparse.Namespace) -> "Subject":
    """The document as it stands in its file, with what lint finds in it."""
    from engine.report.drawing.graph import Subject

    if not options.tree:
        raise Failure("No tree is named.", "Name one: `witnessmark draw no-rear-drive`.")
    library = _holding(options.tree, [*options.paths, *options.library])
    document = _document(library, options.tree)
    sheet = _sheet(library, document, options.vehicle)
    findings = api.lint(library, frozenset((document.place.file,)), options.vehicle or "")
    return Subject(library, document, sheet, findings)


def _holding(name: str, paths: list[Path]) -> Library:
    """The library under review where it has the document, else the shipped one beside it."""
    library, _ = under_review(paths)
    if any(name in held for held in (library.trees, library.procedures)) or f"tree {name}" in library.broken:
        return library
    return gather(folders.shipped())


def _document(library: Library, name: str) -> Document:
    if name in library.trees:
        return library.trees[name]
    if name in library.procedures:
        return library.procedures[name]
    if {f"tree {name}", f"procedure {name}"} & library.broken:
        raise Unreadable(library.problems)
    known = [*library.trees, *library.procedures]
    raise Failure(f"There is no tree or procedure `{name}`.", meant(name, known))


def _sheet(library: Library, document: Document, name: str | None) -> Sheet | None:
    if name is None:
        return None
    if name not in library.sheets:
        raise Failure(f"There is no vehicle `{name}`.", meant(name, list(library.sheets)))
    sheet = library.sheets[name]
    reasons = api.suits(document, sheet) if isinstance(document, Tree) else ()
    if reasons:
        raise Failure(f"The tree is not for `{name}`: {'; '.join(reasons)}.", "Choose another vehicle.")
    return sheet


COMMAND: Final = Command(_parser, _run)
