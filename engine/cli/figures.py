"""`witnessmark figures`: how long a tree is, how long it takes, and how well it tells its suspects apart.

With `--format json` one object is printed. Its `format` is 1 as long as what is told here stays: `figures`
lists one object for each tree and kind of vehicle, with `tree`, `vehicles`, `steps`, `paths`, `minutes`
(`fewest`, `expected`, `most`), `suspects` (`detected`, `isolated-to-1`, `isolated-to-2`, `mean-group`; null
where nothing is detected), `groups` (for each detected suspect the names it is left with, its own among
them) and `missed`. Numbers are exact and written as text (`180`, `45/28`): they may have thousands of digits.
"""

import argparse
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Final

from engine.cli.command import Command, json_text, parser
from engine.cli.figured import Told, data, markdown, text
from engine.cli.reviewed import under_review
from engine.errors import Failure
from engine.lint.rule import Scope
from engine.model.tree import Tree
from engine.nearest import meant
from engine.plain import clean
from engine.proof.figures.figures import figures
from engine.proof.figures.vehicles import kinds, sound

_ABOUT = """\
Say of every tree, on every kind of vehicle that it is for: its steps and
paths, the fewest, expected and most minutes to a verdict, and how many of its
suspects it finds and tells apart. Vehicles that go the same ways are one kind.

Expected is the mean over the suspects by their weights. Under a suspect an
answer is met as often as its `fits` says; what is left is spread evenly over
the answers that say nothing of the suspect, and so is a step that says nothing
at all. A procedure ends by each outcome equally often, unless its own `fits`
say else. `unsure` counts in paths, fewest and most, but is never expected.
What is done after a verdict (`follow`) is not counted. Each question is taken
for itself: an earlier answer does not change how often the next one is met.

A suspect is found where a verdict that convicts it can be reached under it. It
is not told apart from those that every such verdict convicts as well.

Exit code 0: done; 1: a document has errors that keep it from having figures."""


def _parser() -> argparse.ArgumentParser:
    made = parser("figures", _ABOUT, "witnessmark figures trees --vehicle fellside --format markdown")
    made.add_argument(
        "paths", nargs="*", type=Path, metavar="PATH", help="files and folders (else ./trees, else all)"
    )
    made.add_argument("--vehicle", metavar="SHEET", help="only on this vehicle")
    made.add_argument(
        "--format", choices=("text", "json", "markdown"), default="text", help="how they are printed"
    )
    return made


def _run(options: argparse.Namespace) -> int:
    library, files = under_review(options.paths)
    scope = Scope(library, files, options.vehicle or "")
    if options.vehicle and not scope.vehicles:
        raise Failure(f"There is no vehicle `{options.vehicle}`.", meant(options.vehicle, library.sheets))
    told, amiss = _figures(scope)
    amiss = [*(str(problem) for problem in library.problems if problem.file in files), *amiss]
    for line in amiss:
        sys.stderr.write(clean(line, lines=False) + "\n")
    if not told and not amiss:
        raise Failure("No tree here is for such a vehicle.", "Name a folder with trees, or another vehicle.")
    _print(options.format, told)
    return 1 if amiss else 0


def _figures(scope: Scope) -> tuple[list[Told], list[str]]:
    """The figures of all trees under review, and what keeps others from having any."""
    told: list[Told] = []
    amiss: list[str] = []
    for tree in scope.trees:
        for each in _of(scope, tree):
            if isinstance(each, Told):
                told.append(each)
            else:
                amiss.append(each)
    return told, amiss


def _of(scope: Scope, tree: Tree) -> Iterator[Told | str]:
    procedures = scope.library.procedures
    for sheets in kinds(tree, procedures, scope.sheets(tree)):
        names = tuple(sheet.name for sheet in sheets)
        facts = sheets[0].facts
        if sound(tree, procedures, facts):
            yield Told(tree, names, figures(tree, procedures, facts))
        else:
            where = f"{tree.place}: `{tree.name}` cannot be walked to its end on {', '.join(names)}."
            yield f"{where} `witnessmark lint` says what is wrong."


def _print(form: str, told: list[Told]) -> None:
    if form == "json":
        print(json_text(data(told)))
        return
    for line in (markdown if form == "markdown" else text)(told):
        print(clean(line, lines=False))


COMMAND: Final = Command(_parser, _run)
