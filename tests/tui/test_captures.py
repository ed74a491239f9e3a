"""Every screen as the eye sees it, cell by cell, at the usual size and at the largest.

The pictures are text files in `captures/`. After a change that is meant, write them anew and read the diff:

    WITNESSMARK_REFRESH=1 pytest tests/tui/test_captures.py
"""

import os
from collections.abc import Callable, Mapping
from typing import Final

import pytest

from engine.interview.command import Read
from tests.tui.seat import (
    HERE,
    TO_ACCEPTED,
    TO_LISTEN,
    TO_PAD,
    TO_PARK,
    TO_ROLL,
    TO_VERDICT,
    USUAL,
    WIDE,
    Bench,
    Seat,
    at,
    driven,
    seat,
)


def _jobs() -> Bench:
    """Two open jobs, and no job at hand."""
    bench = at(*TO_PAD)
    bench.open("pulls", "tarn", "", case="another")
    bench.leave()
    return bench


#: Four tyres that differ by nearly as much as they may.
FOUR: Final = {"left-front": "2010", "right-front": "2012", "left-rear": "2011", "right-rear": "2017"}
#: What stands on the screen before, and the keys (or, after a colon, the text) that lead to the picture.
SCENES: Final[Mapping[str, tuple[Callable[[], Bench], tuple[str, ...]]]] = {
    "home": (_jobs, ()),
    "home-empty": (Bench, ()),
    "new-vehicle": (Bench, ("n",)),
    "new-complaint": (Bench, ("n", "1")),
    "new-label": (Bench, ("n", "1", "1", ":HP-204")),
    "caution": (at, ()),
    "do": (lambda: at(*TO_PARK), ()),
    "ask": (lambda: at(*TO_LISTEN), ()),
    "ask-noted": (lambda: at(*TO_LISTEN), ("n", ":left rear, grinding", "enter")),
    "measure": (lambda: at(*TO_PAD), (":2,5",)),
    "measure-doubted": (lambda: at(*TO_PAD), (":25", "enter")),
    "measure-close": (lambda: at(*TO_PAD), (":2.8", "enter")),
    "measure-close-four": (lambda: at(*TO_ROLL, Read(FOUR)), ("escape",)),
    "measure-four": (lambda: at(*TO_ROLL), (":2010", "enter", ":79 in", "enter", ":x")),
    "cannot": (lambda: at(*TO_LISTEN), ("x",)),
    "note": (lambda: at(*TO_LISTEN), ("n", ":left rear, grinding")),
    "trail": (lambda: at(*TO_PAD), ("escape", "b")),
    "suspects": (lambda: at(*TO_PAD), ("escape", "w")),
    "verdict": (lambda: at(*TO_VERDICT), ()),
    "accepted": (lambda: at(*TO_ACCEPTED), ()),
    "fixed": (lambda: at(*TO_ACCEPTED), ("f", "1")),
    "calculators": (Bench, ("k",)),
    "calculators-found": (Bench, ("k", "s", ":mismatch")),
    "calculator": (Bench, ("k", "s", ":losing tread", "enter", ":4", "enter", ":632")),
    "calculator-refused": (Bench, ("k", "s", ":losing tread", "enter", ":90", "enter", ":632")),
    "calculator-curve": (Bench, ("k", "s", ":slip and heat", "enter", "escape", "e", "g")),
    "help": (lambda: at(*TO_LISTEN), ("question_mark",)),
}


async def _show(at_seat: Seat, keys: tuple[str, ...]) -> str:
    for key in keys:
        await (at_seat.write(key[1:]) if key.startswith(":") else at_seat.press(key))
    return at_seat.text()


@pytest.mark.parametrize("size", [USUAL, WIDE], ids=lambda size: f"{size[0]}x{size[1]}")
@pytest.mark.parametrize("scene", SCENES)
@driven
async def test_a_screen_looks_as_it_was_last_seen_and_found_good(scene: str, size: tuple[int, int]) -> None:
    """The screen shows exactly what its picture in `captures/` shows."""
    bench, keys = SCENES[scene]
    picture = HERE / "captures" / f"{scene}-{size[0]}x{size[1]}.txt"
    async with seat(bench(), size) as at_seat:
        seen = await _show(at_seat, keys)
    if os.environ.get("WITNESSMARK_REFRESH"):
        picture.write_text(seen, encoding="utf-8")

    assert seen == picture.read_text(encoding="utf-8")


def test_every_picture_has_its_scene() -> None:
    """No picture is left over of a screen that is gone."""
    wanted = {f"{scene}-{width}x{height}.txt" for scene in SCENES for width, height in (USUAL, WIDE)}

    assert {path.name for path in (HERE / "captures").iterdir()} == wanted
