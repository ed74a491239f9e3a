"""The key line never cuts a key in two, and every key of it can be clicked."""

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.tui.seat import TO_LISTEN, TO_PAD, at, driven, seat
from tui.keys import TABLE
from tui.widgets.keyline import Keyline, flow

WIDTHS = st.lists(st.integers(1, 30), max_size=12)


@given(WIDTHS, st.integers(30, 200))
def test_every_key_is_on_a_line_once_and_in_order(widths: list[int], room: int) -> None:
    """Nothing is lost at any width."""
    assert [number for line in flow(widths, room) for number in line] == list(range(len(widths)))


@given(WIDTHS, st.integers(30, 200))
def test_no_line_is_wider_than_the_screen(widths: list[int], room: int) -> None:
    """Two blanks stand between two keys."""
    assert all(sum(widths[k] for k in line) + 2 * (len(line) - 1) <= room for line in flow(widths, room))


@given(WIDTHS, st.integers(30, 200))
def test_no_line_is_begun_before_the_last_one_is_full(widths: list[int], room: int) -> None:
    """The first key of a line would not have fitted on the line before."""
    lines = flow(widths, room)
    fits = [
        sum(widths[k] for k in line) + 2 * len(line) + widths[after[0]] <= room
        for line, after in pairwise(lines)
    ]

    assert not any(fits)


@pytest.mark.parametrize("width", [40, 80])
@driven
async def test_a_click_finds_the_key_that_stands_there(width: int) -> None:
    """Each key answers for its own cells, also on the second line, and a gap for nobody."""
    async with seat(at(*TO_LISTEN), (width, 24)) as s:
        line = s.app.screen.query_one(Keyline)
        rows = s.text().splitlines()[-line.size.height :]
        found = {
            (key.action, x, y)
            for y, row in enumerate(rows)
            for x in range(len(row) - 1)
            if (key := line.at(x, y)) is not None
        }
        shown = [key.action for key in line.keys]

    for action in shown:
        cells = [(x, y) for name, x, y in found if name == action]
        x, y = min(cells)
        assert rows[y][x + 1 :].lstrip().startswith((TABLE[action].shown[0], "1"))
    assert {name for name, _, _ in found} == set(shown)


@driven
async def test_the_digits_on_the_key_line_are_those_that_answer() -> None:
    """Three answers: 1 to 3."""
    async with seat(at(*TO_LISTEN)) as s:
        seen = s.text().splitlines()[-1]

    assert seen.split()[0] == "1-3"


@driven
async def test_there_are_no_digits_where_they_are_typed() -> None:
    """In a field a digit is a digit."""
    async with seat(at(*TO_PAD)) as s:
        seen = s.text().splitlines()[-1]

    assert "answer" not in seen
