"""`witnessmark lint`: what is wrong with documents, where, why, and what cures it."""

import argparse
import gc
import sys
from pathlib import Path
from typing import Final

from engine.cli.command import Command, parser
from engine.cli.reviewed import papers
from engine.lint.formatting import FORMATS, formatted
from engine.lint.review import Review
from engine.lint.runner import weigh

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
    held = papers(options.paths)
    library = held.library()
    weighed = weigh(library, held.shown)
    trees = sum(tree.place.file in held.shown for tree in library.trees.values())
    texts = {shown: library.texts[path] for shown, path in library.shown.items()}
    review = Review(weighed.findings, held.shown, trees, texts, weighed.accepted)
    sys.stdout.write(formatted(options.format)(review))
    return 1 if review.findings else 0


COMMAND: Final = Command(_parser, _run)
