"""The keys, page by page, and how the program treats whoever works with it."""

from typing import ClassVar, Final

from textual.app import ComposeResult
from textual.binding import BindingType

from tui.keys import PLACES, TABLE, bindings
from tui.screens.page import ReadingPage
from tui.widgets.column import Body
from tui.widgets.keyline import Keyline
from tui.widgets.words import Words

_MANNERS: Final = (
    "Every answer is written to the store before the next question is shown. Nothing is left to save.",
    "Leave at any time, also by closing the window, and resume the job later.",
    "A key that is held down, or bounces under a glove, counts once. Let it go before it answers again.",
    "Stepping back takes nothing out of the record: it says that it was stepped back.",
    "The manufacturer's procedure, local rules and licensed practice come before anything said here.",
)


class HelpScreen(ReadingPage):
    """Everything on one page that scrolls."""

    BINDINGS: ClassVar[list[BindingType]] = [*bindings("help")]

    def parts(self) -> ComposeResult:
        """How the program behaves, then the keys of each screen."""
        with Body():
            yield Words("How it works", classes="title")
            for text in _MANNERS:
                yield Words("· ", text)
            for place, actions in PLACES:
                yield Words(place, classes="title")
                yield Words(*(part for action in actions for part in _line(action)))
        yield Keyline("leave", "scroll")

    def action_help(self) -> None:
        """The key that opened it closes it."""
        self.dismiss(None)


def _line(action: str) -> tuple[str | tuple[str, str], ...]:
    key = TABLE[action]
    return ((f"{key.shown:<10}", "bold"), f"{key.help}\n")
