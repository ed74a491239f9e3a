"""A chart with places: boxes for cards, tags for the words on ways, wires for the ways themselves."""

from typing import NamedTuple

from engine.report.drawing.chart import Card, Chart, Kind, Way


class Point(NamedTuple):
    """A place in the picture, in its units; down is more."""

    x: float
    y: float


class Line(NamedTuple):
    """A line of text: where its foot stands below the upper edge of what holds it, and how it is set."""

    text: str
    y: float
    #: title, about, heading, name, text, note, caution, error, warning or aside.
    style: str
    #: The first of a paragraph; only there a caution or a finding has its sign.
    first: bool = True


class Box(NamedTuple):
    """A card in its place, by its left upper corner."""

    card: Card
    x: float
    y: float
    width: float
    height: float
    lines: tuple[Line, ...]
    #: The ways that have no wire: the card's last lines tell them.
    told: tuple[Way, ...]


class Tag(NamedTuple):
    """The words on a way, hung into its wire."""

    way: Way
    x: float
    y: float
    width: float
    height: float
    lines: tuple[str, ...]


class Wire(NamedTuple):
    """A way, or the part of it before or behind its tag."""

    way: Way
    points: tuple[Point, ...]
    #: Whether it ends at a card, and so in an arrow.
    arrives: bool


class Key(NamedTuple):
    """One entry of the legend: a shape, and what it stands for."""

    kind: Kind
    grade: str
    words: str
    x: float
    y: float


class Picture(NamedTuple):
    """All that is drawn, in pixels, right of and below (0, 0)."""

    chart: Chart
    width: float
    height: float
    head: tuple[Line, ...]
    legend: tuple[Key, ...]
    boxes: tuple[Box, ...]
    tags: tuple[Tag, ...]
    wires: tuple[Wire, ...]
