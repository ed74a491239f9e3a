"""`witnessmark walk`: one walk, line by line, by hand or from an answers file."""

import argparse
import sys
from pathlib import Path
from typing import Final

from engine import api
from engine.cli.command import Command, add_library, add_store, parser
from engine.cli.scripted import scripted
from engine.cli.settings import settings
from engine.cli.talk import Hear, talk
from engine.errors import Failure
from engine.loading.answers import answers
from engine.model.rehearsal import Rehearsal
from engine.plain import clean

_ABOUT = """\
Walk a tree on a vehicle. In a terminal this opens the app; --plain asks line by line, and --answers
walks alone from a file. Everything that was answered is kept at once, whatever happens next.
Exit code 0: a verdict, or paused; 1: the input or the script ended elsewhere; 2: could not."""


def make_parser() -> argparse.ArgumentParser:
    """The words of `walk`; the terminal app reads the same ones."""
    made = parser("walk", _ABOUT, "witnessmark walk no-rear-drive --vehicle fellside --plain")
    made.add_argument(
        "tree", nargs="?", metavar="TREE", help="the tree's name; not needed with --case or --answers"
    )
    made.add_argument("--vehicle", metavar="SHEET", help="the vehicle sheet's name")
    made.add_argument(
        "--plain", action="store_true", help="line by line, for pipes, screen readers and scripts"
    )
    made.add_argument(
        "--answers", metavar="FILE", type=Path, help="take the answers from a file, as a rehearsal has them"
    )
    made.add_argument("--case", metavar="ID", help="go on with this case, or open a new one under this name")
    made.add_argument("--label", metavar="TEXT", default="", help="registration, order number")
    made.add_argument("--by", metavar="NAME", default="", help="who works on it")
    add_library(made)
    add_store(made)
    return made


def _run(options: argparse.Namespace) -> int:
    script = answers(options.answers) if options.answers else None
    lines = _Lines()
    store = api.open_store(options.store)
    try:
        job = _job(store, options, script, lines)
        print(clean(f"Case {job.case}: {job.state.tree.title}, {job.state.sheet.title}.", lines=False))
        if script is not None:
            return scripted(store, job, script, print)
        print("Every answer is kept at once. `?` lists what you can type.\n")
        return _closed(talk(store, job, print, lines.hear), ended=lines.ended)
    finally:
        store.close()


def _closed(job: api.Job, *, ended: bool) -> int:
    case = clean(job.case, lines=False)
    if job.state.accepted:
        print(f"The case is closed with its verdict. `witnessmark report {case}` prints it.")
        return 0
    print(f"\nPaused. `witnessmark walk --case {case}` goes on where you left.")
    return 1 if ended else 0


def _job(store: api.Store, options: argparse.Namespace, script: Rehearsal | None, lines: "_Lines") -> api.Job:
    if options.case and store.read(options.case):
        return api.resume(store, options.case)
    tree = options.tree or (script.tree if script else "")
    if not tree:
        raise Failure("No tree is named.", "Name one: `witnessmark walk no-rear-drive`.")
    held = api.library((*settings().library, *options.library))
    vehicle = options.vehicle or (script.vehicle if script else "") or _only(held, tree, lines.hear)
    return api.open_job(store, held, tree, vehicle, label=options.label, by=options.by, case=options.case)


def _only(held: api.Library, tree: str, hear: Hear) -> str:
    """The vehicle, chosen by number where several suit."""
    if tree not in held.trees:
        return next(iter(held.sheets), "")
    suiting = [sheet for sheet in held.sheets.values() if not api.suits(held.trees[tree], sheet)]
    for number, sheet in enumerate(suiting, 1):
        print(clean(f"  {number}  {sheet.title} ({sheet.name})", lines=False))
    heard = (hear(f"Which vehicle, 1 to {len(suiting)}: ") or "").strip()
    names = {sheet.name for sheet in suiting}
    chosen = {str(number): sheet.name for number, sheet in enumerate(suiting, 1)}.get(heard, heard)
    if chosen in names:
        return chosen
    raise Failure("No vehicle was chosen.", f"Name one with --vehicle: {', '.join(sorted(names))}.")


class _Lines:
    """The lines of the input, one by one."""

    #: The input has ended, and nobody sits there who ended it.
    ended = False

    def hear(self, cue: str) -> str | None:
        """The next line; None where there is no more."""
        try:
            # a program may be started without any input at all
            if sys.stdin is not None:
                return input(cue)
        except EOFError:
            pass
        self.ended = sys.stdin is None or not sys.stdin.isatty()
        return None


COMMAND: Final = Command(make_parser, _run)
