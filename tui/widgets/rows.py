"""A list of lines to choose from: digits, arrows, Enter or the mouse."""

from collections.abc import Sequence
from typing import ClassVar, Final, TypeVar

from textual import on
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import VerticalScroll

from tui.messages import Picked
from tui.widgets.row import Line, Row

#: As many lines as there are digits to choose them with.
PAGE: Final = 9


class Rows(VerticalScroll):
    """Some lines, one of them marked. Tells which was chosen, and for which question."""

    can_focus = False
    DEFAULT_CSS = """
    Rows { height: auto; min-width: 10; scrollbar-size-vertical: 1; }
    Rows.-roomy Row { padding: 1 1; margin: 0 0 1 0; }
    Rows.-airy Row { padding: 1 1; }
    """
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("up", "app.focus_previous", show=False),
        Binding("down", "app.focus_next", show=False),
    ]

    def __init__(self, lines: Sequence[Line], turn: int = 0, *, air: str = "") -> None:
        super().__init__(classes=air)
        self.lines = tuple(lines)
        self.turn = turn

    def compose(self) -> ComposeResult:
        """One row a line."""
        yield from (Row(line) for line in self.lines)

    async def show(self, lines: Sequence[Line]) -> None:
        """Show other lines in the same place."""
        self.lines = tuple(lines)
        await self.recompose()

    @property
    def air(self) -> str:
        """The class that says how much air the lines have."""
        return " ".join(self.classes)

    def mark(self, number: int = 0) -> None:
        """Put the focus on a line, counted from 0, or on the next that can be chosen."""
        rows = [row for row in self.query(Row) if row.can_focus]
        if rows:
            self.screen.set_focus(rows[min(number, len(rows) - 1)])

    def press(self, cap: str) -> None:
        """Choose the line that stands under this key, if there is one and it can be chosen."""
        for number, line in enumerate(self.lines):
            if line.cap == cap and line.open:
                self.post_message(Picked(self.turn, number))

    @on(Row.Chosen)
    def _chosen(self, event: Row.Chosen) -> None:
        event.stop()
        self.post_message(Picked(self.turn, [*self.query(Row)].index(event.row)))


Item = TypeVar("Item")


def part(items: Sequence[Item], page: int) -> Sequence[Item]:
    """The nine items of one page, counted from 0.

    >>> part("abcdefghijkl", 1)
    'jkl'
    """
    return items[page * PAGE : (page + 1) * PAGE]


def numbered(texts: Sequence[str]) -> list[Line]:
    """Lines with the digits 1 to 9; a tenth has none and is reached with the arrows.

    >>> [line.cap for line in numbered(["yes", "no"])]
    ['1', '2']
    """
    return [Line(str(n) if n <= PAGE else " ", text) for n, text in enumerate(texts, 1)]
