"""Who is suspected, how likely, what moved it, and the advice: asked for, read, and left again."""

from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import BindingType

from engine.interview.suspicion import Suspicion
from tui.keys import bindings
from tui.screens.page import ReadingPage
from tui.widgets.column import Body
from tui.widgets.keyline import Keyline
from tui.widgets.words import Words


class SuspectsScreen(ReadingPage):
    """Changes nothing; the advice stands below the suspects and says of itself that it is advice."""

    BINDINGS: ClassVar[list[BindingType]] = [*bindings("who")]

    def __init__(self, suspicion: Suspicion, advice: tuple[str, ...]) -> None:
        super().__init__()
        self.suspicion = suspicion
        self.advice = advice

    def parts(self) -> ComposeResult:
        """The suspects, then the advice."""
        with Body():
            yield Words("Suspects, the likeliest first", classes="title")
            for line in self.suspicion.told:
                yield Words("· ", line)
            yield Words("Advice", classes="title")
            for line in self.advice:
                yield Words("· ", line)
        yield Keyline("leave", "scroll")

    def action_who(self) -> None:
        """The key that opened it closes it."""
        self.dismiss(None)
