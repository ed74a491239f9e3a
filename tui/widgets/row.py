"""One line to choose: its key, its text with a hanging indent, and what may be said below it."""

from dataclasses import dataclass
from typing import ClassVar

from textual.binding import BindingType
from textual.content import Content
from textual.events import Click
from textual.geometry import Size
from textual.message import Message
from textual.widget import Widget

from tui.keys import bindings
from tui.widgets.words import words


@dataclass(frozen=True, slots=True)
class Line:
    """What one line says: the key that chooses it, the text, and a smaller text below."""

    cap: str
    text: str
    below: str = ""
    #: A line that cannot be chosen still stands there, with the reason below it.
    open: bool = True
    #: Whether Enter chooses it; a caution wants its own key or a click.
    enter: bool = True


class Row(Widget):
    """A line that can be focused, clicked and chosen with Enter."""

    ALLOW_SELECT = False
    DEFAULT_CSS = """
    Row {
        width: 1fr; min-width: 8; height: auto; padding: 0 1; color: $foreground; background: $surface;
        & .row--cap { color: $accent; text-style: bold; }
        & .row--below { color: $text-muted; }
        &:hover { background: $panel; }
        &:focus { background: $block-cursor-background; color: $block-cursor-foreground; text-style: bold; }
        &:focus .row--cap, &:focus .row--below { color: $block-cursor-foreground; }
        &.-keyed { border-left: thick $warning; text-style: bold; }
        &.-closed { background: $background; color: $text-muted; }
        &:nocolor:focus { text-style: bold reverse; }
    }
    """
    COMPONENT_CLASSES: ClassVar[set[str]] = {"row--cap", "row--below"}
    BINDINGS: ClassVar[list[BindingType]] = [*bindings("pick")]

    @dataclass
    class Chosen(Message):
        """A row was chosen."""

        row: "Row"

    def __init__(self, line: Line) -> None:
        super().__init__()
        self.set_class(not line.open, "-closed")
        self.set_class(not line.enter, "-keyed")
        self.line = line
        self.can_focus = line.open and line.enter

    def render(self) -> Content:
        """The lines as they fit the width."""
        return Content("\n").join(self._lines(max(8, self.size.width)))

    def get_content_height(self, container: Size, viewport: Size, width: int) -> int:  # noqa: ARG002  reason: the toolkit's signature
        """As many lines as the text takes at this width."""
        return len(self._lines(max(8, width)))

    def _lines(self, width: int) -> list[Content]:
        cap, below = (self.get_visual_style(f"row--{name}", partial=True) for name in ("cap", "below"))
        mark = "› " if self.has_focus else "  "
        head = words(mark, self.line.cap, "  " if self.line.cap else "").stylize(cap)
        indent = head.cell_length
        room = max(4, width - indent)
        texts = words(self.line.text).wrap(room)
        if self.line.below:
            texts += words(self.line.below).stylize(below).wrap(room)
        blank = Content(" " * indent)
        return [(blank if number else head) + text for number, text in enumerate(texts)]

    def on_click(self, event: Click) -> None:
        """Choose what was clicked."""
        event.stop()
        self.action_pick()

    def action_pick(self) -> None:
        """Choose this row."""
        if self.line.open:
            self.post_message(self.Chosen(self))
