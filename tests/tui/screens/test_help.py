"""The help: every key, from everywhere, and back."""

import pytest

from tests.tui.seat import TO_LISTEN, TO_VERDICT, WIDE, Bench, at, driven, seat
from tui.keys import TABLE


@driven
async def test_every_key_is_on_the_page() -> None:
    """On a tall screen at one glance, with what it does."""
    async with seat(Bench(), (160, 130)) as s:
        seen = await s.press("question_mark")

    assert [key.help for key in TABLE.values() if key.help not in seen] == []


@pytest.mark.parametrize("key", ["escape", "question_mark"])
@driven
async def test_the_help_closes_again(key: str) -> None:
    """Esc, or the key that opened it."""
    async with seat(at(*TO_LISTEN)) as s:
        before = s.text()
        await s.press("question_mark")

        assert await s.press(key) == before


@driven
async def test_it_scrolls() -> None:
    """Page down shows the rest."""
    async with seat(at(*TO_LISTEN)) as s:
        top = await s.press("question_mark")
        down = await s.press("pagedown")

    assert "How it works" in top
    assert "How it works" not in down


@pytest.mark.parametrize("commands", [None, (), TO_VERDICT], ids=["jobs", "caution", "verdict"])
@driven
async def test_it_opens_from_every_screen(commands: tuple[object, ...] | None) -> None:
    """The key is the same everywhere outside a field."""
    bench = Bench() if commands is None else at(*commands)  # type: ignore[arg-type]  # reason: commands all
    async with seat(bench, WIDE) as s:
        await s.press("question_mark")

        assert s.shown == "HelpScreen"
