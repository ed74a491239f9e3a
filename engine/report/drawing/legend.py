"""What the shapes of a picture stand for: only those that it has, in rows below its head."""

from collections.abc import Iterator

from engine.report.drawing.chart import GRADES, Chart, Kind
from engine.report.drawing.lines import SIZES
from engine.report.drawing.picture import Key
from engine.report.drawing.wrap import width

#: Size of a shape in the legend, and what stands between entries.
SHAPE = (38.0, 22.0)
_ROW = 34.0
_MEANT: dict[Kind, str] = {
    "do": "do something",
    "ask": "look and answer",
    "measure": "measure",
    "sort": "the sheet answers",
    "run": "run a procedure",
    "outcome": "outcome",
    "missing": "not there",
}


def legend(chart: Chart, room: float, top: float) -> tuple[tuple[Key, ...], float]:
    """The entries with their places, and where they end."""
    keys: list[Key] = []
    x, y = 0.0, top
    for kind, grade, words in _entries(chart):
        wide = SHAPE[0] + 10.0 + width(words, SIZES["about"][0]) + 18.0
        if x and x + wide > room:
            x, y = 0.0, y + _ROW
        keys.append(Key(kind, grade, words, round(x, 1), y))
        x += wide
    return tuple(keys), y + SHAPE[1]


def _entries(chart: Chart) -> Iterator[tuple[Kind, str, str]]:
    kinds = {card.kind for card in chart.cards}
    yield from ((kind, "", words) for kind, words in _MEANT.items() if kind in kinds)
    grades = {card.grade for card in chart.cards}
    yield from (("verdict", grade, f"verdict: {words}") for grade, words in GRADES.items() if grade in grades)
