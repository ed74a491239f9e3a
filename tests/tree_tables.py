"""The tables of trees/README.md: how good each shipped tree is, and how far from the cheapest order."""

import re
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import NamedTuple

from engine.cli.figured import Told, markdown
from engine.lint.rule import suits
from engine.loading import folders
from engine.loading.library import Library, gather
from engine.planner.of_tree import Read, read
from engine.planner.planning import Planned, plan
from engine.proof.figures.figures import figures
from engine.proof.figures.vehicles import kinds

GUIDE = Path(__file__).parents[1] / "trees/README.md"
#: How the reason for a dear order begins.
DEARER = "Dearer than the cheapest order of its tests"
_REASON = re.compile(r"((?:^#[^\n]*\n)+)^start:", re.MULTILINE)


@cache
def library() -> Library:
    """The shipped documents."""
    return gather(folders.shipped())


class Order(NamedTuple):
    """A tree's own order of tests on a vehicle, and the cheapest of the same tests."""

    tree: str
    vehicle: str
    own: Read
    cheapest: Planned

    @property
    def dearer(self) -> int:
        """By how many per cent the tree's own order is dearer."""
        return round(100 * (self.own.expected / self.cheapest.expected - 1))

    @property
    def reason(self) -> str:
        """What its author wrote above its first step; empty where nothing."""
        text = (GUIDE.parent / "complaints" / f"{self.tree}.yaml").read_text(encoding="utf-8")
        found = _REASON.search(text)
        return " ".join(line.removeprefix("#").strip() for line in found[1].splitlines()) if found else ""


@cache
def orders() -> tuple[Order, ...]:
    """Of every tree, on the first vehicle that it is for."""
    return tuple(map(_order, library().trees))


def _order(name: str) -> Order:
    tree, held = library().trees[name], library()
    sheet = next(sheet for sheet in held.sheets.values() if not suits(tree, sheet))
    missed = figures(tree, held.procedures, sheet.facts).missed
    named = [suspect for suspect in tree.suspects if suspect not in missed]
    own = read(tree, held.procedures, sheet.facts, held.shop.states, named)
    return Order(name, sheet.name, own, plan(own.matrix))


def table() -> Iterator[str]:
    """The lines of the table of orders."""
    yield "| tree | on | own order, min | cheapest, min | dearer | why |"
    yield "| --- | --- | --: | --: | --: | --- |"
    for each in orders():
        minutes = f"{float(each.own.expected):.1f} | {float(each.cheapest.expected):.1f}"
        yield f"| {each.tree} | {each.vehicle} | {minutes} | {each.dearer} % | {_why(each.reason)} |"


def _why(reason: str) -> str:
    """The reason without what the column beside it says already."""
    why = reason.removeprefix(DEARER).lstrip(",.: ")
    return why[:1].upper() + why[1:]


def counted() -> Iterator[str]:
    """The lines of the table of figures, as `witnessmark figures` prints them."""
    told = [
        Told(tree, tuple(sheet.name for sheet in alike), figures(tree, library().procedures, alike[0].facts))
        for tree in library().trees.values()
        for alike in kinds(
            tree,
            library().procedures,
            [sheet for sheet in library().sheets.values() if not suits(tree, sheet)],
        )
    ]
    return markdown(told)


def renewed(text: str) -> str:
    """A text with both tables as they are today, wherever their marks stand in it."""
    for mark, lines in (("figures", counted()), ("orders", table())):
        before, rest = text.split(f"<!-- {mark} -->")
        after = rest.split(f"<!-- end of {mark} -->")[1]
        table_of = "\n".join(lines)
        text = f"{before}<!-- {mark} -->\n\n{table_of}\n\n<!-- end of {mark} -->{after}"
    return text
