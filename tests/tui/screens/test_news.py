"""Two windows on one case, on a store on disk: the second is told before it answers."""

from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from pathlib import Path

from engine import api
from engine.interview.command import Choose, Command, Confirm, StepBack
from tests.tui.seat import TO_LISTEN, TO_PAD, TO_PARK, Bench, Seat, at, driven, seat
from tui.app import Start
from tui.widgets.field import Field


@asynccontextmanager
async def two_windows(folder: Path, *commands: Command) -> AsyncIterator[tuple[Seat, Seat]]:
    """The same case in two apps, each with its own connection to the file."""
    url = str(folder / "cases.db")
    at(*commands, store=api.open_store(url)).close()
    start = Start(case="the-case")
    async with (
        seat(Bench(api.open_store(url)), start=start) as first,
        seat(Bench(api.open_store(url)), start=start) as second,
    ):
        yield first, second


@driven
async def test_the_second_window_is_told_about_a_second_later(tmp_path: Path) -> None:
    """What was added stands there, and the answer keys of the old question do nothing any more."""
    async with two_windows(tmp_path, *TO_LISTEN) as (first, second):
        await first.press("1")
        await second.pilot.pause(1.3)
        seen = second.text()
        after = await second.press("1", "enter", "escape")
        now = await second.press("u")

    assert "THIS CASE WENT ON IN ANOTHER WINDOW" in seen
    assert "→ A steady squeal, left or right" in seen
    assert after == seen
    assert "How thick is the thinner of the two pads" in now


@driven
async def test_an_answer_that_comes_too_late_is_not_written_and_it_is_said(tmp_path: Path) -> None:
    """Before the second window looked, it answered; the record has the first answer alone."""
    async with two_windows(tmp_path, *TO_LISTEN) as (first, second):
        first.session.act(Choose(0))
        seen = await second.press("2")
        answers = [line.answer for line in second.session.prompt().where.trail]
        now = await second.press("u")

    assert "Your last answer was not written" in seen
    assert answers[-1] == "A steady squeal, left or right"
    assert "One scratch a turn 「カリッ」" not in answers
    assert "How thick is the thinner of the two pads" in now


@driven
async def test_a_typed_reading_survives_a_note_written_in_the_other_window(tmp_path: Path) -> None:
    """The question is the same, so the field still holds it."""
    async with two_windows(tmp_path, *TO_PAD) as (first, second):
        await second.write("2.5")
        await first.press("escape", "n")
        await first.write("left rear")
        await first.press("enter")
        await second.pilot.pause(1.3)
        seen = second.text()
        await second.press("u")
        field = second.app.screen.query_one(Field).value

    assert "Something was noted, confirmed or taken back there." in seen
    assert field == "2.5"


@driven
async def test_a_step_back_in_the_other_window_is_followed(tmp_path: Path) -> None:
    """The second window goes back too, once that was read."""
    async with two_windows(tmp_path, *TO_PARK, Confirm()) as (first, second):
        first.session.act(StepBack(first.session.prompt().where.trail[-1].sequence))
        await second.pilot.pause(1.3)
        seen = await second.press("u")

    assert "Hot brakes burn" in seen


@driven
async def test_a_verdict_reached_in_the_other_window_is_shown(tmp_path: Path) -> None:
    """The kind of screen changes with the question."""
    async with two_windows(tmp_path, *TO_PARK) as (first, second):
        await first.press("x", "1")
        await second.pilot.pause(1.3)
        await second.press("u")

        assert second.shown == "VerdictScreen"


@driven
async def test_both_windows_may_go_on_in_turn(tmp_path: Path) -> None:
    """Nothing is lost and nothing is written twice."""
    async with two_windows(tmp_path, *TO_LISTEN) as (first, second):
        await first.press("3")
        await second.pilot.pause(1.3)
        await second.press("u", "u")
        await first.pilot.pause(1.3)
        await first.press("u", "1")
        case = api.resume(first.session.store, "the-case")

    assert api.verify(case.entries) == ()
    assert [entry.sequence for entry in case.entries] == list(range(1, len(case.entries) + 1))
    assert case.state.where == "roll"


def test_a_second_window_that_only_looks_writes_nothing(tmp_path: Path) -> None:
    """Polling is reading."""
    url = str(tmp_path / "cases.db")
    bench = at(*TO_LISTEN, store=api.open_store(url))
    other = Bench(api.open_store(url))
    other.resume("the-case")
    bench.act(Choose(0))
    other.poll()

    assert other.job.entries == bench.job.entries
    bench.close()
    other.close()
