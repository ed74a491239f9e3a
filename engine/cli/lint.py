"""`witnessmark lint`: what is wrong with documents, where, why, and what cures it."""

import argparse
import gc
import sys
from collections.abc import Callable, Iterable
from pathlib import Path
from typing import TYPE_CHECKING, Final

from engine.cli.command import Command, parser
from engine.cli.remembered import Found, key, recall, remember
from engine.cli.reviewed import Papers, papers
from engine.cli.settings import settings
from engine.errors import Failure
from engine.lint.excerpt import decoded
from engine.lint.formatting import FORMATS, formatted
from engine.lint.review import Review

if TYPE_CHECKING:
    from engine.lint.finding import Finding

    Tells = Callable[[Finding], bool]

_ABOUT = """\
Say what is wrong with trees, procedures, sheets and the rest.

A document lets a finding stand with `accept:` and a reason. An old library
writes its findings to a backlog and is then told of new ones only. The rules
are listed by `witnessmark explain`. Settings stand in witnessmark.toml, or in
[tool.witnessmark] of pyproject.toml: library, and below [lint] only, without,
backlog. What is not told by choice is counted in the last line.

Exit code 0: clean, or notes alone; 1: findings."""


def _parser() -> argparse.ArgumentParser:
    made = parser("lint", _ABOUT, "witnessmark lint trees --format json")
    made.add_argument(
        "paths",
        nargs="*",
        type=Path,
        metavar="PATH",
        help="files and folders (else those of the settings, else ./trees, else all)",
    )
    made.add_argument("--format", choices=sorted(FORMATS), default="text", help="how findings are printed")
    made.add_argument("--only", action="append", metavar="RULE", help="tell only this; may be given again")
    made.add_argument(
        "--without", action="append", metavar="RULE", help="do not tell this; may be given again"
    )
    made.add_argument("--backlog", type=Path, metavar="FILE", help="do not tell what this file holds")
    made.add_argument("--write-backlog", type=Path, metavar="FILE", help="write what is found to this file")
    made.add_argument("--watch", action="store_true", help="look again whenever a file changes")
    made.add_argument("--afresh", action="store_true", help="look even where the same files were looked at")
    return made


def _run(options: argparse.Namespace) -> int:
    if options.watch:
        from engine.cli.watching import watch

        if options.format not in ("text", "lines") or options.write_backlog:
            raise Failure("`--watch` prints for people, and writes nothing.", "Leave the other option away.")
        return watch(options.paths, lambda: _once(options))
    return _once(options)


def _once(options: argparse.Namespace) -> int:
    """Look once: what is printed, and 1 where anything but a note stands."""
    # a look builds much and drops little: collecting garbage meanwhile would double its time
    gc.disable()
    try:
        review = _reviewed(options)
    finally:
        gc.enable()
    if options.write_backlog:
        # a note stops nobody, and a backlog that held it would only hide it
        return _write(options.write_backlog, [each for each in review.findings if each.severity != "note"])
    sys.stdout.write(formatted(options.format)(review))
    return 1 if review.amiss else 0


def _reviewed(options: argparse.Namespace) -> Review:
    chosen = _choice(options)
    held = papers(options.paths)
    findings, accepted, trees = _found(held, afresh=options.afresh)
    every = len(findings)
    findings = tuple(finding for finding in findings if chosen(finding))
    left_out = every - len(findings)
    accepted = tuple(each for each in accepted if chosen(each.finding))
    with_findings = {finding.file for finding in findings}
    texts = {file.shown: decoded(file.content) for file in held.own if file.shown in with_findings}
    review = Review(findings, held.shown, trees, texts, accepted, left_out=left_out)
    path = options.backlog or settings().backlog
    # a backlog that is written anew holds all there is
    return review if path is None or options.write_backlog else _without_old(review, path)


def _found(held: Papers, *, afresh: bool) -> Found:
    name = key(held)
    known = None if afresh else recall(name)
    if known is None:
        from engine.lint.runner import weigh

        library = held.library()
        weighed = weigh(library, held.shown)
        trees = sum(tree.place.file in held.shown for tree in library.trees.values())
        known = weighed.findings, weighed.accepted, trees
        remember(name, known)
    return known


def _choice(options: argparse.Namespace) -> "Tells":
    """Whether a finding is told, by the words of the command, else by the settings."""
    only = settings().only if options.only is None else options.only
    without = settings().without if options.without is None else options.without
    if not only and not without:
        return lambda _: True
    from engine.lint.choice import choice

    return choice(only, without).tells


def _without_old(review: Review, path: Path) -> Review:
    from engine.lint.backlog import part, read

    parted = part(review.findings, read(path), path.parent.absolute())
    return review._replace(findings=parted.new, old=parted.old, mended=parted.mended)


def _write(path: Path, findings: "Iterable[Finding]") -> int:
    from engine.cli.whole import write
    from engine.lint.backlog import written

    write(path, written(findings, path.parent.absolute()))
    sys.stderr.write(f"Written to {path}. `witnessmark lint --backlog {path}` tells what is new.\n")
    return 0


COMMAND: Final = Command(_parser, _run)
