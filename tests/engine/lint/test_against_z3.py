"""The band proof against z3, on ten thousand random nodes as numbers and ten thousand as documents."""

from collections.abc import Callable, Iterator, Mapping
from fractions import Fraction
from functools import cache
from random import Random
from typing import Any, Final

import pytest

from engine.lint.rule import Scope
from engine.lint.stretch import End, Stretch, Uncovered, cover
from engine.loading import folders
from engine.loading.leaf import File
from engine.loading.library import gather
from tests.engine.lint.random_bands import TENTHS, THIRDS, Node, Written, node
from tests.engine.lint.solver import Claim, refuted

NODES: Final = 10_000
_SIDES: Final = {"from": 0, "over": 1, "upto": 0, "below": -1}
NOTHING: Final = Uncovered((), (), ())


def _end(limit: Written | None, otherwise: End) -> End:
    return End(Fraction(limit[1]), _SIDES[limit[0]]) if limit else otherwise


def covered(node: Node) -> Uncovered:
    """What the proof says of a node whose limits are plain numbers."""
    domain = Stretch(End(Fraction(node.low), 0), End(Fraction(node.high), 0))
    return cover([Stretch(_end(a, domain.low), _end(b, domain.high)) for a, b in node.bands], domain)


@cache
def bare() -> tuple[Claim, ...]:
    """Ten thousand nodes of tenths and thirds, with the answer of `cover`."""
    random = Random(7)
    nodes = [node(random, THIRDS) for _ in range(NODES)]
    return tuple(Claim(each, covered(each)) for each in nodes)


_STEPS: Final = 200
_HEAD: Final = """\
tree: {name}
format: 1
revision: 1
title: Tried
complaint: It is tried
for: {{tried: so}}
suspects: {{worn: {{name: Worn, weight: 1}}}}
start: s0
steps:
"""
_TAIL: Final = "  end: {verdict: So, suspects: [worn], grade: repair, correction: Mend it}\n"
_SHEET: Final = """\
vehicle: {name}
format: 1
revision: 1
title: Tried
facts: {{tried: so}}
sources: {{here: {{kind: invented}}}}
limits:
  tried:
    play:
      max: {{is: {play}, unit: {unit}, source: here}}
"""
PLAY: Final = "sheet.tried.play.max"
#: What the limit of each sheet is in the unit of the steps, mm: one inch is 25.4 mm by definition.
PLAYS: Final = {"in-inches": Fraction("2.54"), "in-metres": Fraction(2)}
_SHEETS: Final = (
    File("i.yaml", "i.yaml", _SHEET.format(name="in-inches", play="0.1", unit="in").encode()),
    File("m.yaml", "m.yaml", _SHEET.format(name="in-metres", play="0.002", unit="m").encode()),
)


def _written(step: int, node: Node) -> str:
    limits = (", ".join(f"{limit[0]}: {limit[1]}" for limit in band if limit) for band in node.bands)
    rows = "".join(f"      - {{{limit}, then: end}}\n" for limit in limits)
    plausible = f"plausible: [{node.low}, {node.high}]"
    return (
        f"  s{step}:\n    measure: How much?\n"
        f"    reading: {{name: play-{step}, gauge: steel-rule, unit: mm, {plausible}}}\n    bands:\n{rows}"
    )


def _tree(number: int, nodes: list[Node]) -> File:
    text = _HEAD.format(name=f"tried-{number}") + "".join(map(_written, range(len(nodes)), nodes)) + _TAIL
    return File(f"{number}.yaml", f"{number}.yaml", text.encode())


@cache
def documents() -> tuple[Claim, ...]:
    """Ten thousand measuring steps, read from text, with what the linter works out for each vehicle."""
    random = Random(11)
    trees = [
        [node(random, (*TENTHS, PLAY), bare=False) for _ in range(_STEPS)] for _ in range(NODES // _STEPS)
    ]
    shop = [file._replace(trusted=True) for file in folders.shipped(("shop/",))]
    library = gather([*map(_tree, range(len(trees)), trees), *_SHEETS, *shop])
    told = {
        (standing.document.name, standing.step.name, standing.sheet): standing.covered
        for standing in Scope(library).standings
    }
    return tuple(
        claim
        for number, nodes in enumerate(trees)
        for step, each in enumerate(nodes)
        for claim in _claims(each, told, f"tried-{number}", f"s{step}")
    )


def _claims(node: Node, told: dict[tuple[str, str, str], Uncovered], tree: str, step: str) -> Iterator[Claim]:
    """One claim, or one for each sheet where a limit is the sheet's; a step not told of is found whole."""
    by_sheet = any(limit and limit[1] == PLAY for band in node.bands for limit in band)
    for sheet, play in PLAYS.items() if by_sheet else [("", Fraction(0))]:
        yield Claim(node, told.get((tree, step, sheet), NOTHING), {PLAY: play})


def test_every_answer_on_numbers_stands() -> None:
    """No number refutes a gap, an overlap or an unused band, or shows one that was not told."""
    assert refuted(bare()) == []


def test_every_answer_on_documents_stands() -> None:
    """The same for steps read from text, with limits in mm, and in inches and metres on two sheets."""
    assert refuted(documents()) == []


@pytest.mark.parametrize("claims", [bare, documents])
def test_the_nodes_are_of_every_kind(claims: Callable[[], tuple[Claim, ...]]) -> None:
    """A twentieth at the least have gaps, overlaps, unused bands, a fault of one number, or are whole."""
    covered = [claim.covered for claim in claims()]
    single = [c for c in covered if any(low == high for low, high in (*c.gaps, *(o[2] for o in c.overlaps)))]
    kinds = (
        [c for c in covered if c.gaps],
        [c for c in covered if c.overlaps],
        [c for c in covered if c.unused],
        [c for c in covered if c == NOTHING],
        single,
    )

    assert len(covered) >= NODES
    assert min(map(len, kinds)) >= NODES // 20


_SMALL: Final = Node("0", "1", ((None, ("below", "1/3")), (("over", "1/3"), None), (("from", "2/3"), None)))


@pytest.mark.parametrize(
    "told",
    [
        {"gaps": ()},
        {"overlaps": ()},
        {"unused": (2,)},
        {"gaps": (Stretch(End(Fraction(1, 3), 0), End(Fraction(2, 5), 0)),)},
        {"gaps": (Stretch(End(Fraction(1, 3), 0), End(Fraction(33, 100), 0)),)},
        {"overlaps": ((1, 2, Stretch(End(Fraction(2, 3), 1), End(Fraction(1), 0))),)},
        {"overlaps": ((0, 2, Stretch(End(Fraction(2, 3), 0), End(Fraction(1), 0))),)},
        {"overlaps": ((1, 2, Stretch(End(Fraction(2, 3), 0), End(Fraction(2), 0))),)},
    ],
)
def test_a_wrong_answer_is_refuted(told: Mapping[str, Any]) -> None:
    """Told are a gap of 1/3 forgotten or misplaced, and an overlap too short, too long or of others."""
    sound = Claim(_SMALL, covered(_SMALL))

    assert refuted([sound]) == []
    assert refuted([Claim(_SMALL, sound.covered._replace(**told))]) != []


def test_the_published_task() -> None:
    """On [0, 5] with x < 0.2, 0.2 <= x <= 0.5, 0.5 <= x < 1 and x > 1, nothing takes 1 and two take 0.5."""
    task = Node(
        "0",
        "5",
        (
            (None, ("below", "0.2")),
            (("from", "0.2"), ("upto", "0.5")),
            (("from", "0.5"), ("below", "1")),
            (("over", "1"), None),
        ),
    )
    one, half = End(Fraction(1), 0), End(Fraction(1, 2), 0)

    assert covered(task) == Uncovered((Stretch(one, one),), ((1, 2, Stretch(half, half)),), ())
    assert refuted([Claim(task, covered(task))]) == []
