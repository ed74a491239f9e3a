"""`witnessmark compare`: what changed for the technician between two versions.

With `--format json` one object is printed. Its `format` is 1 as long as what is told here stays:

- `old`, `new`: the two versions as they were named;
- `moved`: for each moved verdict `document`, `vehicles`, `old`, `new` (null for none), their places, and the
  shortest `walk`: lines of `step`, `answer`, and the place in each version (null where it does not ask it);
- `paths`: by document `old`, `new` and `shared` counts (beyond 53 bits as text in base 16, `0x...`),
  `shortest-gained` and `shortest-lost` as walks;
- `changes`: `serious`, `kind`, `document`, `step`, `message` and the place in each version.

Places are `file:line:column` or null.
"""

import argparse
from typing import Final

from engine.cli.command import Command, json_text, parser
from engine.cli.compared import data, text
from engine.cli.version import version
from engine.plain import clean
from engine.proof.compare.compare import compare

_ABOUT = (
    "Say what changed for the technician between two versions of a document or a folder.\n"
    "A version is a file, a folder, or REVISION:PATH as git writes it.\n"
    "Exit code 0: whoever answers as before ends as before; 1: a verdict moved."
)


def _parser() -> argparse.ArgumentParser:
    made = parser("compare", _ABOUT, "witnessmark compare HEAD~1:trees trees")
    made.add_argument("old", metavar="OLD", help="the version before")
    made.add_argument("new", metavar="NEW", help="the version after")
    made.add_argument("--format", choices=("text", "json"), default="text", help="how it is printed")
    return made


def _run(options: argparse.Namespace) -> int:
    compared = compare(version(options.old), version(options.new))
    if options.format == "json":
        print(json_text(data(options.old, options.new, compared)))
    else:
        for line in text(compared):
            print(clean(line, lines=False))
    return 1 if compared.moved else 0


COMMAND: Final = Command(_parser, _run)
