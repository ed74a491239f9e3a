"""What was answered so far, and which suspects remain: beside the step where there is room for it."""

from textual.app import ComposeResult
from textual.containers import Vertical, VerticalScroll

from engine.interview.question import TrailLine, Where
from tui.widgets.heading import suspects_title
from tui.widgets.words import Part, Words


class Past(VerticalScroll):
    """The trail itself, oldest first, kept in view at its newest line."""

    can_focus = False

    def on_mount(self) -> None:
        """The newest line matters most."""
        self.scroll_end(animate=False, immediate=False)


class Trail(Vertical):
    """Suspects first, they are what the trail is for; then the trail."""

    DEFAULT_CSS = """
    Trail { width: 40; padding: 1 1 0 1; border-left: vkey $foreground 40%; background: $background; }
    Trail #suspected { max-height: 40%; margin: 0 0 1 0; }
    Trail Past { height: 1fr; scrollbar-size-vertical: 1; }
    Trail:nocolor { border-left: solid $foreground; }
    """

    def __init__(self, where: Where) -> None:
        super().__init__()
        self.where = where

    def compose(self) -> ComposeResult:
        """Each of the two is one text, however long."""
        where = self.where
        suspects = "".join(f"\n· {one.title}: {one.told}" for one in where.suspicion.ahead)
        suspects += f"\n{where.suspicion.moved}" if where.suspicion.contradicted else ""
        yield Words((suspects_title(where.suspects), "bold"), suspects, id="suspected")
        yield Words(("Trail", "bold"))
        with Past():
            past = [part for line in where.trail for part in _parts(line)]
            yield Words(*(past or ["Nothing answered yet."]))


def _parts(line: TrailLine) -> tuple[str | Part, ...]:
    return (line.question + "\n", ("→ " + line.answer, "bold"), remarks_words(line), "\n\n")


def remarks_words(line: TrailLine) -> str:
    """Cautions acknowledged and notes of one step, each on its line."""
    return "".join(f"\n  {remark}" for remark in line.remarks)
