"""What a command of the command line is, and the options that several share."""

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING, Any, Final, NamedTuple

if TYPE_CHECKING:
    import argparse

#: What JSON allows in a text and a terminal may obey or hide; only texts can hold it.
_UNSEEN: Final = "[\x7f-\x9f\u061c\u200e\u200f\u2028-\u202e\u2066-\u2069\ufeff\ud800-\udfff]"


class Command(NamedTuple):
    """A command: how its words are read, and what it does with them."""

    parser: Callable[[], "argparse.ArgumentParser"]
    run: Callable[["argparse.Namespace"], int]
    #: Runs words that need no parser, which takes longer to load than a sum to work out; None for others.
    plainly: Callable[[Sequence[str]], int | None] = lambda _: None

    def __call__(self, words: Sequence[str]) -> int:
        """Run the command on the words behind its name; returns the exit code."""
        done = self.plainly(words)
        return self.run(self.parser().parse_args(words)) if done is None else done


def parser(name: str, about: str, example: str) -> "argparse.ArgumentParser":
    """A parser whose help ends with an example."""
    from argparse import ArgumentParser

    from engine.cli.helping import Help

    return ArgumentParser(
        prog=f"witnessmark {name}",
        description=about,
        epilog=f"example: {example}",
        formatter_class=Help,
        allow_abbrev=False,
    )


def add_library(to: "argparse.ArgumentParser") -> None:
    """The option that names further folders of documents."""
    from pathlib import Path

    to.add_argument(
        "--library",
        metavar="FOLDER",
        type=Path,
        action="append",
        default=[],
        help="documents to use beside the shipped ones; may be given again",
    )


def add_store(to: "argparse.ArgumentParser") -> None:
    """The option that names the store of cases."""
    to.add_argument("--store", metavar="URL", help="where cases are kept: a file, or sqlite:///file")


def json_text(value: Any) -> str:
    r"""A value as JSON for machines, and harmless where a person looks at it in a terminal.

    >>> print(json_text("red\x9b31m"))
    "red\u009b31m"
    """
    import json
    import re

    text = json.dumps(value, indent=2, ensure_ascii=False)
    return re.sub(_UNSEEN, lambda found: f"\\u{ord(found.group()):04x}", text)


def add_json(to: "argparse.ArgumentParser") -> None:
    """The option for machines that read."""
    to.add_argument("--json", action="store_true", help="print JSON for machines")
