"""The trail on a screen of its own."""

from engine.interview.command import Note
from tests.tui.seat import TO_LISTEN, TO_PAD, Bench, at, driven, seat


@driven
async def test_the_newest_line_comes_first_with_answers_cautions_and_notes() -> None:
    """Everything that was settled, and who is still suspected."""
    bench = at(*TO_LISTEN)
    bench.act(Note("left rear"))
    async with seat(bench) as s:
        await s.press("1", "escape")
        seen = await s.press("b")

    assert "› 1  Turn each rear wheel by hand" in seen
    for words in (
        "→ A steady squeal, left or right",
        "Note: left rear",
        "2  Raise the rear axle",
        "Caution acknowledged: Nobody below a vehicle on a jack",
        "2 suspects remain: Brake pads worn out 86 % · Tyres of unequal size 2 %",
    ):
        assert words in seen


@driven
async def test_enter_steps_back_once() -> None:
    """The marked line is the newest."""
    bench = at(*TO_PAD)
    async with seat(bench) as s:
        await s.press("escape", "b", "enter")

    assert bench.prompt().where.step == "listen"


@driven
async def test_any_earlier_step_can_be_chosen() -> None:
    """The oldest one is the last line."""
    bench = at(*TO_PAD)
    async with seat(bench) as s:
        await s.press("escape", "b", "up", "enter")

    assert bench.prompt().where.step == "park"


@driven
async def test_esc_changes_nothing() -> None:
    """The walk stands where it stood."""
    bench = at(*TO_PAD)
    before = bench.job.entries
    async with seat(bench) as s:
        await s.press("escape", "b", "escape")

    assert bench.job.entries == before


@driven
async def test_nothing_answered_yet_is_said() -> None:
    """And there is nothing to choose."""
    bench: Bench = at()
    async with seat(bench) as s:
        seen = await s.press("b")
        after = await s.press("enter", "1")

    assert "Trail: nothing answered yet" in seen
    assert after == seen
