"""The app itself: held keys, looks, NO_COLOR, foreign text, and what it does where it cannot run."""

import re
from collections.abc import Iterator

import pytest
from rich.color import Color
from rich.segment import Segment

from engine.interview.command import Note
from tests.tui.seat import (
    SQUEAL,
    TO_ACCEPTED,
    TO_LISTEN,
    TO_PAD,
    Bench,
    Seat,
    at,
    driven,
    seat,
)
from tui.app import Start, WitnessmarkApp, run
from tui.widgets.guard import QUIET
from tui.widgets.themes import DARK, LIGHT, PLAIN


def cells(s: Seat) -> Iterator[Segment]:
    """What stands on the screen, with its colours."""
    for strip in s.app.screen._compositor.render_strips():
        yield from (segment for segment in strip if segment.text.strip())


def luminance(color: Color) -> float:
    """Relative luminance; source: WCAG 2.2, https://www.w3.org/TR/WCAG22/#dfn-relative-luminance."""
    parts = [part / 255 for part in color.get_truecolor()]
    red, green, blue = (
        part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts
    )
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(segment: Segment) -> float:
    """Contrast of a text with its background; source: WCAG 2.2, contrast ratio."""
    style = segment.style
    assert style is not None
    assert style.color is not None
    assert style.bgcolor is not None
    pair = sorted((luminance(style.color), luminance(style.bgcolor)))
    return (pair[1] + 0.05) / (pair[0] + 0.05)


# -- keys that are held


@driven
async def test_a_key_that_is_held_acknowledges_one_caution() -> None:
    """The second caution stands, however often the keyboard repeats the key."""
    bench = at()
    async with seat(bench) as s:
        s.clock.now += QUIET
        s.clock.step = 0.04
        for _ in range(8):
            await s.pilot.press("u")
        await s.settle()

    assert bench.job.entries[-1].sequence == 2


@driven
async def test_a_key_counts_again_once_it_was_let_go() -> None:
    """A pause longer than any keyboard's first repeat."""
    bench = at()
    async with seat(bench) as s:
        s.clock.now += QUIET
        s.clock.step = 0.04
        await s.press("u", "u")
        s.clock.now += QUIET
        await s.press("u")

    assert bench.job.entries[-1].sequence == 3


@driven
async def test_a_caution_cannot_be_acknowledged_before_it_can_have_been_read() -> None:
    """A key that was on its way already does not pass it, whichever question it was meant for."""
    bench = at(*TO_LISTEN)
    async with seat(bench) as s:
        s.clock.step = 0.04
        await s.press("3", "u")

    assert type(bench.prompt()).__name__ == "CautionPrompt"


@driven
async def test_another_key_counts_at_once() -> None:
    """Only the key that brought the question is deaf."""
    bench = at(*TO_LISTEN)
    async with seat(bench) as s:
        s.clock.step = 0.2
        await s.press("3", "b")
        shown = s.shown

    assert bench.prompt().where.step == "lower-rear/lower"
    assert shown == "PastScreen"


@driven
async def test_a_bouncing_click_answers_once() -> None:
    """The second press of the button at the same place does not answer the next question."""
    bench = at(*TO_LISTEN)
    async with seat(bench) as s:
        s.clock.step = 0.01
        for _ in range(3):
            await s.pilot.click(offset=(20, 12))
        await s.settle()

    assert len(bench.prompt().where.trail) == 3


@driven
async def test_a_key_that_is_held_does_not_write_into_the_field_of_the_next_question() -> None:
    """The answer was 1; the reading stays empty."""
    bench = at(*TO_LISTEN)
    async with seat(bench) as s:
        s.clock.step = 0.04
        for _ in range(5):
            await s.pilot.press("1")
        await s.settle()

    assert bench.draft.typed.get("pad", "") == ""


@pytest.mark.parametrize(
    ("keys", "pause", "told"),
    [("112", 0.0, True), ("1112", 0.0, True), ("112", QUIET, False), ("12", 0.0, False), ("111", 0.0, False)],
    ids=["typed", "held and typed on", "held, then typed", "another digit", "held"],
)
@driven
async def test_a_digit_that_was_typed_and_does_not_count_is_told(
    keys: str, pause: float, *, told: bool
) -> None:
    """12 typed right after the answer 1 would read 2; whoever only holds the 1 has nothing to be told."""
    bench = at(*TO_LISTEN)
    async with seat(bench) as s:
        s.clock.step = 0.04
        await s.press(*keys[:-1])
        s.clock.now += pause
        seen = await s.press(keys[-1])

    assert bench.draft.typed.get("pad", "") == ("2" if keys[-1] == "2" else "")
    assert ("Not typed: The 1 came so soon after the answer" in seen) == told


@driven
async def test_the_same_digit_may_be_typed_twice_in_a_field() -> None:
    """Nothing was answered between the two."""
    bench = at(*TO_PAD)
    async with seat(bench) as s:
        s.clock.step = 0.04
        await s.pilot.press("1", "1")
        await s.settle()

    assert bench.draft.typed == {"pad": "11"}


@driven
async def test_keys_that_come_in_one_burst_are_taken_in_their_order_and_break_nothing() -> None:
    """An answer, and the job put aside before the next question was drawn."""
    bench = at(*TO_LISTEN)
    async with seat(bench) as s:
        for key in ("1", "escape", "p", "n", "escape"):
            s.app.simulate_key(key)
        await s.settle()
        shown = s.shown

    assert (shown, len(bench.store.read("the-case"))) == ("HomeScreen", 7)


# -- ending


@driven
async def test_ctrl_q_ends_the_program_from_anywhere() -> None:
    """Also from inside a field."""
    async with seat(at(*TO_PAD)) as s:
        await s.pilot.press("ctrl+q")

    assert s.app.return_code == 0


@driven
async def test_ctrl_c_neither_ends_the_program_nor_says_anything_of_its_own() -> None:
    """It is pressed by habit."""
    async with seat(at(*TO_LISTEN)) as s:
        before = s.text()

        assert await s.press("ctrl+c") == before


@driven
async def test_there_is_no_palette_of_the_toolkit() -> None:
    """Ctrl+P does nothing."""
    async with seat(at(*TO_LISTEN)) as s:
        before = s.text()

        assert await s.press("ctrl+p") == before


@driven
async def test_a_mistake_of_the_program_ends_it_with_the_error_at_hand_and_no_page_of_code() -> None:
    """What went wrong is kept for one sentence; the store has everything."""

    class Broken(Bench):
        def act(self, command: object) -> None:
            raise ZeroDivisionError(command)

    broken = Broken(at(*TO_LISTEN).store)
    broken.resume("the-case")
    seats: list[Seat] = []
    with pytest.raises(ZeroDivisionError):
        await _press_1(broken, seats)

    assert isinstance(seats[0].app.broken, ZeroDivisionError)
    assert seats[0].app._exit_renderables == []


async def _press_1(session: Bench, seats: list[Seat]) -> None:
    async with seat(session) as s:
        seats.append(s)
        await s.pilot.press("1")


@pytest.mark.parametrize("name", ["stdin", "stdout", "stderr"])
def test_without_a_terminal_it_says_so_and_ends_with_2(
    name: str, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """Nothing is drawn where nobody sees it; the cure is the plain walk."""
    for stream in ("stdin", "stdout", "stderr"):
        monkeypatch.setattr(f"sys.{stream}.isatty", lambda stream=stream: stream != name, raising=False)

    assert run() == 2
    assert "witnessmark walk TREE --plain" in capsys.readouterr().err


# -- looks


@driven
async def test_c_switches_between_dark_and_light() -> None:
    """And back again."""
    async with seat(at(*TO_LISTEN)) as s:
        names = [s.app.theme]
        for _ in range(2):
            await s.press("c")
            names.append(s.app.theme)

    assert names == [DARK.name, LIGHT.name, DARK.name]


@pytest.mark.parametrize("look", ["dark", "light"])
@pytest.mark.parametrize(
    "commands", [(), TO_LISTEN, TO_PAD, TO_ACCEPTED], ids=["caution", "ask", "measure", "verdict"]
)
@driven
async def test_every_word_stands_out_from_its_background(look: str, commands: tuple[Note, ...]) -> None:
    """At least 7 to 1: WCAG 2.2, success criterion 1.4.6 (enhanced), for eyes at the end of a long day."""
    async with seat(at(*commands), (110, 30)) as s:
        if look == "light":
            await s.press("escape", "c")
        told = [(segment.text, contrast(segment)) for segment in cells(s) if re.search(r"\w", segment.text)]

    assert [(text, round(ratio, 1)) for text, ratio in told if ratio < 7] == []


@driven
async def test_no_color_means_the_terminals_own_colours(monkeypatch: pytest.MonkeyPatch) -> None:
    """Nothing that is drawn names a colour; what is marked is bold, underlined or reversed."""
    monkeypatch.setenv("NO_COLOR", "1")
    async with seat(at(*TO_LISTEN)) as s:
        theme = s.app.theme
        named = {
            color.name
            for segment in cells(s)
            if segment.style
            for color in (segment.style.color, segment.style.bgcolor)
            if color is not None
        }
        marked = [segment.text for segment in cells(s) if segment.style and segment.style.reverse]

    assert (theme, named) == (PLAIN.name, {"default"})
    assert any("A steady squeal" in text for text in marked)


@driven
async def test_no_color_picture_shows_its_words(monkeypatch: pytest.MonkeyPatch) -> None:
    """In an exported picture foreground and background differ."""
    monkeypatch.setenv("NO_COLOR", "1")
    async with seat(at(*TO_LISTEN)) as s:
        picture = s.app.export_screenshot()
    words = set(re.findall(r"r\d+ \{ fill: (#[0-9a-f]{6})", picture))
    grounds = set(re.findall(r'<rect fill="(#[0-9a-f]{6})"', picture))

    assert words
    assert len(words | grounds) > 1


@driven
async def test_no_color_has_no_key_for_colours(monkeypatch: pytest.MonkeyPatch) -> None:
    """There is nothing to switch, so it is not offered, and pressing it does nothing."""
    monkeypatch.setenv("NO_COLOR", "1")
    async with seat(Bench()) as s:
        before = s.text()
        after = await s.press("c")

    assert "colours" not in before
    assert (after, s.app.theme) == (before, PLAIN.name)


# -- text from people and trees is data

HOSTILE = [
    "[bold red]x[/]",
    "[/]",
    "[link=http://x]y[/link]",
    "[@click=app.quit]end[/]",
    "\x1b[2J\x1b]0;title\x07",
    "a\x00b\x7f\x9b31m",
    "\u202eright to left",
    "$background {color: red}",
    "日本語のラベル",
    "e\u0301 👩🏽‍🔧",
]


#: What a terminal would obey, and what turns the direction of writing round.
OBEYED = re.compile(r"[\x00-\x09\x0b-\x1f\x7f-\x9f\u202a-\u202e]")


@driven
async def test_labels_are_shown_letter_by_letter_and_obeyed_by_nobody() -> None:
    """In the list of jobs: no markup, no escape sequence, no change of direction reaches the terminal."""
    bench = Bench()
    for number, text in enumerate(HOSTILE):
        bench.open("squeal", "fell", text, case=f"case-{number}")
    bench.leave()
    async with seat(bench) as s:
        seen = s.text() + await s.press("pagedown")

    assert not OBEYED.search(seen)
    assert [text for text in HOSTILE if text.isprintable() and text not in seen] == []


@pytest.mark.parametrize("text", [HOSTILE[0], HOSTILE[4], HOSTILE[6]])
@driven
async def test_a_label_is_data_at_the_top_of_the_job_too(text: str) -> None:
    """And in the report's name, which is the case's."""
    bench = Bench()
    bench.open("squeal", "fell", text, case="the-case")
    async with seat(bench) as s:
        seen = s.text()

    assert not OBEYED.search(seen)
    assert (text in seen) is text.isprintable()


@driven
async def test_notes_are_shown_letter_by_letter_on_the_trail() -> None:
    """Beside the step and on the screen of the trail."""
    bench = at(*TO_LISTEN)
    for text in HOSTILE:
        bench.act(Note(text))
    async with seat(bench, (160, 80)) as s:
        await s.press("1")
        seen = s.text() + await s.press("escape", "b")

    assert not OBEYED.search(seen)
    assert [text for text in HOSTILE if text.isprintable() and seen.count(f"Note: {text}") != 2] == []


def test_the_start_is_what_the_command_line_said() -> None:
    """Every word of it reaches the app."""
    app = WitnessmarkApp(Bench(), Start("a", "b", "c", "d"))

    assert (app.start.case, app.start.tree, app.start.vehicle, app.start.label) == ("a", "b", "c", "d")


@driven
async def test_a_job_from_the_command_line_is_opened_once() -> None:
    """One case, and the jobs behind it."""
    bench = Bench()
    async with seat(bench, start=SQUEAL) as s:
        await s.press("p")

        assert len(bench.store.cases()) == 1
        assert s.shown == "HomeScreen"
