"""What lint says of the room on a small screen is what the app shows there."""

from collections.abc import Callable, Mapping
from typing import Final

import pytest

from engine.lint.screen import ROOM, needed
from engine.loading.folders import below
from engine.loading.leaf import File
from engine.loading.library import Library, gather
from engine.model.tree import Ask, Do, Measure
from tests.tui.seat import HERE, Bench, driven, seat
from tui.widgets.column import Body
from tui.widgets.rows import Rows

_TREE: Final = """\
tree: room
format: 1
revision: 1
title: A tree with a step of some length
complaint: It is long.
for: {{drive: all-wheel}}
suspects: {{worn: {{name: Worn, weight: 1, correction: Renew it.}}}}
start: first
steps:
  first: {first}
  ended: {{verdict: Ended, suspects: [], grade: refer, correction: Ask.}}
"""
_ONE: Final = "reading: {name: pad, gauge: rule, unit: mm, plausible: [100, 120.25]}"
_SIX: Final = (
    "readings: {gauge: tape, unit: mm, plausible: [100, 120.25], each: [a, b, c, d, e, f]}, figure: spread"
)


class Room(Bench):
    """A session on one tree whose first step is the one to be looked at."""

    def __init__(self, first: str) -> None:
        super().__init__()
        first = first.removesuffix("}") + ", unsure: ended}"
        text = _TREE.format(first=first).encode()
        self._held = gather([*below([HERE / "library"]), File("room.yaml", "complaints/room.yaml", text)])
        assert not self._held.problems
        self.open("room", "fell", "HP-204", case="the-case")

    @property
    def library(self) -> Library:
        """The small library, and the tree."""
        return self._held

    @property
    def lines(self) -> int:
        """The lines that lint counts."""
        step = self._held.trees["room"].steps["first"]
        assert isinstance(step, Do | Ask | Measure)
        return needed(step, self._held.shop.gauges)


def asked(words: int, why: int, answers: int, word: str = "abcdefg") -> str:
    """A question with texts of so many words, and so many answers of a whole line."""
    said = ", ".join(f'{{say: "{k} {"and more " * 7}here", then: ended}}' for k in range(answers))
    return f'{{ask: "{_text(words, word)}", why: "{_text(why, word)}", minutes: 1, answers: [{said}]}}'


def done(words: int, why: int) -> str:
    """Something to do."""
    return f'{{do: "{_text(words)}", why: "{_text(why)}", minutes: 2, then: ended}}'


def measured(words: int, reading: str, bands: int, start: int) -> str:
    """A measurement with so many words, and so many bands."""
    more = (
        f'{{from: {start + k}, below: {start + k + 1}, then: ended, say: "{_text(2)}"}}'
        for k in range(bands - 1)
    )
    last = f"{{from: {start + bands - 1}, then: ended, say: the last of the bands}}"
    why = _text(60)
    return f'{{measure: "{_text(words)}", why: "{why}", {reading}, bands: [{", ".join(more)}, {last}]}}'


def _text(words: int, word: str = "abcdefg") -> str:
    return " ".join([word] * words)


#: Steps that grow: the question in its why, in wide letters, in its answers; the thing to do in its words;
#: the question that has a picture in its why.
GROWING: Final[Mapping[str, Callable[[int], str]]] = {
    "why": lambda k: asked(40, k, 4),
    "wide": lambda k: asked(16, k, 3, "後輪後輪後輪後"),
    "answers": lambda k: asked(1, 1, k),
    "words": lambda k: done(k, 70),
    "picture": lambda k: asked(40, k, 4).replace("{ask:", "{picture: pictures/a.svg, ask:"),
}
MEASURED: Final[Mapping[str, Callable[[int], str]]] = {
    "words": lambda k: measured(k, _ONE, 8, 100),
    "bands": lambda k: measured(48, _ONE, k, 100),
    "six": lambda k: measured(k, _SIX, 3, 0),
}


def edge(growing: Callable[[int], str]) -> tuple[Room, Room]:
    """The longest step that lint allows, and the next one."""
    rooms = ((Room(growing(k)), Room(growing(k + 1))) for k in range(2, 75))
    return next((fits, long) for fits, long in rooms if fits.lines <= ROOM < long.lines)


@pytest.mark.parametrize("growing", GROWING)
@driven
async def test_the_longest_step_that_lint_allows_needs_no_scrolling(growing: str) -> None:
    """Words, why and answers stand on the screen together; of the next longer step they do not."""
    scrolled = []
    for room in edge(GROWING[growing]):
        async with seat(room) as at_seat:
            parts = (*at_seat.app.screen.query(Body), *at_seat.app.screen.query(Rows))
            scrolled.append(any(part.max_scroll_y > 0 for part in parts))

    assert scrolled == [False, True]


@pytest.mark.parametrize("growing", MEASURED)
@driven
async def test_the_longest_measurement_that_lint_allows_shows_its_last_band(growing: str) -> None:
    """From the words to the last band all is seen at once; of the next longer one it is not."""
    seen = []
    for room in edge(MEASURED[growing]):
        async with seat(room) as at_seat:
            text = at_seat.text()
            seen.append("Measure" in text and "the last of the bands" in text)

    assert seen == [True, False]
