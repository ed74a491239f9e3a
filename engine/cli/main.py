"""The command line: which command, and what happens when it fails.

Only the command that is called is imported, so that each starts as quickly as it can.
"""

import sys
from collections.abc import Sequence
from importlib import import_module
from typing import Final

from engine import __version__
from engine.cli import streams
from engine.cli.command import Command
from engine.errors import Failure
from engine.nearest import meant
from engine.plain import clean

#: Each command with its one line of help; the module of the same name holds it.
COMMANDS: Final = {
    "walk": "walk a tree on a vehicle, question by question",
    "lint": "say what is wrong with documents, where and why",
    "explain": "print the page of a rule, with a bad and a good example",
    "new": "write a document to begin with, and say what comes next",
    "compare": "say what changed for the technician between two versions",
    "draw": "draw a tree, or the way a case took through it",
    "figures": "say how long trees take, and how well they tell suspects apart",
    "calc": "the trade's arithmetic: list it, explain it, work it out with units",
    "plan": "find the cheapest order of the tests of a matrix, and prove it",
    "rehearse": "walk the scripts and hold them against their verdicts",
    "cases": "list, show, export, verify and rescue cases",
    "report": "print a case as a page",
    "confirm": "say after the repair whether it helped, and what the true cause was",
    "learn": "count confirmed cases: weights, signs, and verdicts that come back",
}
_USAGE: Final = """\
witnessmark                   open the terminal app
witnessmark COMMAND --help    what a command takes, with an example
witnessmark --version

commands:
"""


def main(argv: Sequence[str] | None = None) -> int:
    """Run one command; the exit code is 0 for done, 1 for findings, 2 for could not, 130 for Ctrl-C."""
    arguments = list(sys.argv[1:] if argv is None else argv)
    streams.forgive()
    try:
        return _told(arguments)
    except Failure as failure:
        return _could_not(str(failure))
    except KeyboardInterrupt:
        sys.stderr.write("\nStopped. What was answered is kept.\n")
        return 130
    except BrokenPipeError:
        streams.drop()  # the reader of a pipe has gone; nobody is left to tell
        return 2
    except OSError as error:
        streams.drop()
        what = error.filename if error.filename is not None else "The output"
        return _could_not(
            f"{what} cannot be used: {error.strerror or error}. Check the disk and its permissions."
        )


def _told(arguments: list[str]) -> int:
    """Run one command to the last word of its output."""
    try:
        return _run(arguments)
    finally:
        streams.flush()


def _could_not(why: str) -> int:
    sys.stderr.write(f"witnessmark: {clean(why, lines=False)}\n")
    return 2


def _run(arguments: list[str]) -> int:
    name = arguments[0] if arguments else "--help"
    if name in ("--version", "-V"):
        print(f"witnessmark {__version__}")
        return 0
    if name in ("--help", "-h", "help"):
        print(_USAGE + "\n".join(f"  {name:<10} {about}" for name, about in COMMANDS.items()))
        return 0
    if name not in COMMANDS:
        raise Failure(f"There is no command `{name}`.", meant(name, COMMANDS))
    command: Command = import_module(f"engine.cli.{name}").COMMAND
    return command(arguments[1:])
