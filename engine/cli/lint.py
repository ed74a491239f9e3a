"""`witnessmark lint`: what is wrong with documents, where, why, and what cures it."""

import argparse
import gc
import re
import sys
from collections.abc import Iterable, Iterator
from itertools import chain
from pathlib import Path
from typing import Final

from engine.cli.command import Command, parser
from engine.cli.crew import together
from engine.cli.progress import counted
from engine.errors import Failure
from engine.lint.formatting import FORMATS, formatted
from engine.lint.runner import run as lint
from engine.loading import folders
from engine.loading.leaf import File
from engine.loading.library import Library, gather

_REHEARSAL: Final = re.compile(rb"^rehearsal:", re.MULTILINE)
_ABOUT = "Say what is wrong with trees, procedures, sheets and the rest.\nExit code 0: clean; 1: findings."


def _parser() -> argparse.ArgumentParser:
    made = parser("lint", _ABOUT, "witnessmark lint trees --format json")
    made.add_argument(
        "paths", nargs="*", type=Path, metavar="PATH", help="files and folders (else ./trees, else all)"
    )
    made.add_argument("--format", choices=sorted(FORMATS), default="text", help="how findings are printed")
    return made


def _run(options: argparse.Namespace) -> int:
    # a lint run builds much, drops little and ends: collecting garbage would double its time
    gc.disable()
    library, files = under_review(options.paths)
    findings = lint(library, files)
    sys.stdout.write(formatted(options.format)(findings, library, files))
    return 1 if findings else 0


def under_review(paths: list[Path]) -> tuple[Library, frozenset[str]]:
    """The library to check, and the files of it that were asked for.

    Without paths that is ./trees where there is one, else the shipped library. The shipped documents
    are there to be referred to; one that a path gives anew makes way for it.
    """
    named = paths or [path for path in (Path("trees"),) if path.is_dir()]
    for path in named:
        if not path.exists():
            raise Failure(f"There is no file or folder {path}.", "Check the path.")
    own = _Own()
    library = gather(chain(own.watch(folders.below(named)), _referred(own)), together)
    if named and not own.shown:
        raise Failure(f"There is no YAML file below {named[0]}.", "Name a folder of documents.")
    if not own.shown:
        library = gather(own.watch(folders.shipped()))
    return library, frozenset(own.shown)


class _Own:
    """The files that were asked for, noted as they go by: nobody holds a large library twice."""

    def __init__(self) -> None:
        self.shown: set[str] = set()
        self.scripted = False

    def watch(self, files: Iterable[File]) -> Iterator[File]:
        """The files as they are."""
        for file in counted(files, "reading"):
            self.shown.add(file.shown)
            self.scripted = self.scripted or _REHEARSAL.search(file.content) is not None
            yield file


def _referred(own: _Own) -> Iterator[File]:
    """The shipped documents that these may refer to. They were linted before they were shipped."""
    kinds = ("shop/", "procedures/", "vehicles/", *(("complaints/",) if own.scripted else ()))
    for file in folders.shipped(kinds if own.shown else ()):
        if file.shown not in own.shown:
            yield file._replace(trusted=True)


COMMAND: Final = Command(_parser, _run)
