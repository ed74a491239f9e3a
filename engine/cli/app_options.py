"""The words that may stand behind `witnessmark` when it opens the terminal app."""

import argparse
from collections.abc import Sequence

from engine.cli.walk import make_parser


def app_options(arguments: Sequence[str]) -> argparse.Namespace:
    """What the app is opened with: nothing, or the words of `walk` (without the word itself)."""
    made = make_parser()
    made.add_argument(
        "--no-mouse", dest="mouse", action="store_false", help="leave the mouse to the terminal"
    )
    words = list(arguments)
    return made.parse_args(words[1:] if words[:1] == ["walk"] else words)
