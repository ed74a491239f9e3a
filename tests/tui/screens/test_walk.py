"""Cautions, things to do and questions: what is shown, and what each key does."""

import pytest

from engine.interview.command import Acknowledge, Choose, StepBack
from engine.records.event import Answered, Cautioned, Done, Noted, Unsure
from tests.tui.seat import (
    SMALL,
    TO_LIFT,
    TO_LISTEN,
    TO_PARK,
    USUAL,
    WIDE,
    Bench,
    Seat,
    at,
    driven,
    seat,
)


def last(bench: Bench) -> object:
    """The last event of the case."""
    return bench.job.entries[-1].event


@driven
async def test_a_caution_stands_before_its_step() -> None:
    """The word, the title, the text, how many follow, and the step that it stands before."""
    async with seat(at()) as s:
        seen = s.text()

    for words in ("CAUTION", "Hot brakes burn", "Wear gloves", "One more caution.", "Park on a level floor"):
        assert words in seen


@driven
async def test_u_acknowledges_a_caution_and_the_next_one_is_shown() -> None:
    """One press, one caution."""
    bench = at()
    async with seat(bench) as s:
        seen = await s.press("u")

    assert last(bench) == Cautioned("park", "hot-brakes")
    assert "A vehicle that rolls does not stop by itself" in seen


@pytest.mark.parametrize("key", ["enter", "1", "space", "down"])
@driven
async def test_no_other_key_passes_a_caution(key: str) -> None:
    """Enter, digits and arrows leave it standing."""
    bench = at()
    async with seat(bench) as s:
        await s.press(key, key)

    assert bench.job.entries[-1].sequence == 1


@driven
async def test_enter_on_a_caution_says_which_key_does_it() -> None:
    """A line tells it."""
    async with seat(at()) as s:
        seen = await s.press("enter")

    assert "Not yet: Read the caution, then press u." in seen


@driven
async def test_a_caution_longer_than_the_screen_wants_to_be_read_to_its_end() -> None:
    """`u` moves the text up first, says so, and acknowledges only once the end stands on the screen."""
    bench = at()
    async with seat(bench, SMALL) as s:
        first = await s.press("u")
        moved = bench.job.entries[-1].sequence
        for _ in range(9):
            if bench.job.entries[-1].sequence > 1:
                break
            await s.press("u")

    assert ("It goes on below." in first, moved) == (True, 1)
    assert last(bench) == Cautioned("park", "hot-brakes")


@driven
async def test_a_click_on_understood_acknowledges_the_caution() -> None:
    """A click is as deliberate as the key."""
    bench = at()
    async with seat(bench) as s:
        await s.pilot.click("Row")
        await s.settle()

    assert last(bench) == Cautioned("park", "hot-brakes")


@driven
async def test_a_step_to_do_shows_what_why_and_how_long() -> None:
    """And where it stands: tree, procedure, the vehicle's states, minutes, suspects."""
    async with seat(at(*TO_LIFT)) as s:
        seen = s.text()

    for words in (
        "HP-204 · Brennick Fellside · 6 to 27 min left",
        "A rear wheel squeals › Raise the rear axle",
        "Vehicle now: Parked and chocked",
        "3 suspects remain: Brake pads worn out",
        "Raise the rear axle at its middle",
        "about 6 min",
        "1  Done",
    ):
        assert words in seen


@pytest.mark.parametrize("key", ["enter", "1"])
@driven
async def test_done_is_one_key(key: str) -> None:
    """Enter on the marked line, or its digit."""
    bench = at(*TO_LIFT)
    async with seat(bench) as s:
        await s.press(key)

    assert last(bench) == Done("raise-rear/lift")


@driven
async def test_a_digit_answers() -> None:
    """The second answer of the list."""
    bench = at(*TO_LISTEN)
    async with seat(bench) as s:
        await s.press("2")

    assert last(bench) == Answered("listen", 1, "One scratch a turn 「カリッ」")


@driven
async def test_arrow_and_enter_answer() -> None:
    """The mark goes down twice, Enter takes the third."""
    bench = at(*TO_LISTEN)
    async with seat(bench) as s:
        await s.press("down", "down", "enter")

    assert last(bench) == Answered("listen", 2, "Nothing")


@driven
async def test_the_mark_goes_round() -> None:
    """Up from the first answer is the last."""
    async with seat(at(*TO_LISTEN)) as s:
        seen = await s.press("up")

    assert "› 3  Nothing" in seen


@driven
async def test_a_click_answers() -> None:
    """Anywhere on the line."""
    bench = at(*TO_LISTEN)
    async with seat(bench) as s:
        await s.pilot.click([*s.app.screen.query("Row")][1])
        await s.settle()

    assert last(bench) == Answered("listen", 1, "One scratch a turn 「カリッ」")


@driven
async def test_a_digit_without_an_answer_does_nothing() -> None:
    """There is no ninth answer, and no refusal either."""
    bench = at(*TO_LISTEN)
    async with seat(bench) as s:
        before = s.text()

        assert await s.press("9") == before


@driven
async def test_x_says_that_it_cannot_be_told_here_with_a_ready_reason() -> None:
    """Two keys: x, and the reason's digit."""
    bench = at(*TO_LISTEN)
    async with seat(bench) as s:
        await s.press("x", "2")

    assert last(bench) == Unsure("listen", "The part cannot be reached.")


@driven
async def test_x_does_nothing_where_the_tree_has_no_way_round() -> None:
    """Lowering has to be done; the key is not on the key line."""
    bench = at(*TO_LISTEN, Choose(1), Acknowledge("below-raised"))
    async with seat(bench) as s:
        before = s.text()
        after = await s.press("x")

    assert "cannot" not in before
    assert after == before


@driven
async def test_n_writes_a_note_beside_the_step() -> None:
    """It is in the record, the question stands, and a line says that it was written."""
    bench = at(*TO_LISTEN)
    async with seat(bench) as s:
        await s.press("n")
        await s.write("left rear, grinding")
        seen = await s.press("enter")

    assert last(bench) == Noted("listen", "left rear, grinding")
    assert "Done: the note was written down" in seen
    assert "What is heard?" in seen


@driven
async def test_b_goes_back_to_the_step_that_is_chosen() -> None:
    """The trail lists the newest first; 2 is the step before the last."""
    bench = at(*TO_LISTEN)
    async with seat(bench) as s:
        await s.press("b", "2")

    assert bench.prompt().where.step == "park"


@driven
async def test_a_step_back_past_a_change_reminds_of_it() -> None:
    """The vehicle may still be raised although the walk has gone back."""
    bench = at(*TO_LISTEN)
    bench.act(
        StepBack(next(line.sequence for line in bench.prompt().where.trail if "Raise" in line.question))
    )
    async with seat(bench) as s:
        seen = s.text()

    assert "the vehicle may still be so: Rear" in seen


@driven
async def test_p_puts_the_job_aside_and_it_can_be_resumed() -> None:
    """Back to the jobs, and back to the same question."""
    async with seat(at(*TO_LISTEN)) as s:
        away = await s.press("p")
        again = await s.press("1")

    assert "Open jobs: 1 to 1 of 1" in away
    assert "What is heard?" in again


@driven
async def test_the_trail_stands_beside_the_step_where_there_is_room() -> None:
    """The key t hides it, and the suspects move to the top; t shows it again."""
    async with seat(at(*TO_LISTEN), WIDE) as s:
        beside = s.text()
        hidden = await s.press("t")
        again = await s.press("t")

    assert "→ Done" in beside
    assert "→ Done" not in hidden
    assert "3 suspects remain: Brake pads worn out" in hidden
    assert again == beside


@driven
async def test_t_shows_the_trail_on_a_screen_of_its_own_where_there_is_none() -> None:
    """And Esc comes back."""
    async with seat(at(*TO_LISTEN), USUAL) as s:
        before = s.text()
        await s.press("t")
        shown = s.shown

        assert (shown, await s.press("escape")) == ("PastScreen", before)


@driven
async def test_the_trail_appears_when_the_window_is_made_wider() -> None:
    """Resizing while the question stands moves nothing but the room."""
    async with seat(at(*TO_LISTEN), USUAL) as s:
        before = s.text()
        await s.pilot.resize_terminal(120, 30)
        wide = s.text()
        await s.pilot.resize_terminal(*USUAL)

        assert "→ Done" in wide
        assert s.text() == before


SIZES = [(20, 8), SMALL, (60, 20), USUAL, (100, 30), WIDE, (200, 60)]


def in_reach(s: Seat, height: int) -> bool:
    """Whether the first line that can be chosen and the key line stand on the screen, one above the other."""
    rows = s.app.screen.query_one("Rows").region
    keys = s.app.screen.query_one("Keyline").region
    first = s.app.screen.query("Row").first().region
    return rows.height > 0 and rows.y <= first.y < rows.bottom <= keys.y and keys.bottom == height


@pytest.mark.parametrize("size", SIZES, ids=lambda size: f"{size[0]}x{size[1]}")
@driven
async def test_an_answer_is_in_reach_wherever_it_starts(size: tuple[int, int]) -> None:
    """Also in a window that is far too small."""
    async with seat(at(*TO_LISTEN), size) as s:
        assert in_reach(s, size[1])


@pytest.mark.parametrize("commands", [(), TO_PARK, TO_LISTEN], ids=["caution", "do", "ask"])
@driven
async def test_an_answer_stays_in_reach_whatever_becomes_of_the_window(
    commands: tuple[Acknowledge, ...],
) -> None:
    """From the smallest to the largest and back."""
    async with seat(at(*commands), USUAL) as s:
        reached = []
        for size in (*SIZES, *reversed(SIZES)):
            await s.pilot.resize_terminal(*size)
            await s.settle()
            reached.append(in_reach(s, size[1]))

    assert all(reached)


@driven
async def test_page_down_reads_on_in_a_text_that_is_longer_than_the_screen() -> None:
    """The text moves, the answers stay; page up moves it back."""
    async with seat(at(*TO_LISTEN), SMALL) as s:
        top = s.text()
        down = await s.press("pagedown")
        back = await s.press("pageup")

    assert "PgDn more" in top
    assert down.splitlines()[3] != top.splitlines()[3]
    assert "› 1" in down
    assert back == top


@driven
async def test_a_click_on_the_key_line_presses_the_key() -> None:
    """`b back` opens the trail."""
    async with seat(at(*TO_LISTEN)) as s:
        line = s.text().splitlines()[-1]
        await s.pilot.click(offset=(line.index("back"), USUAL[1] - 1))
        await s.settle()

        assert s.shown == "PastScreen"
