"""Readings: typing, converting, refusing, confirming, and the keys around a field."""

from typing import Final

import pytest

from engine.interview.command import Note, Read
from engine.records.event import Measured, Unsure
from tests.tui.seat import SMALL, TO_PAD, TO_ROLL, WIDE, Bench, at, driven, seat
from tui.widgets.field import Field


def measured(bench: Bench) -> Measured:
    """The last event of the case, which must be a reading."""
    event = bench.job.entries[-1].event
    assert isinstance(event, Measured)
    return event


@driven
async def test_a_reading_shows_gauge_range_bands_and_the_sheet() -> None:
    """All in words, as they stand for this vehicle."""
    async with seat(at(*TO_PAD)) as s:
        seen = s.text()

    for words in (
        "How thick is the thinner of the two pads",
        "Steel rule, to 0.5 mm. Believed: 0 mm to 20 mm.",
        "below 3 mm: Worn out",
        "from 3 mm: Thick enough",
        "Brake pads, thickness, min: 3 mm",
        "Torque, wheel nuts: 100 N·m",
    ):
        assert words in seen


@driven
async def test_the_cursor_stands_in_the_field() -> None:
    """Nothing has to be pressed before typing."""
    async with seat(at(*TO_PAD)) as s:
        assert isinstance(s.app.focused, Field)


@pytest.mark.parametrize(
    ("typed", "understood", "so_far"),
    [
        ("2.5", "2.5 mm ≈ 0.098425 in", "2.5 mm: below 3 mm - Worn out, over 99 % sure"),
        ("2,5", "2.5 mm ≈ 0.098425 in", "2.5 mm: below 3 mm - Worn out, over 99 % sure"),
        ("1/8 in", "≈ 0.125 in = 3.175 mm", "3.175 mm: from 3 mm - Thick enough, 84 % sure"),
        ("3", "3 mm ≈ 0.11811 in", "3 mm: from 3 mm - Thick enough, 50 % sure"),
    ],
)
@driven
async def test_what_is_typed_is_converted_and_held_against_the_bands_at_once(
    typed: str, understood: str, so_far: str
) -> None:
    """Beside the field the other unit, below it the band."""
    async with seat(at(*TO_PAD)) as s:
        seen = await s.write(typed)

    assert understood.removeprefix("≈ ") in seen
    assert so_far in seen


@driven
async def test_enter_takes_the_reading() -> None:
    """As it was typed, in the band that was shown."""
    bench = at(*TO_PAD)
    async with seat(bench) as s:
        await s.write("2,5 mm")
        seen = await s.press("enter")

    assert (measured(bench).typed, measured(bench).band) == ({"pad": "2,5 mm"}, 0)
    assert "CAUTION" in seen


@pytest.mark.parametrize(
    ("typed", "told"),
    [("", "is missing"), ("thin", "does not start with a number"), ("3 kPa", "is a pressure")],
)
@driven
async def test_what_is_no_reading_is_refused_beside_the_field_and_stays_there(typed: str, told: str) -> None:
    """The field keeps its text, so that it can be mended."""
    bench = at(*TO_PAD)
    async with seat(bench) as s:
        await s.write(typed)
        seen = await s.press("enter")
        field = s.app.screen.query_one(Field).value

    assert "Not taken: " in seen
    assert told in seen
    assert (field, bench.draft.typed.get("pad", "")) == (typed, typed)


@driven
async def test_typing_on_takes_the_refusal_away() -> None:
    """It spoke of what stood there before."""
    async with seat(at(*TO_PAD)) as s:
        await s.write("x")
        await s.press("enter")
        seen = await s.press("backspace")

    assert "Not taken" not in seen


@driven
async def test_an_odd_reading_is_doubted_and_correcting_it_is_marked() -> None:
    """Nothing is written; Enter goes back into the field."""
    bench = at(*TO_PAD)
    before = bench.job.entries
    async with seat(bench) as s:
        await s.write("25")
        seen = await s.press("enter")
        await s.press("enter")
        in_field = isinstance(s.app.focused, Field)

    assert "lies outside what is believed here" in seen
    assert "› 1  Correct what was typed" in seen
    assert (bench.job.entries, in_field) == (before, True)


@driven
async def test_a_reading_near_its_limit_is_no_verdict() -> None:
    """2.8 mm against 3 mm, on a rule that shows halves: it is kept, and what would decide is said."""
    bench = at(*TO_PAD)
    async with seat(bench) as s:
        await s.write("2.8")
        seen = await s.press("enter")

    assert "Too close to call: 2.8 mm, below 3 mm: 87 % sure, 95 % is" in seen
    assert "› 1  Read it once more, and type that behind it: 12; 12.5" in seen
    assert "2  Take it as it stands" in seen
    assert bench.store.read("the-case")[-1].event == bench.job.state.undecided


@driven
async def test_a_close_reading_is_taken_as_it_stands() -> None:
    """2 takes it; the record says that it was close, and how sure it made."""
    bench = at(*TO_PAD)
    async with seat(bench) as s:
        await s.write("2.8")
        await s.press("enter", "2")

    told = measured(bench)
    assert (told.typed, told.close, told.insisted, told.probability) == (
        {"pad": "2.8"},
        True,
        False,
        "0.8726",
    )


@driven
async def test_a_close_reading_is_read_once_more() -> None:
    """1 goes behind what stands in the field; both together decide."""
    bench = at(*TO_PAD)
    async with seat(bench) as s:
        await s.write("2.8")
        await s.press("enter", "1")
        await s.write("2.5")
        await s.press("enter")

    told = measured(bench)
    assert (told.typed, told.values, told.close) == ({"pad": "2.8; 2.5"}, {"pad": "53/20"}, False)


@driven
async def test_an_odd_reading_is_taken_once_it_was_confirmed() -> None:
    """2 says that it was read again; the record says that it was confirmed."""
    bench = at(*TO_PAD)
    async with seat(bench) as s:
        await s.write("25")
        await s.press("enter", "2")

    assert (measured(bench).typed, measured(bench).insisted) == ({"pad": "25"}, True)


@driven
async def test_a_changed_reading_is_doubted_anew() -> None:
    """Confirming one number does not confirm the next."""
    bench = at(*TO_PAD)
    before = bench.job.entries
    async with seat(bench) as s:
        await s.write("25")
        await s.press("enter", "1")
        await s.write("0")
        seen = await s.press("enter")

    assert "pad = 250 mm lies outside" in seen
    assert bench.job.entries == before


@driven
async def test_enter_goes_from_field_to_field_and_sends_after_the_last() -> None:
    """Four readings with the number pad alone; the figure is the spread."""
    bench = at(*TO_ROLL)
    async with seat(bench) as s:
        for reading in ("2010", "2012", "2011", "2015"):
            await s.write(reading)
            await s.press("enter")

    assert measured(bench).typed == {
        "left-front": "2010",
        "right-front": "2012",
        "left-rear": "2011",
        "right-rear": "2015",
    }
    assert (measured(bench).figure, measured(bench).figure_unit) == ("5", "mm")


@driven
async def test_a_refusal_stands_below_the_reading_that_it_names() -> None:
    """Not below the first one."""
    async with seat(at(*TO_ROLL)) as s:
        for reading in ("2010", "2012", "x", "2015"):
            await s.write(reading)
            seen = await s.press("enter")
    lines = seen.splitlines()
    refused = next(number for number, line in enumerate(lines) if "Not taken" in line)

    assert any("Left rear" in line for line in lines[refused - 4 : refused])
    assert "Right rear" in lines[refused + 2] + lines[refused + 3]


@driven
async def test_up_and_down_go_from_field_to_field() -> None:
    """Down from the first is the second, up is the first again."""
    async with seat(at(*TO_ROLL)) as s:
        names = []
        for key in ("down", "down", "up"):
            await s.press(key)
            names.append(s.app.focused.name if s.app.focused else None)

    assert names == ["right-front", "left-rear", "right-front"]


@driven
async def test_letters_are_letters_in_a_field_and_keys_after_esc() -> None:
    """The key b types a b; after Esc it opens the trail."""
    async with seat(at(*TO_PAD)) as s:
        await s.press("b")
        typed = s.app.screen.query_one(Field).value
        await s.press("escape", "b")

        assert (typed, s.shown) == ("b", "PastScreen")


@driven
async def test_the_key_line_says_what_works_in_a_field_and_outside() -> None:
    """Few keys inside, and Esc for the others."""
    async with seat(at(*TO_PAD)) as s:
        inside = s.text().splitlines()[-1]
        outside = (await s.press("escape")).splitlines()[-1]

    assert inside.split() == ["Enter", "take", "↑", "↓", "move", "Esc", "other", "keys"]
    assert "b back" in outside


@driven
async def test_a_digit_outside_the_field_goes_into_it() -> None:
    """Nobody has to find the way back into the field."""
    async with seat(at(*TO_PAD)) as s:
        await s.press("escape", "2", "comma", "5")
        field = s.app.screen.query_one(Field).value

    assert field == "2,5"


@driven
async def test_x_says_that_it_cannot_be_measured_here() -> None:
    """After Esc, as everywhere."""
    bench = at(*TO_PAD)
    async with seat(bench) as s:
        await s.press("escape", "x", "1")
    event = bench.job.entries[-1].event

    assert event == Unsure("pad", "The tool or gauge is not at hand.")


@driven
async def test_a_note_leaves_what_is_typed_where_it_is() -> None:
    """The half-typed reading is still there after the note."""
    bench = at(*TO_PAD)
    async with seat(bench) as s:
        await s.write("2.5")
        await s.press("escape", "n")
        await s.write("left rear")
        seen = await s.press("enter")
    event = bench.job.entries[-1].event

    assert "2.5 mm ≈ 0.098425 in" in seen
    assert getattr(event, "text", "") == "left rear"


@driven
async def test_a_reading_that_was_doubted_is_still_doubted_after_a_note() -> None:
    """Drawing the step anew asks the same again."""
    bench = at(*TO_PAD)
    async with seat(bench) as s:
        await s.write("25")
        await s.press("enter")
        s.app.screen.send(Note("odd"))  # type: ignore[attr-defined]  # reason: the screen of a case can
        await s.settle()
        seen = s.text()

    assert "1  Correct what was typed" in seen


@driven
async def test_what_is_pasted_is_cleaned() -> None:
    """An escape sequence on the clipboard reaches neither the terminal nor the record as one."""
    bench = at(*TO_PAD)
    async with seat(bench) as s:
        seen = await s.write("2.5\x1b[31m")

    assert "\x1b" not in seen
    assert bench.draft.typed == {"pad": "2.5␛[31m"}


@pytest.mark.parametrize("commands", [TO_PAD, TO_ROLL], ids=["one", "four"])
@driven
async def test_the_field_that_is_typed_into_is_in_sight_on_a_small_screen(commands: tuple[Note, ...]) -> None:
    """Whatever else has to be scrolled away."""
    async with seat(at(*commands), SMALL) as s:
        await s.write("2")
        field = s.app.focused
        assert field is not None
        line = s.text().splitlines()[field.region.y]

    assert line.startswith("  2")


@driven
async def test_a_wide_screen_shows_the_trail_beside_the_readings() -> None:
    """And the fields are as wide as a reading needs."""
    async with seat(at(*TO_ROLL), WIDE) as s:
        seen = s.text()

    assert "→ Nothing" in seen
    assert "Left front" in seen


def left_close() -> Bench:
    """A window was closed at a reading of 2.8 mm that is too close to call; another takes the case up."""
    bench = at(*TO_PAD, Read({"pad": "2.8"}))
    taken_up = Bench(bench.store)
    taken_up.resume("the-case")
    return taken_up


@driven
async def test_a_case_left_at_a_close_reading_shows_it_again() -> None:
    """What was read stands in its field, with why it does not decide, and what can be done about it."""
    async with seat(left_close()) as s:
        seen = s.text()
        field = s.app.screen.query_one(Field).value

    assert field == "2.8"
    assert "Not decided: Too close to call: 2.8 mm, below 3 mm: 87 % sure" in seen
    assert "› 1  Read it once more, and type that behind it: 12; 12.5" in seen
    assert "  2  Take it as it stands" in seen


@driven
async def test_a_close_reading_is_kept_when_the_job_is_put_aside() -> None:
    """Pausing loses nothing, and in the list of jobs the job waits."""
    bench = at(*TO_PAD)
    async with seat(bench) as s:
        await s.write("2.8")
        await s.press("enter", "p", "1")
        seen = s.text()

    assert "Not decided: Too close to call: 2.8 mm" in seen


@pytest.mark.parametrize(
    ("keys", "typed", "close"),
    [(("2",), "2.8", True), (("1", ":2.5", "enter"), "2.8; 2.5", False)],
    ids=["taken as it stands", "read once more"],
)
@driven
async def test_a_case_left_at_a_close_reading_is_decided(
    keys: tuple[str, ...], typed: str, *, close: bool
) -> None:
    """Both choices are there as if nobody had left."""
    bench = left_close()
    async with seat(bench) as s:
        for key in keys:
            await (s.write(key[1:]) if key.startswith(":") else s.press(key))

    assert (measured(bench).typed, measured(bench).close) == ({"pad": typed}, close)


@driven
async def test_a_mistyped_close_reading_is_typed_anew() -> None:
    """Over what stands in the field; of another number nothing is said that was said of the close one."""
    bench = left_close()
    async with seat(bench) as s:
        await s.press("1", *["backspace"] * 5)
        await s.write("12")
        seen = await s.press("end")
        await s.press("enter")

    assert "Not decided" not in seen
    assert "Read it once more" not in seen
    assert (measured(bench).typed, measured(bench).close) == ({"pad": "12"}, False)


@driven
async def test_going_back_takes_the_close_reading_back_first() -> None:
    """It is the newest line of the trail, and then nothing has been read."""
    bench = left_close()
    async with seat(bench) as s:
        trail = await s.press("b")
        seen = await s.press("enter")

    assert "→ 2.8 mm (below 3 mm, 87 % sure, too close to call, not decided)" in trail
    assert bench.job.state.undecided is None
    assert "Not decided" not in seen


@driven
async def test_a_note_leaves_a_close_reading_close() -> None:
    """The same is asked with the same two choices."""
    async with seat(left_close()) as s:
        await s.press("n")
        await s.write("left rear")
        seen = await s.press("enter")

    assert "› 1  Read it once more" in seen


@driven
async def test_a_further_close_reading_is_kept_as_well() -> None:
    """Each reading is an event, and the one behind the first asks the same again."""
    bench = left_close()
    async with seat(bench) as s:
        await s.press("1")
        await s.write("3")
        seen = await s.press("enter")

    assert "Too close to call: 2.9 mm" in seen
    assert [entry.event.kind for entry in bench.store.read("the-case")[-2:]] == ["undecided", "undecided"]


FOUR: Final = {"left-front": "2010", "right-front": "2012", "left-rear": "2011", "right-rear": "2018"}


@driven
async def test_of_several_readings_only_the_wanted_one_is_repeated() -> None:
    """4 is the fourth: the cursor goes behind it, and the other fields stay as they are."""
    bench = at(*TO_ROLL, Read(FOUR))
    async with seat(bench) as s:
        seen = await s.press("4")
        field = s.app.focused
        assert isinstance(field, Field)
        value = field.value
        await s.write("2024")
        await s.press("enter")
    event = bench.job.entries[-1].event

    assert "no unit" not in seen
    assert (field.name, value) == ("right-rear", "2018; ")
    assert getattr(event, "typed", None) == FOUR | {"right-rear": "2018; 2024"}


@driven
async def test_the_reading_that_is_proposed_is_marked() -> None:
    """Enter repeats it: the largest of the four, once the smallest was read three times."""
    often = FOUR | {"left-front": "2010; 2010; 2010", "right-rear": "2017"}
    bench = at(*TO_ROLL, Read(often))
    async with seat(bench) as s:
        seen = s.text()
        await s.press("enter")
        field = s.app.focused
        assert isinstance(field, Field)

    assert "› 4  Read right rear once more, as proposed" in seen
    assert "  2  Read right front once more\n" in seen
    assert (field.name, field.value) == ("right-rear", "2017; ")


@driven
async def test_several_close_readings_are_taken_as_they_stand_by_the_last_line() -> None:
    """Behind a line for each reading."""
    bench = at(*TO_ROLL, Read(FOUR))
    async with seat(bench) as s:
        seen = await s.press("5")

    assert "VERDICT" in seen
    assert (measured(bench).typed, measured(bench).close) == (FOUR, True)
