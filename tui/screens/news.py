"""The case went on in another window: said before a question that has changed can be answered."""

from collections.abc import Sequence
from typing import ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import BindingType

from engine.interview.question import TrailLine
from tui.keys import bindings
from tui.messages import Picked
from tui.screens.page import Page
from tui.widgets.column import Body, Column
from tui.widgets.keyline import Keyline
from tui.widgets.row import Line
from tui.widgets.rows import Rows
from tui.widgets.words import Words


class NewsScreen(Page[None]):
    """Lists what was added. Wants the same key as a caution: it must have been read."""

    DEFAULT_CSS = """
    NewsScreen Words { margin: 0 0 1 0; padding: 0 1; }
    NewsScreen #word { background: $warning; color: $background; text-style: bold; }
    NewsScreen #word:nocolor { text-style: bold reverse; }
    """
    BINDINGS: ClassVar[list[BindingType]] = [*bindings("understood")]

    def __init__(self, added: Sequence[TrailLine], *, lost: bool) -> None:
        super().__init__()
        self.added = tuple(added)
        #: An answer was on its way and was not written.
        self.lost = lost

    def parts(self) -> ComposeResult:
        """What happened, and what it means for the answer that was on its way."""
        with Column():
            with Body():
                yield Words("THIS CASE WENT ON IN ANOTHER WINDOW", id="word")
                if self.lost:
                    yield Words(
                        "Your last answer was not written: the question had changed. Nothing was lost."
                    )
                yield Words(
                    "Added there:" if self.added else "Something was noted, confirmed or taken back there."
                )
                for line in self.added:
                    yield Words(f"{line.question}\n", (f"→ {line.answer}", "bold"))
            yield Rows([Line("u", "Understood: show where it stands now", enter=False)])
        yield Keyline("understood", "scroll")

    @on(Picked)
    def _picked(self, event: Picked) -> None:
        event.stop()
        self.action_understood()

    def action_understood(self) -> None:
        """Go on with the case as it stands now."""
        self.dismiss(None)
