"""The door: opens the terminal app, or hands the command to the command line.

Neither face is imported before it is known which one is wanted.
"""

import os
import sys


def main() -> int:
    """Run Witnessmark; returns the exit code."""
    arguments = sys.argv[1:]
    if arguments == ["--version"]:
        from engine import __version__

        sys.stdout.write(f"witnessmark {__version__}\n")
        return 0
    if _wants_app(arguments):
        return _open(arguments)
    from engine.cli.main import main as command_line

    return command_line(arguments)


def _wants_app(arguments: list[str]) -> bool:
    """Whether the terminal app is meant, and the terminal can carry it."""
    if arguments and (
        arguments[0] not in ("walk", "--store", "--library", "--no-mouse") or "--help" in arguments
    ):
        return False
    if {"--plain", "--answers", "-h"} & {word.split("=")[0] for word in arguments}:
        return False
    able = sys.stdin.isatty() and sys.stdout.isatty() and os.environ.get("TERM", "") not in ("", "dumb")
    return able or not arguments


def _open(arguments: list[str]) -> int:
    if not (sys.stdin.isatty() and sys.stdout.isatty()) or os.environ.get("TERM", "") in ("", "dumb"):
        sys.stderr.write(
            "witnessmark: The app needs a terminal. `witnessmark walk TREE --plain` works anywhere.\n"
        )
        return 2
    from engine.cli.app_options import app_options
    from engine.cli.settings import settings
    from engine.errors import Failure

    options = app_options(arguments)
    from tui.app import run

    try:
        return run(
            store_url=options.store,
            folders=(*settings().library, *options.library),
            case=options.case,
            tree=options.tree,
            vehicle=options.vehicle,
            label=options.label,
            mouse=options.mouse,
        )
    except Failure as failure:
        sys.stderr.write(f"witnessmark: {failure}\n")
        return 2


if __name__ == "__main__":
    sys.exit(main())
