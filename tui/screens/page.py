"""What every screen has: a body, lines to choose from, and the keys of the moment at its foot."""

from abc import abstractmethod
from typing import ClassVar, TypeVar

from textual.app import ComposeResult
from textual.binding import BindingType
from textual.screen import Screen

from tui.keys import bindings
from tui.widgets.column import Body, Column, Listing
from tui.widgets.room import LOW, SLIM, WIDE
from tui.widgets.rows import Rows

Result = TypeVar("Result")


class Page(Screen[Result]):
    """A screen of the app; lays itself out for the room there is, and never scrolls as a whole."""

    AUTO_FOCUS = ""
    HORIZONTAL_BREAKPOINTS = [(0, "-slim"), (SLIM, "-narrow"), (WIDE, "-wide")]  # noqa: RUF012  reason: the toolkit's own type
    VERTICAL_BREAKPOINTS = [(0, "-low"), (LOW, "-high")]  # noqa: RUF012  reason: the toolkit's own type
    DEFAULT_CSS = "Page { overflow: hidden; }"
    BINDINGS: ClassVar[list[BindingType]] = [*bindings("answer", "scroll")]

    def compose(self) -> ComposeResult:
        """The parts, laid out for the room there is from the first moment."""
        width, height = self.app.size
        for room, breakpoints in ((width, self.HORIZONTAL_BREAKPOINTS), (height, self.VERTICAL_BREAKPOINTS)):
            fitting = max(least for least, _ in breakpoints if least <= room)
            for least, name in breakpoints:
                self.set_class(least == fitting, name)
        yield from self.parts()

    @abstractmethod
    def parts(self) -> ComposeResult:
        """Everything on the screen."""

    def on_mount(self) -> None:
        """Share the height again after every change of the layout."""
        self.screen_layout_refresh_signal.subscribe(self, self._laid_out, immediate=True)

    def _laid_out(self, _: Screen[object]) -> None:
        for column in (*self.query(Column), *self.query(Listing)):
            column.share()
        self.laid_out()

    def laid_out(self) -> None:
        """The layout changed; screens may say other keys."""

    def missed(self, key: str) -> None:
        """A key did not count that was typed; a screen with fields says so."""

    @property
    def face(self) -> object:
        """What is shown now; a key that brought it does not answer it while it is held."""
        return id(self)

    def mark(self) -> None:
        """Mark the first line, where lines stand on the screen (they do not while the program ends)."""
        for rows in self.query(Rows):
            rows.mark()

    def action_answer(self, number: int) -> None:
        """Choose the line with a digit."""
        for rows in self.query(Rows):
            rows.press(str(number))

    async def action_scroll_on(self, pages: int) -> None:
        """Read on, or back, in a text that is longer than the screen."""
        for body in self.query(Body):
            body.scroll_relative(y=pages * max(1, body.size.height - 1), animate=False)


class ReadingPage(Page[None]):
    """A page that is read and left again: texts below titles, in a body that scrolls."""

    DEFAULT_CSS = """
    ReadingPage Body { height: 1fr; }
    ReadingPage Words { padding: 0 1; }
    ReadingPage .title { text-style: bold; color: $accent; margin: 1 0 0 0; }
    """
    BINDINGS: ClassVar[list[BindingType]] = [*bindings("leave")]

    def action_leave(self) -> None:
        """Back to where it was asked for."""
        self.dismiss(None)
