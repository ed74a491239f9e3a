"""All words of a card and of a way in lines, for formats that set text themselves."""

from collections.abc import Iterator

from engine.report.drawing.chart import Card, Way
from engine.report.drawing.wrap import wrap

#: Room for a line, about forty letters.
_CARD, _WAY = 280.0, 160.0
_SIZE = 12.0


def words(card: Card) -> tuple[str, ...]:
    """The lines of a card: what it is, what it warns of, what it says."""
    return tuple(line for text in _parts(card) for line in wrap(text, _CARD, _SIZE))


def told(way: Way) -> tuple[str, ...]:
    """The lines on a way; what was taken, and what the sheet rules out, is said."""
    parts = [way.text] if way.text else []
    parts += [f"(taken at {', '.join(map(str, way.taken))})"] if way.taken else []
    parts += ["(not this vehicle)"] if way.barred else []
    return tuple(line for text in parts for line in wrap(text, _WAY, _SIZE))


def _parts(card: Card) -> Iterator[str]:
    yield f"{card.number or ''} {card.heading}: {card.name}".strip()
    if card.visits:
        yield f"(visited at {', '.join(map(str, card.visits))})"
    yield from (f"! Caution: {mark.text}" for mark in card.marks if mark.sign == "caution")
    yield card.text
    yield from card.notes
    yield from (f"!! {mark.sign}: {mark.text}" for mark in card.marks if mark.sign != "caution")
