"""`witnessmark report`: a case as a page."""

import argparse
from pathlib import Path
from typing import Final

from engine import api
from engine.cli.command import Command, add_store, parser
from engine.errors import Failure

_ABOUT = "Print a case as Markdown: complaint, cause, correction, trail, readings, cautions."


def _parser() -> argparse.ArgumentParser:
    made = parser("report", _ABOUT, "witnessmark report 2026-11-25-k7qdx --to case.md")
    made.add_argument("case", metavar="CASE", help="the case's name, as `witnessmark cases` lists it")
    made.add_argument("--to", metavar="FILE", type=Path, help="write to a file; it must not exist yet")
    add_store(made)
    return made


def _run(options: argparse.Namespace) -> int:
    store = api.open_store(options.store)
    try:
        page = api.report(api.resume(store, options.case))
    finally:
        store.close()
    if options.to is None:
        print(page, end="")
    else:
        write_new(options.to, page)
        print(f"Written to {options.to}.")
    return 0


def write_new(path: Path, text: str) -> None:
    """Write a file that must not be there yet; never half of one."""
    try:
        with path.open("x", encoding="utf-8") as file:
            file.write(text)
    except FileExistsError:
        raise Failure(f"{path} is there already.", "Give another name.") from None
    except OSError as error:
        path.unlink(missing_ok=True)
        raise Failure(f"{path} cannot be written: {error.strerror}.", "Choose another folder.") from None


COMMAND: Final = Command(_parser, _run)
