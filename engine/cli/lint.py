"""`witnessmark lint`: what is wrong with documents, where, why, and what cures it."""

import argparse
import gc
import re
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Final

from engine.cli.command import Command, parser
from engine.cli.progress import counted
from engine.errors import Failure
from engine.lint.formatting import FORMATS
from engine.lint.runner import run as lint
from engine.loading import folders
from engine.loading.library import File, Library, gather

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
    sys.stdout.write(FORMATS[options.format](findings, library, files))
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
    own = tuple(folders.below(named))
    if not own:
        if named:
            raise Failure(f"There is no YAML file below {named[0]}.", "Name a folder of documents.")
        own = tuple(folders.shipped())
    files = (*counted(own, "reading"), *_referred(own))
    return gather(files), frozenset(file.shown for file in own)


def _referred(own: tuple[File, ...]) -> Iterator[File]:
    """The shipped documents that these may refer to. They were linted before they were shipped."""
    scripted = any(_REHEARSAL.search(file.content) for file in own)
    kinds = ("shop/", "procedures/", "vehicles/", *(("complaints/",) if scripted else ()))
    shown = {file.shown for file in own}
    for file in folders.shipped(kinds):
        if file.shown not in shown:
            yield file._replace(trusted=True)


COMMAND: Final = Command(_parser, _run)
