"""How `--help` is laid out."""

import os
import sys
from argparse import RawDescriptionHelpFormatter


class Help(RawDescriptionHelpFormatter):
    """Help as wide as the terminal, which is asked here: argparse loads archive formats to ask it."""

    def __init__(self, prog: str) -> None:
        super().__init__(prog, width=_columns() - 2)


def _columns() -> int:
    """Columns of the terminal, by the variable that overrides them, by asking it, or else 80."""
    given = os.environ.get("COLUMNS", "")
    if given.isdigit() and int(given):
        return int(given)
    try:
        return os.get_terminal_size(sys.__stdout__.fileno()).columns or 80  # type: ignore[union-attr]  # reason: AttributeError is caught
    except (AttributeError, ValueError, OSError):
        return 80
