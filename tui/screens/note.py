"""A remark to write down, or the reason why a step cannot be done: a few ready lines, and a field."""

from collections.abc import Callable, Sequence
from typing import ClassVar, Final

from textual import on
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.widgets import Input

from tui.keys import bindings
from tui.messages import Picked
from tui.screens.page import Page
from tui.widgets.column import Body, Column
from tui.widgets.field import Field
from tui.widgets.keyline import Keyline
from tui.widgets.rows import Rows, numbered
from tui.widgets.words import Words

LONGEST: Final = 2000
#: Reasons that gloves can give with one key.
REASONS: Final = (
    "The tool or gauge is not at hand.",
    "The part cannot be reached.",
    "It is not safe here.",
    "It shows nothing clear.",
)


class NoteScreen(Page[str]):
    """Gives back what was written or chosen; nothing where it was left."""

    DEFAULT_CSS = """
    NoteScreen Words { padding: 0 1; margin: 0 0 1 0; }
    NoteScreen #title { text-style: bold; }
    """
    BINDINGS: ClassVar[list[BindingType]] = [*bindings("leave")]

    def __init__(
        self, title: str, about: str, text: str, keep: Callable[[str], None], ready: Sequence[str] = ()
    ) -> None:
        super().__init__()
        self.titled = title
        self.about = about
        self.text = text
        self.keep = keep
        self.ready = tuple(ready)

    def parts(self) -> ComposeResult:
        """The step it belongs to, the ready lines, the field."""
        with Column():
            with Body():
                yield Words(self.titled, id="title")
                yield Words(self.about, id="about")
            if self.ready:
                yield Words("In your own words:", id="own")
            yield Field("note", self.text, longest=LONGEST)
            yield Rows(numbered(self.ready))
        yield Keyline(*(("answer", "move") if self.ready else ()), "pick", "leave", answers=len(self.ready))

    def on_mount(self) -> None:
        """A ready line is marked where there are some and nothing was written yet."""
        if self.ready and not self.text:
            self.mark()
        else:
            self.set_focus(next(iter(self.query(Field)), None))

    @on(Input.Changed)
    def _changed(self, event: Input.Changed) -> None:
        event.stop()
        self.keep(event.value)

    @on(Input.Submitted)
    def _written(self, event: Input.Submitted) -> None:
        event.stop()
        if event.value.strip():
            self.dismiss(event.value)

    @on(Picked)
    def _picked(self, event: Picked) -> None:
        event.stop()
        self.dismiss(self.ready[event.line])

    def action_leave(self) -> None:
        """Write nothing down."""
        self.dismiss(None)
