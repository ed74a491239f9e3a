"""A curve drawn with characters: axes with units and ticks, one line or more, and where the input stands."""

from collections.abc import Iterator, Sequence
from typing import ClassVar

from textual.content import Content
from textual.widget import Widget

from engine.trade.curve import Curve
from tui.widgets.dots import ACROSS, DOWN, Dots, short, ticks
from tui.widgets.words import words

_LETTERS = "abcdefghijklmnopqrstuvwxyz"
#: Columns and lines that a picture needs at least.
_LEAST = (16, 4)


class Graph(Widget):
    """Fills the room that it is given. Lines are told apart by letters, not by colours alone."""

    DEFAULT_CSS = """
    Graph {
        width: 1fr; height: 1fr; padding: 0 1;
        & .graph--line { color: $accent; }
        & .graph--now { color: $success; text-style: bold; }
        & .graph--axis { color: $text-muted; }
        &:nocolor .graph--now { text-style: bold; }
    }
    """
    COMPONENT_CLASSES: ClassVar[set[str]] = {"graph--line", "graph--now", "graph--axis"}

    def __init__(self, curve: Curve | None = None, *, id: str | None = None) -> None:  # noqa: A002  reason: the toolkit's own name
        super().__init__(id=id)
        self.curve = curve

    def show(self, curve: Curve | None) -> None:
        """Draw another curve, or say that there is none yet."""
        self.curve = curve
        self.refresh()

    def render(self) -> Content:
        """The picture as it fits the room."""
        if self.curve is None or not any(_known(self.curve)):
            return words("The curve stands here once the other inputs are given.")
        return Content("\n").join(self._lines(self.curve, self.size.width, self.size.height))

    def _lines(self, curve: Curve, width: int, height: int) -> list[Content]:
        head, foot = [words((up_words(curve), "bold"))], self._legend(curve, width)
        rows = height - len(head) - len(foot) - 2
        if width < _LEAST[0] or rows < _LEAST[1]:
            foot = [*foot[:1], *self._close(curve, width)]
            rows = max(_LEAST[1], height - len(head) - len(foot) - 2)
        return [*head, *self._picture(curve, width, rows), *foot][: max(1, height)]

    def _legend(self, curve: Curve, width: int) -> list[Content]:
        """Where the input stands and what that comes to; one line, or one for each curve."""
        along = words(along_words(curve)).truncate(width, ellipsis=True)
        look = self.get_visual_style("graph--now", partial=True)
        several = len(curve.lines) > 1
        told = [now_words(curve, number) for number in range(len(curve.lines))]
        return [
            along,
            *(words(text).truncate(width, ellipsis=True).stylize(look) for text in told if text or several),
        ]

    def _close(self, curve: Curve, width: int) -> list[Content]:
        """What each curve comes to, one behind the other, on two lines at most."""
        told = "   ".join(now_words(curve, number) for number in range(len(curve.lines)))
        return words(told).stylize(self.get_visual_style("graph--now", partial=True)).wrap(max(8, width))[:2]

    def _picture(self, curve: Curve, width: int, rows: int) -> list[Content]:
        low, high = _span(curve)
        marks = ticks(low, high, rows // 5 + 2)
        margin = max(len(short(mark)) for mark in marks)
        across = max(4, width - margin - 2)
        field, letters = _drawn(curve, across, rows, (low, high))
        at = {_row(mark, rows, low, high): short(mark) for mark in marks}
        axis, line, now = (
            self.get_visual_style(f"graph--{name}", partial=True) for name in ("axis", "line", "now")
        )
        out: list[Content] = []
        for number, row in enumerate(field):
            label = at.get(number, "").rjust(margin) + (" ┤" if number in at else " │")
            out.append(words(label).stylize(axis) + _styled(row, letters.get(number, {}), line, now))
        return [*out, *(words(text).stylize(axis) for text in _along(curve, margin, across))]


def _styled(row: str, signs: dict[int, str], line: object, now: object) -> Content:
    parts: list[Content] = []
    for column, sign in enumerate(row):
        text = words(signs.get(column, sign))
        parts.append(text.stylize(now if column in signs else line))  # type: ignore[arg-type]  # reason: both are the toolkit's styles
    return Content("").join(parts)


def _known(curve: Curve) -> Iterator[bool]:
    return (height is not None for line in curve.lines for height in line.heights)


def _span(curve: Curve) -> tuple[float, float]:
    """From where to where the heights go; from nothing, where they come near it."""
    heights = [one for line in curve.lines for one in (*line.heights, line.now) if one is not None]
    low, high = min(heights), max(heights)
    if 0 < low < high / 2:
        low = 0.0
    return (low, high) if high > low else (low - 1, high + 1)


def _row(height: float, rows: int, low: float, high: float) -> int:
    """The line of the picture, counted from its top, in which a height lies."""
    return _dot(height, rows, low, high) // DOWN


def _dot(height: float, rows: int, low: float, high: float) -> int:
    return round((high - height) / (high - low) * (rows * DOWN - 1))


def _across(curve: Curve, place: float, across: int) -> int:
    """The dot, counted from the left, at which a place lies."""
    first, last = curve.places[0], curve.places[-1]
    return round((place - first) / (last - first) * (across * ACROSS - 1))


def _drawn(
    curve: Curve, across: int, rows: int, span: tuple[float, float]
) -> tuple[Sequence[str], dict[int, dict[int, str]]]:
    """The lines of the picture, and the signs that stand on them by line and column."""
    field = Dots(across, rows)
    signs: dict[int, dict[int, str]] = {}
    for number, line in enumerate(curve.lines):
        before: tuple[int, int] | None = None
        for place, height in zip(curve.places, line.heights, strict=True):
            if height is None:
                before = None
                continue
            here = _across(curve, place, across), _dot(height, rows, *span)
            field.line(*(before or here), *here)
            before = here
        if before and len(curve.lines) > 1:
            signs.setdefault(before[1] // DOWN, {})[before[0] // ACROSS] = _LETTERS[number % 26]
    if curve.now is not None:
        column = _across(curve, curve.now, across) // ACROSS
        for line in curve.lines:
            if line.now is not None:
                signs.setdefault(_row(line.now, rows, *span), {})[column] = "●"
        for row, text in enumerate(field.rows()):
            if text[column] == " ":
                signs.setdefault(row, {}).setdefault(column, "┊")
    return field.rows(), signs


def _along(curve: Curve, margin: int, across: int) -> tuple[str, str]:
    """The lower axis with its ticks, and the numbers below it."""
    rule, labels = ["─"] * across, [" "] * (across + margin + 2)
    for mark in ticks(curve.places[0], curve.places[-1], max(2, across // 9)):
        column = min(across - 1, _across(curve, mark, across) // ACROSS)
        rule[column] = "┬"
        text = short(mark)
        start = min(margin + 2 + column - len(text) // 2, len(labels) - len(text))
        labels[start : start + len(text)] = text
    return " " * margin + " └" + "".join(rule), "".join(labels).rstrip()


def up_words(curve: Curve) -> str:
    """What is drawn upwards, with its unit."""
    return f"↑ {curve.up}" + (f" ({curve.up_unit})" if curve.up_unit else "")


def along_words(curve: Curve) -> str:
    """What is drawn along, with its unit and where it stands."""
    unit = f" ({curve.along_unit})" if curve.along_unit else ""
    stands = "" if curve.now is None else f"   ● now {_told(curve.now, curve.along_unit)}"
    return f"→ {curve.along}{unit}{stands}"


def now_words(curve: Curve, number: int) -> str:
    """What a curve comes to where the input stands, behind its letter where there are several."""
    line = curve.lines[number]
    letter = f"{_LETTERS[number % 26]}  {line.name}" if len(curve.lines) > 1 else "●"
    if line.now is None:
        return letter if len(curve.lines) > 1 else ""
    return f"{letter}{':' if line.name else ''} {_told(line.now, curve.up_unit)}"


def _told(number: float, unit: str) -> str:
    return f"{number:.4g} {unit}".rstrip() if abs(number) < 1e4 else f"{number:.0f} {unit}".rstrip()
