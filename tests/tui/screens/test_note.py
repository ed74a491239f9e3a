"""Notes and reasons: ready lines, own words, and leaving without either."""

from engine.records.event import Noted, Unsure
from tests.tui.seat import TO_LISTEN, at, driven, seat


@driven
async def test_a_reason_in_own_words() -> None:
    """Up from the first line is the field."""
    bench = at(*TO_LISTEN)
    async with seat(bench) as s:
        await s.press("x", "up")
        await s.write("wheel is frozen")
        await s.press("enter")

    assert bench.job.entries[-1].event == Unsure("listen", "wheel is frozen")


@driven
async def test_the_step_stands_above_the_field() -> None:
    """Nobody has to remember what is being written about."""
    async with seat(at(*TO_LISTEN)) as s:
        note = await s.press("n")
        await s.press("escape")
        reason = await s.press("x")

    assert "What is heard?" in note
    assert "What is heard?" in reason


@driven
async def test_an_empty_note_is_not_sent() -> None:
    """Enter does nothing until something stands there."""
    bench = at(*TO_LISTEN)
    before = bench.job.entries
    async with seat(bench) as s:
        await s.press("n", "enter", "enter")
        shown = s.shown

    assert (shown, bench.job.entries) == ("NoteScreen", before)


@driven
async def test_a_note_that_was_left_is_there_again() -> None:
    """Esc does not throw away what was typed."""
    async with seat(at(*TO_LISTEN)) as s:
        await s.press("n")
        await s.write("left rear")
        await s.press("escape")
        seen = await s.press("n")

    assert "left rear" in seen


@driven
async def test_a_note_that_was_written_is_not_offered_again() -> None:
    """The next one begins empty."""
    bench = at(*TO_LISTEN)
    async with seat(bench) as s:
        await s.press("n")
        await s.write("left rear")
        await s.press("enter")
        seen = await s.press("n")

    assert bench.job.entries[-1].event == Noted("listen", "left rear")
    assert "left rear" not in seen


@driven
async def test_letters_are_letters_in_a_note() -> None:
    """None of them is a key, not even a question mark."""
    bench = at(*TO_LISTEN)
    async with seat(bench) as s:
        await s.press("n")
        await s.press(*"qpbxu", "question_mark", "c")
        await s.press("enter")

    assert bench.job.entries[-1].event == Noted("listen", "qpbxu?c")
