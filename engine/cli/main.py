"""The command line: which command, and what happens when it fails.

Only the command that is called is imported, so that each starts as quickly as it can.
"""

import sys
from collections.abc import Sequence
from importlib import import_module
from typing import Final

from engine import __version__
from engine.cli.command import Command
from engine.errors import Failure
from engine.nearest import meant

#: Each command with its one line of help; the module of the same name holds it.
COMMANDS: Final = {
    "walk": "walk a tree on a vehicle, question by question",
    "lint": "say what is wrong with documents, where and why",
    "explain": "print the page of a rule, with a bad and a good example",
    "rehearse": "walk the scripts and hold them against their verdicts",
    "cases": "list, show, export, verify and rescue cases",
    "report": "print a case as a page",
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
    try:
        return _run(arguments)
    except Failure as failure:
        sys.stderr.write(f"witnessmark: {failure}\n")
        return 2
    except KeyboardInterrupt:
        sys.stderr.write("\nStopped. What was answered is kept.\n")
        return 130
    except BrokenPipeError:
        # the reader of a pipe has gone; nobody is left to tell
        sys.stderr.close()
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
    return command.run(command.parser().parse_args(arguments[1:]))
