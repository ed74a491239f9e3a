"""What was answered so far, and which suspects remain: beside the step where there is room for it."""

from textual.app import ComposeResult
from textual.containers import Vertical, VerticalScroll

from engine.interview.question import TrailLine, Where
from tui.widgets.heading import suspects_title
from tui.widgets.words import Words


class Past(VerticalScroll):
    """The trail itself, oldest first, kept in view at its newest line."""

    can_focus = False

    def on_mount(self) -> None:
        """The newest line matters most."""
        self.scroll_end(animate=False, immediate=False)


class Trail(Vertical):
    """Suspects first, they are what the trail is for; then the trail."""

    DEFAULT_CSS = """
    Trail { width: 40; padding: 0 1; border-left: vkey $foreground 40%; background: $background; }
    Trail Words { margin: 0 0 1 0; }
    Trail .title { text-style: bold; color: $accent; margin: 0; }
    Trail #suspected { max-height: 40%; }
    Trail Past { height: 1fr; scrollbar-size-vertical: 1; }
    Trail:nocolor { border-left: solid $foreground; }
    """

    def __init__(self, where: Where) -> None:
        super().__init__()
        self.where = where

    def compose(self) -> ComposeResult:
        """Titles and texts."""
        where = self.where
        yield Words(suspects_title(where.suspects), classes="title")
        yield Words("\n".join(f"· {suspect}" for suspect in where.suspects), id="suspected")
        yield Words("Trail", classes="title")
        with Past():
            if not where.trail:
                yield Words("Nothing answered yet.")
            for line in where.trail:
                yield Words(line.question + "\n", ("→ " + line.answer, "bold"), remarks_words(line))


def remarks_words(line: TrailLine) -> str:
    """Cautions acknowledged and notes of one step, each on its line."""
    return "".join(f"\n  {remark}" for remark in line.remarks)
