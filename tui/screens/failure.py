"""What could not be done, in words, with its cure; and the chance to send the same answer again."""

from collections.abc import Mapping
from typing import ClassVar, Final

from textual import on
from textual.app import ComposeResult
from textual.binding import BindingType

from engine.errors import Damaged, Failure, Full, NotWritable
from tui.keys import bindings
from tui.messages import Picked
from tui.screens.page import Page
from tui.widgets.column import Body, Column
from tui.widgets.keyline import Keyline
from tui.widgets.row import Line
from tui.widgets.rows import Rows
from tui.widgets.words import Words

_TITLES: Final[Mapping[type[Failure], str]] = {
    Full: "There is no room to write",
    NotWritable: "The store may not be written",
    Damaged: "The store is damaged",
}
_KEPT: Final = "Nothing was lost. What you typed is still there, and so is everything answered before."


class FailureScreen(Page[bool]):
    """Says what is wrong. Gives back whether the same answer is to be sent again."""

    DEFAULT_CSS = """
    FailureScreen Words { margin: 0 0 1 0; padding: 0 1; }
    FailureScreen #title { background: $error; color: $background; text-style: bold; }
    FailureScreen #title:nocolor { text-style: bold reverse; }
    """
    BINDINGS: ClassVar[list[BindingType]] = [*bindings("again", "leave")]

    def __init__(self, failure: Failure, *, again: bool) -> None:
        super().__init__()
        self.failure = failure
        self.again = again

    def parts(self) -> ComposeResult:
        """The kind of failure, the facts, the cure."""
        failure = self.failure
        with Column():
            with Body():
                yield Words(f"NOT DONE: {_TITLES.get(type(failure), 'this cannot be done now')}", id="title")
                yield Words(failure.message, id="message")
                yield Words(("What helps  ", "bold"), failure.cure, id="cure")
                if self.again:
                    yield Words(_KEPT, id="kept")
            yield Rows(self._lines())
        yield Keyline(*(("again",) if self.again else ()), "leave")

    def _lines(self) -> list[Line]:
        leave = Line("Esc", "Go back")
        return [Line("s", "Send the same answer again"), leave] if self.again else [leave]

    def on_mount(self) -> None:
        """Going back is what Enter does: nothing is sent twice by a key that is held."""
        for rows in self.query(Rows):
            rows.mark(len(rows.lines) - 1)

    @on(Picked)
    def _picked(self, event: Picked) -> None:
        event.stop()
        self.dismiss(self.again and event.line == 0)

    def action_again(self) -> None:
        """Send the same answer again."""
        if self.again:
            self.dismiss(result=True)

    def action_leave(self) -> None:
        """Go back without sending."""
        self.dismiss(result=False)
