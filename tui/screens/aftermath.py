"""After the repair: whether the complaint is gone, then what the true cause was. Two keys, and it is kept."""

from collections.abc import Sequence
from typing import ClassVar, Final

from textual import on
from textual.app import ComposeResult
from textual.binding import BindingType

from engine.interview.command import Settle
from engine.interview.question import VerdictPrompt
from tui.keys import bindings
from tui.messages import Picked
from tui.screens.page import Page
from tui.widgets.column import Body, Column
from tui.widgets.keyline import Keyline
from tui.widgets.rows import Rows, numbered
from tui.widgets.words import Words

_GONE: Final = ("Yes, it is gone", "No, it is still there, or it is back")
_UNKNOWN: Final = ("", "Nobody knows yet")


class AftermathScreen(Page[Settle]):
    """Gives back what was said of the repair; nothing where it was left."""

    DEFAULT_CSS = """
    AftermathScreen Words { padding: 0 1; margin: 0 0 1 0; }
    AftermathScreen #title { text-style: bold; }
    """
    BINDINGS: ClassVar[list[BindingType]] = [*bindings("leave")]

    def __init__(self, reached: VerdictPrompt) -> None:
        super().__init__()
        self.reached = reached
        self.fixed: bool | None = None

    @property
    def face(self) -> object:
        """The second question is another face: a key that is held does not answer both."""
        return id(self), self.fixed

    @property
    def causes(self) -> Sequence[tuple[str, str]]:
        """What can be the cause. Where the repair of one suspect helped, somebody knows."""
        alone = self.fixed and len(self.reached.convicts) == 1
        return self.reached.causes if alone else (*self.reached.causes, _UNKNOWN)

    def parts(self) -> ComposeResult:
        """The question, and its answers."""
        first = self.fixed is None
        texts = _GONE if first else [title for _, title in self.causes]
        with Column():
            with Body():
                title = "Is the complaint gone?" if first else "What was the true cause?"
                yield Words(title, id="title")
                yield Words(self.reached.where.title if first else f"Verdict: {self.reached.verdict}")
            yield Rows(numbered(texts), turn=int(not first))
        yield Keyline("answer", "move", "pick", "leave", answers=len(texts))

    def on_mount(self) -> None:
        """The first answer is marked."""
        self.mark()

    @on(Picked)
    async def _picked(self, event: Picked) -> None:
        event.stop()
        if event.turn != int(self.fixed is not None):
            return
        if self.fixed is None:
            self.fixed = event.line == 0
            await self.recompose()
            self.mark()
        else:
            self.dismiss(Settle(self.fixed, self.causes[event.line][0]))

    def action_leave(self) -> None:
        """Say nothing."""
        self.dismiss(None)
