"""Places for everything of a chart.

The layered layout (ranks from top to bottom, few crossings, wires around boxes; Sugiyama, Tagawa and Toda,
1981) is graphlay's. Words on ways are boxes of their own in it, so that neither they nor cards ever meet.
"""

from collections.abc import Mapping, Sequence
from typing import Any, Final, NamedTuple, TypeVar

from engine.report.drawing.chart import Chart, Way
from engine.report.drawing.legend import legend
from engine.report.drawing.lines import CARD, SIZES, TAG, TAG_PAD, of_card, of_head, of_tag
from engine.report.drawing.picture import Box, Picture, Point, Tag, Wire
from engine.report.drawing.wired import wired
from engine.report.drawing.wrap import width

_Placed = TypeVar("_Placed", Box, Tag)
MARGIN: Final = 40.0
#: The head needs this much room, however small the tree is.
_LEAST: Final = 720.0
#: From how many boxes on a layout takes less trouble: it is to be there in seconds.
_LARGE: Final = 500
_OPTIONS: Final = {
    "direction": "topbottom",
    "spacing": {"layer_gap": 34.0, "node_gap": 26.0, "dummy_gap": 20.0, "stub": 14.0, "port_gap": 16.0},
}


class _Plan(NamedTuple):
    """What is to be placed: boxes and tags without places, and the wires between them by number."""

    boxes: list[Box]
    tags: list[Tag]
    #: (from, to, way, whether it ends at a card); cards come before tags.
    links: list[tuple[int, int, Way, bool]]


def picture(chart: Chart) -> Picture:
    """The chart with places; the same for the same chart."""
    plan = _plan(chart)
    made = _laid(plan)
    low, high = made["bounds"]["min"], made["bounds"]["max"]
    wide = max(high["x"] - low["x"], _LEAST)
    head, foot = of_head(chart, min(wide, 900.0))
    keys, end = legend(chart, wide, foot + 22.0)
    shift = Point(MARGIN - low["x"] + (wide - (high["x"] - low["x"])) / 2, MARGIN + end + 34.0 - low["y"])
    return Picture(
        chart,
        _round(wide + 2 * MARGIN),
        _round(high["y"] + shift.y + MARGIN),
        tuple(line._replace(y=line.y + MARGIN) for line in head),
        tuple(key._replace(x=key.x + MARGIN, y=key.y + MARGIN) for key in keys),
        tuple(_at(box, node, shift) for box, node in zip(plan.boxes, made["nodes"], strict=False)),
        tuple(
            _at(tag, node, shift)
            for tag, node in zip(plan.tags, made["nodes"][len(plan.boxes) :], strict=True)
        ),
        tuple(_wire(link, edge, shift) for link, edge in zip(plan.links, made["edges"], strict=True)),
    )


def _plan(chart: Chart) -> _Plan:
    cards = {card.name: card for card in chart.cards}
    numbers = {name: number for number, name in enumerate(cards)}
    drawn = wired(chart)
    told: dict[str, list[Way]] = {name: [] for name in cards}
    tags: list[Tag] = []
    links: list[tuple[int, int, Way, bool]] = []
    for way in chart.ways:
        source, target = numbers[way.source], numbers[way.then]
        lines = of_tag(way)
        if way not in drawn:
            told[way.source].append(way)
        elif lines:
            middle = len(cards) + len(tags)
            tags.append(_tag(way, lines))
            links += [(source, middle, way, False), (middle, target, way, True)]
        else:
            links.append((source, target, way, True))
    boxes: list[Box] = []
    for name, card in cards.items():
        words, height = of_card(card, told[name], cards)
        boxes.append(Box(card, 0.0, 0.0, CARD, height, words, tuple(told[name])))
    return _Plan(boxes, tags, links)


def _tag(way: Way, lines: tuple[str, ...]) -> Tag:
    size, high = SIZES["tag"]
    wide = min(TAG, max(width(line, size * 1.05) for line in lines) + 2 * TAG_PAD)
    return Tag(way, 0.0, 0.0, max(_round(wide), 48.0), len(lines) * high + 11.0, lines)


def _laid(plan: _Plan) -> Mapping[str, Any]:
    """The answer of the layout library: a place for each box and tag, points for each link."""
    import graphlay

    graph = graphlay.Graph()
    sizes = [(box.width, box.height) for box in plan.boxes] + [(tag.width, tag.height) for tag in plan.tags]
    for number, (wide, high) in enumerate(sizes):
        graph.node(number, width=wide, height=high)
    for source, target, _, _ in plan.links:
        graph.edge(source, target)
    effort = "thorough" if len(graph.nodes) < _LARGE else "fast"
    made: Mapping[str, Any] = graphlay.layout(graph, options={**_OPTIONS, "effort": effort}).to_dict()
    return made


def _at(box: _Placed, node: Mapping[str, Any], shift: Point) -> _Placed:
    centre = node["center"]
    x = centre["x"] - box.width / 2 + shift.x
    return box._replace(x=_round(x), y=_round(centre["y"] - box.height / 2 + shift.y))


def _wire(link: tuple[int, int, Way, bool], edge: Mapping[str, Any], shift: Point) -> Wire:
    points: Sequence[Mapping[str, float]] = edge["points"]
    return Wire(
        link[2], tuple(Point(_round(p["x"] + shift.x), _round(p["y"] + shift.y)) for p in points), link[3]
    )


def _round(value: float) -> float:
    """Tenths of a pixel: nobody sees less, and the last bits of a sum may differ between machines."""
    return round(value, 1) + 0.0
