"""A picture as SVG 1.1 that stands alone: no script, no font, nothing fetched from elsewhere."""

from collections.abc import Iterator

from engine.report.drawing import style
from engine.report.drawing.chart import Kind, Way
from engine.report.drawing.layout import MARGIN
from engine.report.drawing.legend import SHAPE
from engine.report.drawing.lines import PAD, SIGN
from engine.report.drawing.picture import Box, Key, Line, Picture, Tag, Wire
from engine.report.drawing.shapes import inner, number, outline
from engine.report.drawing.wires import arrow, path
from engine.report.drawing.xml import element, escaped


def svg(picture: Picture) -> str:
    """The picture as the text of an SVG file.

    Texts of trees and people are escaped: they show as they were written and mean nothing to a reader.
    """
    wide, high = number(picture.width), number(picture.height)
    # what was taken lies above what was not
    wires = sorted(picture.wires, key=lambda wire: bool(wire.way.taken))
    parts = (
        element("title", escaped(picture.chart.title)),
        element("desc", escaped("\n".join(picture.chart.about))),
        element("style", style.sheet()),
        element("rect", _class="paper", width=wide, height=high),
        *(_text(line, MARGIN, 0.0) for line in picture.head),
        *map(_key, picture.legend),
        *map(_wire, wires),
        *map(_tag, picture.tags),
        *(_box(box, first=box.card.name == picture.chart.start) for box in picture.boxes),
    )
    space = 'xmlns="http://www.w3.org/2000/svg" role="img"'
    opening = f'<svg {space} width="{wide}" height="{high}" viewBox="0 0 {wide} {high}">'
    return "\n".join((opening, *parts, "</svg>")) + "\n"


def _text(line: Line, x: float, y: float) -> str:
    """A line of text, with its sign before it where it has one."""
    signed = line.style in _SIGNS
    foot = y + line.y - 4
    sign = ""
    if signed and line.first:
        place = f"translate({number(x)},{number(foot - 11)})"
        sign = element("path", d=_SIGNS[line.style], transform=place, _class=f"sign {line.style}")
    at = x + (SIGN if signed else 0.0)
    return sign + element("text", escaped(line.text), x=number(at), y=number(foot), _class=line.style)


#: A caution is a triangle, an error a crossed square, a warning a rhomb: three shapes, 13 by 13.
_SIGNS = {
    "caution": "M6.5,0.5L13,12.5H0ZM6.5,4.5V8M6.5,10.3V10.5",
    "error": "M0.5,0.5H12.5V12.5H0.5ZM3.5,3.5L9.5,9.5M9.5,3.5L3.5,9.5",
    "warning": "M6.5,0L13,6.5L6.5,13L0,6.5ZM6.5,3.5V7M6.5,9.3V9.5",
}


def _key(key: Key) -> str:
    shape = _shape(key.kind, key.grade, *SHAPE)
    words = element("text", escaped(key.words), x=number(SHAPE[0] + 10), y="15.5", _class="about")
    return _group(f"{key.kind} {key.grade}", key.x, key.y, shape, words)


def _shape(kind: Kind, grade: str, width: float, height: float) -> str:
    made = element("path", d=outline(kind, grade, width, height), _class="edge")
    within = inner(kind, grade, width, height)
    return made + (element("path", d=within, _class="inner") if within else "")


def _group(names: str, x: float, y: float, *inside: str) -> str:
    return element("g", *inside, _class=names.strip(), transform=f"translate({number(x)},{number(y)})")


def _manner(way: Way) -> str:
    """The classes of a way: how it is drawn."""
    said = (("away", way.aside), ("barred", way.barred), ("taken", bool(way.taken)))
    return " ".join(("way", *(name for name, so in said if so)))


def _wire(wire: Wire) -> str:
    line = path(wire.points)
    parts = [element("path", d=line, _class="wire")]
    if wire.way.taken:
        parts.append(element("path", d=line, _class="core"))
    if wire.arrives:
        parts.append(element("path", d=arrow(wire.points, 15 if wire.way.taken else 9), _class="arrow"))
    return element("g", *parts, _class=_manner(wire.way))


def _tag(tag: Tag) -> str:
    w, h, middle = number(tag.width), number(tag.height), number(tag.width / 2)
    slip = f"M6,0H{number(tag.width - 6)}L{w},6V{h}H0V6Z"
    parts = [
        element("path", d=slip, _class="slip"),
        element("circle", cx=middle, cy="4.5", r="2", _class="hole"),
    ]
    for count, line in enumerate(tag.lines):
        parts.append(element("text", escaped(line), x=middle, y=number(19 + 15.5 * count), _class="tag"))
    return _group(_manner(tag.way), tag.x, tag.y, *parts)


def _box(box: Box, *, first: bool) -> str:
    card = box.card
    told = (f"{card.number} {card.heading} {card.name}".strip(), card.more)
    visited = " visited" if card.visits else ""
    parts = [element("title", escaped("\n".join(filter(None, told))))]
    parts.append(_shape(card.kind, card.grade, box.width, box.height))
    parts += [_text(line, PAD, 0.0) for line in box.lines]
    parts += _extras(box, first=first)
    return _group(f"card {card.kind} {card.grade}".strip() + visited, box.x, box.y, *parts)


def _extras(box: Box, *, first: bool) -> Iterator[str]:
    if box.told:
        fold = next(line.y for line in box.lines if line.style == "aside") - 19
        yield element("path", d=f"M{number(PAD)},{number(fold)}H{number(box.width - PAD)}", _class="fold")
    if first:
        yield element("text", "START", x=number(box.width / 2), y="-9", _class="begin")
    if box.card.visits:
        said = ", ".join(map(str, box.card.visits))
        wide = 16 + 7.5 * len(said)
        shape = {
            "x": number(box.width - wide - 10),
            "y": "-11",
            "width": number(wide),
            "height": "22",
            "rx": "11",
        }
        yield element("rect", **shape, _class="badge")
        yield element("text", said, x=number(box.width - wide / 2 - 10), y="4.5", _class="count")
