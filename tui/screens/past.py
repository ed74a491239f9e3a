"""The trail as a screen of its own: everything answered, and the way back to any step of it."""

from typing import ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import BindingType

from engine.interview.question import TrailLine, Where
from tui.keys import bindings
from tui.messages import Picked
from tui.screens.page import Page
from tui.widgets.column import Listing
from tui.widgets.heading import suspects_words
from tui.widgets.keyline import Keyline
from tui.widgets.row import Line
from tui.widgets.rows import PAGE, Rows
from tui.widgets.words import Words


class PastScreen(Page[int]):
    """The trail, newest first. Gives back the number of the entry to step back to, or nothing."""

    DEFAULT_CSS = """
    PastScreen > Words { padding: 0 1; }
    PastScreen #title { background: $panel; text-style: bold; }
    PastScreen #suspects { max-height: 4; margin: 0 0 1 0; }
    """
    BINDINGS: ClassVar[list[BindingType]] = [*bindings("leave")]

    def __init__(self, where: Where) -> None:
        super().__init__()
        self.where = where

    def parts(self) -> ComposeResult:
        """What remains suspected, then the trail."""
        trail = self.where.trail
        yield Words(
            "Trail, newest first: choose the step to go back to" if trail else "Trail: nothing answered yet",
            id="title",
        )
        yield Words(suspects_words(self.where.suspicion), id="suspects")
        with Listing():
            yield Rows([_line(number, line) for number, line in enumerate(reversed(trail), 1)])
        yield Keyline("leave", *(("answer", "pick", "move") if trail else ()), answers=len(trail))

    def on_mount(self) -> None:
        """The newest line is marked: Enter steps back once."""
        self.mark()

    @on(Picked)
    def _picked(self, event: Picked) -> None:
        event.stop()
        self.dismiss(self.where.trail[-1 - event.line].sequence)

    def action_leave(self) -> None:
        """Stay where the walk stands."""
        self.dismiss(None)


def _line(number: int, line: TrailLine) -> Line:
    cap = str(number) if number <= PAGE else " "
    return Line(cap, line.question, "\n".join((f"→ {line.answer}", *line.remarks)))
