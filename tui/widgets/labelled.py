"""A text with its label beside it, or above it where the screen is narrow."""

from textual.app import ComposeResult
from textual.containers import Horizontal

from tui.widgets.words import Words


class Labelled(Horizontal):
    """The label keeps its own column, so that the eye finds each kind of text at the same place."""

    DEFAULT_CSS = """
    Labelled { height: auto; padding: 0 1; margin: 0 0 1 0; }
    Labelled .label { width: 13; color: $text-muted; }
    Labelled .text { width: 1fr; min-width: 8; }
    Labelled.-main .text { text-style: bold; }
    """

    def __init__(self, label: str, text: str, *, main: bool = False, id: str | None = None) -> None:  # noqa: A002  reason: the toolkit's own name
        super().__init__(id=id, classes="-main" if main else "")
        self.label = label
        self.said = text

    def compose(self) -> ComposeResult:
        """Label, text."""
        yield Words(self.label, classes="label")
        yield Words(self.said, classes="text")

    def say(self, text: str) -> None:
        """Show another text; nothing hides the label too."""
        self.query_one(".text", Words).say(text)
        self.display = bool(text)
