"""A chart as Mermaid text, for pages that draw it themselves. Its layout is Mermaid's, its words are ours."""

import re
from collections.abc import Iterator
from typing import Final

from engine.plain import clean
from engine.report.drawing.chart import Card, Chart, Way
from engine.report.drawing.words import told, words

#: What stands around a label, by kind or by grade: a shape for each.
_SHAPES: Final = {
    "do": ("[", "]"),
    "ask": ("(", ")"),
    "measure": ("[/", "/]"),
    "sort": ("{{", "}}"),
    "run": ("[[", "]]"),
    "outcome": ("([", "])"),
    "missing": ("{", "}"),
    "repair": ("[/", "\\]"),
    "adjust": ("[\\", "/]"),
    "no-fault": ("([", "])"),
    "refer": (">", "]"),
}
#: All but letters, digits and these become their number, which Mermaid shows and never obeys; so does what
#: would make a list of a line.
_SPELT: Final = re.compile(r"^[-.]|(?<=^\d)[.]|(?<=^\d\d)[.]|[^\w ,.:?!/'-]")
_STYLES: Final = """\
  classDef verdict stroke-width:3px,font-weight:bold
  classDef refer stroke-width:3px,stroke-dasharray:7 4,font-weight:bold
  classDef missing stroke-dasharray:3 3
  classDef visited stroke-width:5px
"""


def mermaid(chart: Chart) -> str:
    """The chart as the text of a Mermaid flowchart from top to bottom."""
    names = {card.name: f"n{number}" for number, card in enumerate(chart.cards, 1)}
    nodes = [f"  {names[card.name]}{_node(card)}" for card in chart.cards]
    links = [f"  {names[way.source]} {_link(way)} {names[way.then]}" for way in chart.ways]
    classes = [f"  class {names[card.name]} {kind}" for card in chart.cards for kind in _classes(card)]
    begin = [f'  begin(("START")) --> {names[chart.start]}']
    head = [f"%% {clean(line, lines=False)}" for line in (chart.title, *chart.about)]
    head += [f"%% {mark.sign}: {clean(mark.text, lines=False)}" for mark in chart.marks]
    return (
        "\n".join(("flowchart TD", *map(_comment, head), *begin, *nodes, *links, _STYLES.rstrip(), *classes))
        + "\n"
    )


def _comment(line: str) -> str:
    """A comment that opens no directive: those stand in braces."""
    return "  " + line.replace("{", "(").replace("}", ")")


def _node(card: Card) -> str:
    before, after = _SHAPES.get(card.grade) or _SHAPES[card.kind]
    return f'{before}"{"<br/>".join(map(literal, words(card)))}"{after}'


def _link(way: Way) -> str:
    arrow = "==>" if way.taken else "-.->" if way.aside or way.barred else "-->"
    text = "<br/>".join(map(literal, told(way)))
    return f'{arrow}|"{text}"|' if text else arrow


def _classes(card: Card) -> Iterator[str]:
    if card.kind == "verdict":
        yield "refer" if card.grade == "refer" else "verdict"
    if card.kind == "missing":
        yield "missing"
    if card.visits:
        yield "visited"


def literal(text: str) -> str:
    """A text as a quoted label shows it letter by letter.

    >>> print(literal('say "no" & <go>'))
    say #34;no#34; #38; #60;go#62;
    """
    return _SPELT.sub(lambda found: f"#{ord(found.group())};", clean(text, lines=False))
