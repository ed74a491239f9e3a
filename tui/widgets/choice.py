"""One of a few words: Enter, the arrows or the mouse go to the next, a digit to the one it counts."""

from collections.abc import Sequence
from typing import ClassVar

from textual.binding import Binding, BindingType
from textual.content import Content
from textual.events import Click
from textual.widget import Widget

from tui.messages import Typed
from tui.widgets.words import words


class Choice(Widget, can_focus=True):
    """Shows the word that is chosen between two marks."""

    ALLOW_SELECT = False
    DEFAULT_CSS = """
    Choice { width: 1fr; min-width: 10; height: 1; padding: 0 1; background: $panel; color: $foreground; }
    Choice:hover { background: $surface; }
    Choice:focus { background: $block-cursor-background; color: $block-cursor-foreground; text-style: bold; }
    Choice:nocolor:focus { text-style: bold reverse; }
    """
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("enter,right", "turn(1)", show=False),
        Binding("left", "turn(-1)", show=False),
        Binding("up", "app.focus_previous", show=False),
        Binding("down", "app.focus_next", show=False),
    ]

    def __init__(self, name: str, choices: Sequence[str], value: str) -> None:
        super().__init__(name=name)
        self.choices = tuple(choices)
        self.value = value

    def render(self) -> Content:
        """The word, cut where its place ends."""
        return words(f"‹ {self.value or 'choose'} ›").truncate(max(4, self.size.width), ellipsis=True)

    def choose(self, number: int) -> None:
        """Take the word with this number, counted from 1, if there is one."""
        if 1 <= number <= len(self.choices):
            self._take(self.choices[number - 1])

    def on_click(self, event: Click) -> None:
        """The next word."""
        event.stop()
        self.focus()
        self.action_turn(1)

    def action_turn(self, by: int) -> None:
        """The next word, or the one before."""
        at = self.choices.index(self.value) if self.value in self.choices else -1 if by > 0 else 0
        self._take(self.choices[(at + by) % len(self.choices)])

    def _take(self, value: str) -> None:
        self.value = value
        self.refresh()
        self.post_message(Typed(self.name or "", value))
