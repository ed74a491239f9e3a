"""A text and the lines to choose from below it, sharing the height of the screen."""

from collections.abc import Mapping
from typing import Final

from textual.containers import Vertical, VerticalScroll
from textual.widget import Widget

from tui.widgets.rows import Rows

#: Lines that each row takes more, and the class that gives them to it: the largest target that fits.
_AIR: Final[Mapping[int, str]] = {3: "-roomy", 2: "-airy", 0: "-close"}


class Body(VerticalScroll):
    """The text; the arrows belong to the lines below it, so it takes no focus."""

    can_focus = False
    DEFAULT_CSS = "Body { height: auto; scrollbar-size-vertical: 1; padding: 1 0 0 0; }"

    @property
    def tall(self) -> int:
        """Lines that the whole text takes."""
        return sum(_height(child) for child in self.children) + 1


class Column(Vertical):
    """Neither part pushes the other off the screen: the text scrolls, the lines stay in reach."""

    DEFAULT_CSS = """
    Column { height: 1fr; width: 1fr; min-width: 20; }
    Column Rows { max-height: 60%; overflow-y: hidden; }
    Column.-tight Body { height: 1fr; min-height: 2; padding: 0; }
    Column.-tight Rows { dock: bottom; overflow-y: auto; }
    """

    def share(self) -> None:
        """Give the lines air where there is room, and let the text scroll where there is none."""
        room = self.size.height - sum(self._other(child) for child in self.children)
        most = max(1, self.size.height * 6 // 10)
        for rows in self.query_children(Rows):
            tall = _aired(rows, min(room, most))
            # lines that have to scroll need the text to scroll too, lest it leaves them no room
            room -= tall if tall <= most else self.size.height + 1
        self.set_class(room < 0, "-tight")

    def _other(self, child: Widget) -> int:
        match child:
            case Rows():
                return 0
            case Body():
                return child.tall
            case _:
                return _height(child)


class Listing(Vertical):
    """Nothing but lines, on all the height there is."""

    DEFAULT_CSS = """
    Listing { height: 1fr; }
    Listing Rows { height: 1fr; }
    """

    def share(self) -> None:
        """Give the lines air where there is room."""
        for rows in self.query_children(Rows):
            _aired(rows, self.size.height)


def _aired(rows: Rows, room: int) -> int:
    """Give the lines as much air as fits; how many lines of the screen they take then."""
    bare = sum(row.content_size.height for row in rows.children)
    if rows.children and not bare:
        return 0  # not laid out yet
    air = next((air for air in _AIR if bare + air * len(rows.children) <= room), 0)
    rows.set_classes(_AIR[air])
    return bare + air * len(rows.children)


def _height(widget: Widget) -> int:
    return widget.outer_size.height + widget.styles.margin.height if widget.display else 0
