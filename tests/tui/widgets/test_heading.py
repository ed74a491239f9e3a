"""The top of the screen: what may be cut, and what may not."""

from dataclasses import replace

import pytest

from tests.tui.seat import SMALL, TO_LISTEN, USUAL, WIDE, at, driven, seat
from tui.widgets.heading import Heading

STATES = ("Engine running", "Raised off the floor", "Transaxle warm", "Wheels driven by the engine")


@pytest.mark.parametrize("size", [SMALL, USUAL, WIDE], ids=["small", "usual", "wide"])
@driven
async def test_no_state_of_the_vehicle_is_ever_cut_off(size: tuple[int, int]) -> None:
    """Whoever reaches below it must know that the wheels are driven."""
    async with seat(at(*TO_LISTEN), size) as s:
        heading = s.app.screen.query_one(Heading)
        heading.where = replace(heading.where, states=STATES)
        heading.refresh(layout=True)
        await s.settle()
        seen = " ".join(line.strip() for line in s.text().splitlines()[: heading.size.height])

    for state in STATES:
        assert state in seen


@driven
async def test_a_long_place_is_cut_where_the_screen_ends() -> None:
    """With a sign that there was more."""
    async with seat(at(*TO_LISTEN), USUAL) as s:
        heading = s.app.screen.query_one(Heading)
        heading.where = replace(heading.where, inside=("A rear wheel squeals",) * 6)
        heading.refresh(layout=True)
        await s.settle()
        place = s.text().splitlines()[1]

    assert (len(place), place[-1]) == (79, "…")
