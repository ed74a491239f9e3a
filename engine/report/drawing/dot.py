"""A chart as DOT text, for programs of the graphviz family."""

from collections.abc import Iterable, Iterator
from typing import Final

from engine.plain import clean
from engine.report.drawing.chart import Card, Chart, Way
from engine.report.drawing.words import told, words

#: The look of a card by kind or by grade; every one has a shape or an edge of its own.
_LOOKS: Final = {
    "do": "shape=box",
    "ask": 'shape=box, style="rounded"',
    "measure": "shape=parallelogram",
    "sort": "shape=hexagon",
    "run": "shape=component",
    "outcome": "shape=oval",
    "missing": 'shape=box, style="dotted"',
    "repair": "shape=octagon, penwidth=3",
    "adjust": "shape=trapezium, penwidth=3",
    "no-fault": "shape=oval, penwidth=3",
    "refer": 'shape=cds, style="dashed", penwidth=2',
}


def dot(chart: Chart) -> str:
    """The chart as the text of a directed graph."""
    names = {card.name: f"n{number}" for number, card in enumerate(chart.cards, 1)}
    label = quoted((chart.title, *chart.about, *(f"!! {mark.sign}: {mark.text}" for mark in chart.marks)))
    lines = [
        "digraph tree {",
        f"  graph [label={label}, labelloc=t, rankdir=TB];",
        '  node [fontname="sans-serif"];',
        '  edge [fontname="sans-serif"];',
        '  begin [label="START", shape=plaintext];',
        f"  begin -> {names[chart.start]};",
        *(f"  {names[card.name]} [{', '.join(_node(card))}];" for card in chart.cards),
        *(f"  {names[way.source]} -> {names[way.then]} [{', '.join(_edge(way))}];" for way in chart.ways),
        "}",
    ]
    return "\n".join(lines) + "\n"


def _node(card: Card) -> Iterator[str]:
    yield f"label={quoted(words(card))}"
    yield _LOOKS.get(card.grade) or _LOOKS[card.kind]
    if card.visits:
        yield "peripheries=2"


def _edge(way: Way) -> Iterator[str]:
    yield f"label={quoted(told(way))}"
    if way.aside or way.barred:
        yield 'style="dashed"'
    if way.taken:
        yield "penwidth=4"


def quoted(lines: Iterable[str]) -> str:
    r"""Lines as one quoted text, in which a backslash and a quotation mark mean themselves.

    >>> print(quoted(['a "b" \\N', "c"]))
    "a \"b\" \\N\nc"
    """
    escaped = (clean(line, lines=False).replace("\\", "\\\\").replace('"', '\\"') for line in lines)
    return '"' + "\\n".join(escaped) + '"'
