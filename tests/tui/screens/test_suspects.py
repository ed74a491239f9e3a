"""Who is suspected and the advice: a page that is asked for with one key and left with the same."""

import pytest

from engine.interview.command import Command
from tests.tui.seat import TO_LISTEN, TO_PAD, TO_PARK, TO_VERDICT, USUAL, WIDE, at, driven, seat


@pytest.mark.parametrize("leave", ["w", "escape"])
@driven
async def test_the_page_is_left_as_it_was_opened(leave: str) -> None:
    """The step stands as before, and nothing was written."""
    bench = at(*TO_LISTEN)
    async with seat(bench) as here:
        before = here.text()
        entries = bench.job.entries
        await here.press("w")
        assert here.shown == "SuspectsScreen"
        assert await here.press(leave) == before
        assert bench.job.entries == entries


@pytest.mark.parametrize("way", [(), TO_PARK, TO_LISTEN, TO_VERDICT], ids=["caution", "do", "ask", "verdict"])
@driven
async def test_it_is_there_at_every_step(way: tuple[Command, ...]) -> None:
    """Suspects with their numbers, and advice that says it is advice."""
    async with seat(at(*way)) as here:
        told = await here.press("w")
        assert "Brake pads worn out" in told
        assert "Advice by the numbers only; the tree leads, and its cautions stand." in told


@pytest.mark.parametrize(("size", "keys"), [(USUAL, ["w who"]), (WIDE, ["t trail", "w who"])], ids=str)
@driven
async def test_its_key_stands_at_the_foot(size: tuple[int, int], keys: list[str]) -> None:
    """Where there is little room it stands in place of the trail's, which Back shows there."""
    async with seat(at(*TO_LISTEN), size) as here:
        foot = here.text().splitlines()[-1]
        assert [key for key in ("t trail", "w who") if key in foot] == keys


@driven
async def test_what_moved_last_is_told() -> None:
    """The answer stands with each suspect's number of before it."""
    async with seat(at(*TO_PAD)) as here:
        told = await here.press("escape", "w")
        assert "Brake pads worn out: likely, 86 % (was 50 %)" in told
        assert "A steady squeal, left or right" in told
