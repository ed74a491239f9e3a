"""`witnessmark explain`: the manual page of a finding's slug."""

import argparse
from typing import Final

from engine.cli.command import Command, parser
from engine.errors import Failure
from engine.lint.pages import page, slugs
from engine.nearest import meant


def _parser() -> argparse.ArgumentParser:
    made = parser(
        "explain", "Print the page of a rule, with a bad and a good example.", "witnessmark explain loop"
    )
    made.add_argument("slug", nargs="?", metavar="SLUG", help="the rule; without it, all slugs are listed")
    return made


def _run(options: argparse.Namespace) -> int:
    if options.slug is None:
        print("\n".join(slugs()))
        return 0
    found = page(options.slug)
    if found is None:
        raise Failure(f"There is no rule `{options.slug}`.", meant(options.slug, slugs()))
    print(found)
    return 0


COMMAND: Final = Command(_parser, _run)
