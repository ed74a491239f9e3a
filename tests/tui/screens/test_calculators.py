"""The list of calculators: families, search, and the way to one and back."""

from engine.trade.registry import calculators, names
from tests.tui.seat import TO_LISTEN, TO_PAD, Bench, at, driven, seat
from tui.screens.calculator import CalculatorScreen
from tui.widgets.labelled import Labelled


@driven
async def test_a_key_leads_from_the_jobs_to_the_families() -> None:
    """Each with how many calculators it has."""
    count = sum(one.family == "tyres" for one in calculators())
    async with seat() as s:
        seen = await s.press("k")

    assert f"Tyres   · {count}" in seen
    assert f"{len(names())} calculators in" in seen


@driven
async def test_a_family_is_chosen_with_its_digit() -> None:
    """Its calculators stand there by title."""
    async with seat() as s:
        seen = await s.press("k", "1")

    assert "1  Largest reading minus smallest" in seen


@driven
async def test_the_search_finds_while_one_types() -> None:
    """In all families, by any word of title, inputs and outputs."""
    async with seat() as s:
        await s.press("k", "s")
        await s.write("critical speed")
        await s.settle()
        seen = s.text()

    assert "Speed at which a shaft whips" in seen
    assert "1 found" in seen


@driven
async def test_a_search_without_a_match_says_what_to_do() -> None:
    """Calmly."""
    async with seat() as s:
        await s.press("k", "s")
        await s.write("zzz")
        await s.settle()

        assert "Nothing found. Try another word, or fewer." in s.text()


@driven
async def test_enter_in_the_search_takes_the_first_that_was_found() -> None:
    """No need to leave the field."""
    async with seat() as s:
        await s.press("k", "s")
        await s.write("losing tread")
        await s.settle()
        await s.press("enter")

        assert s.shown == "CalculatorScreen"


@driven
async def test_esc_leads_back_one_step_at_a_time() -> None:
    """Out of the field, out of what was found, and to the jobs."""
    async with seat() as s:
        await s.press("k", "s")
        await s.write("tread")
        await s.settle()
        await s.press("escape", "escape")
        families = s.text()
        await s.press("escape")

        assert "1  Tyres" in families
        assert s.shown == "HomeScreen"


@driven
async def test_esc_in_a_family_marks_it_among_the_families() -> None:
    """Where one came from is where one is."""
    async with seat() as s:
        seen = await s.press("k", "3", "escape")

    assert "› 3  Oils" in seen


@driven
async def test_page_down_marks_the_line_nine_further_on() -> None:
    """The lines that have no digit are reached so."""
    async with seat() as s:
        seen = await s.press("k", "pagedown")

    assert "›    Moving" in seen


@driven
async def test_a_click_on_a_family_opens_it() -> None:
    """The mouse does what the digit does."""
    async with seat() as s:
        await s.press("k")
        row = next(k for k, line in enumerate(s.text().splitlines()) if "4  Bolts" in line)
        await s.pilot.click(offset=(30, row))
        await s.settle()

        assert "Bolts: " in s.text()


@driven
async def test_a_walk_is_as_it_was_after_something_was_worked_out() -> None:
    """The calculators lie over the step and take nothing from it."""
    bench = at(*TO_LISTEN)
    async with seat(bench) as s:
        before = s.text(), bench.job.entries
        await s.press("k", "1", "1")
        await s.write("1984, 1990")
        await s.press("escape", "escape", "escape", "escape")

        assert (s.text(), bench.job.entries) == before


@driven
async def test_a_reading_typed_before_still_stands_in_its_field() -> None:
    """Also what was not sent yet is left as it was."""
    async with seat(at(*TO_PAD)) as s:
        await s.write("2,5")
        await s.press("escape", "k", "escape")

        assert "2,5" in s.text()


@driven
async def test_the_key_stands_on_the_line_of_keys() -> None:
    """Of the jobs and of a step."""
    async with seat() as s:
        home = s.text()
    async with seat(at(*TO_LISTEN)) as s:
        step = s.text()

    assert "k calculate" in home
    assert "k calculate" in step


@driven
async def test_every_calculator_can_be_opened_and_works_its_example_out() -> None:
    """No calculator breaks the screen, whatever its inputs are."""
    bench = Bench()
    labels: dict[str, str] = {}
    async with seat(bench) as s:
        for one in calculators():
            screen = CalculatorScreen(bench, one)
            await (s.app.switch_screen(screen) if labels else s.app.push_screen(screen))
            screen.action_example()
            await s.pilot.pause()
            labels[one.name] = screen.query_one("#sum", Labelled).texts[0].label

    assert labels == dict.fromkeys(names(), "Result")
