"""The lines of text on a card, on a tag and in the head of a picture."""

from collections.abc import Iterable, Iterator, Mapping
from typing import Final

from engine.report.drawing.chart import Card, Chart, Way
from engine.report.drawing.picture import Line
from engine.report.drawing.wrap import wrap

#: Size of the letters and height of a line, by style.
SIZES: Final = {
    "title": (24.0, 32.0),
    "about": (13.0, 18.0),
    "heading": (11.0, 16.0),
    "name": (10.5, 15.0),
    "text": (13.0, 17.0),
    "note": (11.0, 15.0),
    "caution": (11.5, 16.0),
    "error": (11.5, 16.0),
    "warning": (11.5, 16.0),
    "aside": (11.0, 15.0),
    "tag": (12.0, 15.5),
}
CARD: Final = 256.0
#: Between the edge of a card and its text.
PAD: Final = 20.0
TAG: Final = 158.0
TAG_PAD: Final = 10.0
#: What the sign of a caution or a finding takes from its lines.
SIGN: Final = 20.0
_SIGNED: Final = ("caution", "error", "warning")
#: Letters of these are heavier, and so wider.
_HEAVY: Final = {"heading": 1.12, "title": 1.08, "caution": 1.1, "error": 1.1}
_ABOVE: Final = 8.0


def of_card(card: Card, told: Iterable[Way], cards: Mapping[str, Card]) -> tuple[tuple[Line, ...], float]:
    """The lines of a card, and its height; ways without wires are told at its foot."""
    number = f"{card.number}  " if card.number else ""
    parts = [(f"{number}{card.heading}", "heading"), (card.name, "name")]
    parts += [(f"Caution: {mark.text}", mark.sign) for mark in card.marks if mark.sign == "caution"]
    parts.append((card.text, "text"))
    parts += [(note, "note") for note in card.notes]
    parts += [(f"{mark.sign}: {mark.text}", mark.sign) for mark in card.marks if mark.sign != "caution"]
    parts += [(_told(way, cards), "aside") for way in told]
    lines, foot = _set(parts, CARD - 2 * PAD, _ABOVE)
    return lines, foot + 10.0


def of_tag(way: Way) -> tuple[str, ...]:
    """The lines of a tag; what was taken, and what the sheet rules out, is said in words."""
    extra = [f"taken at {_count(way.taken)}"] if way.taken else []
    extra += ["not this vehicle"] if way.barred else []
    texts = (way.text, *(f"({words})" for words in extra)) if way.text else extra
    return tuple(line for text in texts for line in wrap(text, TAG - 2 * TAG_PAD, SIZES["tag"][0] * 1.05))


def of_head(chart: Chart, room: float) -> tuple[tuple[Line, ...], float]:
    """The lines above the picture, and where they end."""
    parts = [(chart.title, "title"), *((about, "about") for about in chart.about)]
    parts += [(f"{mark.sign}: {mark.text}", mark.sign) for mark in chart.marks]
    return _set(parts, room, 0.0)


def _told(way: Way, cards: Mapping[str, Card]) -> str:
    number = cards[way.then].number
    where = f"{number}, {way.then}" if number else way.then
    return f"{way.text}: go to {where}"


def _count(numbers: tuple[int, ...]) -> str:
    return ", ".join(str(number) for number in numbers)


def _set(parts: Iterable[tuple[str, str]], room: float, top: float) -> tuple[tuple[Line, ...], float]:
    lines: list[Line] = []
    foot, before = top, ""
    for text, style in parts:
        foot += _gap(before, style)
        for line in _lines(text, style, room):
            foot += SIZES[style][1]
            lines.append(line._replace(y=foot))
        before = style
    return tuple(lines), foot


def _lines(text: str, style: str, room: float) -> Iterator[Line]:
    size = SIZES[style][0] * _HEAVY.get(style, 1.0)
    inner = room - (SIGN if style in _SIGNED else 0.0)
    for number, line in enumerate(wrap(text, inner, size)):
        yield Line(line, 0.0, style, first=number == 0)


def _gap(before: str, style: str) -> float:
    """What stands between two paragraphs."""
    if style == "name":
        return -1.0
    if style == "aside":
        return 4.0 if before == "aside" else 12.0
    return 0.0 if before in ("", style) and style not in _SIGNED else 5.0
