"""What a command of the command line is, and the options that several share."""

import argparse
from collections.abc import Callable
from pathlib import Path
from typing import NamedTuple


class Command(NamedTuple):
    """A command: how its words are read, and what it does with them."""

    parser: Callable[[], argparse.ArgumentParser]
    run: Callable[[argparse.Namespace], int]


def parser(name: str, about: str, example: str) -> argparse.ArgumentParser:
    """A parser whose help ends with an example."""
    return argparse.ArgumentParser(
        prog=f"witnessmark {name}",
        description=about,
        epilog=f"example: {example}",
        formatter_class=argparse.RawDescriptionHelpFormatter,
        allow_abbrev=False,
    )


def add_library(to: argparse.ArgumentParser) -> None:
    """The option that names further folders of documents."""
    to.add_argument(
        "--library",
        metavar="FOLDER",
        type=Path,
        action="append",
        default=[],
        help="documents to use beside the shipped ones; may be given again",
    )


def add_store(to: argparse.ArgumentParser) -> None:
    """The option that names the store of cases."""
    to.add_argument("--store", metavar="URL", help="where cases are kept: a file, or sqlite:///file")


def add_json(to: argparse.ArgumentParser) -> None:
    """The option for machines that read."""
    to.add_argument("--json", action="store_true", help="print JSON for machines")
