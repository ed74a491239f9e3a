"""One calculator: the result while one types, refusals, words, the example and the curve."""

import pytest

from tests.tui.seat import SMALL, USUAL, WIDE, Bench, Seat, driven, seat
from tui.screens.calculator import CalculatorScreen
from tui.widgets.graph import Graph


async def opened(s: Seat, name: str) -> str:
    """The calculator of this name, opened from the jobs."""
    bench = s.session
    (found,) = (one for one in bench.calculators if one.name == name)
    await s.app.push_screen(CalculatorScreen(bench, found))
    await s.settle()
    return s.text()


async def typed(s: Seat, *texts: str) -> str:
    """Texts into one field after the other."""
    for text in texts:
        await s.write(text)
        await s.press("enter")
    return s.text()


@driven
async def test_what_is_missing_is_named_before_anything_was_typed() -> None:
    """By its title, not as a mistake."""
    async with seat() as s:
        seen = await opened(s, "tread-wear")

    told = " ".join(seen.split())
    assert "Still to be filled in: Tread lost, or difference in tread; Diameter" in told


@driven
async def test_the_result_stands_there_as_soon_as_it_can() -> None:
    """Without sending anything: 2 · 4 mm of 800 mm are 1 %."""
    async with seat() as s:
        await opened(s, "tread-wear")
        await typed(s, "4")
        await s.write("800")
        await s.settle()

        assert ": 1 %" in s.text()


@driven
async def test_the_result_follows_each_key() -> None:
    """One more digit, another result."""
    async with seat() as s:
        await opened(s, "tread-wear")
        await typed(s, "4")
        await s.write("80")
        await s.press("0")
        seen = await s.press("backspace", "0")

    assert ": 1 %" in seen


@driven
async def test_the_sum_is_shown_as_a_person_would_write_it() -> None:
    """The formula, and the same with the figures put in."""
    async with seat() as s:
        await opened(s, "tread-wear")
        seen = await typed(s, "4", "800")

    assert "m = 100 % · 2 dt / D" in seen
    assert "= 100 % · 2 · 4 mm / 800 mm" in seen


@driven
async def test_a_refusal_stands_in_place_of_the_result_with_its_cure() -> None:
    """Out of bounds: what is wrong, what may have been meant, what to give."""
    async with seat() as s:
        await opened(s, "tread-wear")
        seen = await typed(s, "90", "800")

    assert "No result" in seen
    assert "Did you mean 9 mm or 0.9 mm?" in seen


@driven
async def test_other_units_are_taken() -> None:
    """Twice a tenth of an inch, of 20 inches, is 1 %."""
    async with seat() as s:
        await opened(s, "tread-wear")
        seen = await typed(s, "0.1 in", "20 in")

    assert ": 1 %" in seen


@driven
async def test_source_mark_and_validity_stand_below() -> None:
    """What must be known to trust it."""
    async with seat() as s:
        seen = await opened(s, "tread-wear")

    assert "Holds        An upper bound: a steel belt" in seen
    assert "Source       geometry (computed)" in seen


@driven
async def test_unit_and_bounds_stand_beside_the_field() -> None:
    """In the unit that a bare number is taken in."""
    async with seat() as s:
        seen = await opened(s, "tread-wear")

    assert "300 mm to 1200 mm" in seen


@driven
async def test_what_is_usual_stands_in_the_field_already() -> None:
    """A default can be seen, and typed over."""
    async with seat() as s:
        seen = await opened(s, "mismatch-heat")

    assert "55.949" in seen


@driven
async def test_the_example_fills_all_fields() -> None:
    """By one key, once the cursor is out of the fields."""
    async with seat() as s:
        await opened(s, "tread-wear")
        seen = await s.press("escape", "e")

    assert "2/32 in" in seen
    assert "0.50237 %" in seen


@driven
async def test_a_digit_goes_back_into_the_field() -> None:
    """And is the first that is typed there."""
    async with seat() as s:
        await opened(s, "tread-wear")
        await s.press("escape", "4")

        assert s.session.given(s.app.screen.calculator)["depth"] == "4"  # type: ignore[attr-defined]  # reason: the screen that was opened


@driven
async def test_enter_takes_the_next_word_of_a_choice() -> None:
    """Gloves need no spelling."""
    async with seat() as s:
        await opened(s, "oil-substitution")
        before = s.text()
        seen = await s.press("enter")

    assert seen.count("‹ choose ›") == before.count("‹ choose ›") - 1 == 2


@driven
async def test_a_click_takes_the_next_word_too() -> None:
    """The mouse does what Enter does."""
    async with seat() as s:
        await opened(s, "oil-substitution")
        await s.pilot.click("Choice")
        await s.settle()

        assert s.text().count("‹ choose ›") == 2


@driven
async def test_what_was_typed_is_there_again_when_one_comes_back() -> None:
    """As long as the program runs."""
    async with seat() as s:
        await opened(s, "tread-wear")
        await typed(s, "4", "800")
        await s.press("escape", "escape")
        seen = await opened(s, "tread-wear")

    assert ": 1 %" in seen


# -- the curve


@pytest.mark.parametrize("name", ["mismatch-heat", "coupling-torque", "orders"])
@driven
async def test_the_curve_shows_axes_units_and_where_the_input_stands(name: str) -> None:
    """Heat against mismatch, torque against slip, orders against speed, on the usual screen."""
    shows = {
        "mismatch-heat": ("↑ Heat at each speed (W)", "→ Mismatch of the axles (%)   ● now 1 %"),
        "coupling-torque": ("↑ Torque (N·m)", "● now 10 rpm"),
        "orders": ("↑ Their frequencies (Hz)", "→ Road speed (km/h)   ● now 100 km/h"),
    }
    async with seat(size=USUAL) as s:
        await opened(s, name)
        seen = await s.press("escape", "e", "g")

    assert all(words in seen for words in shows[name])
    assert "┤" in seen
    assert "┊" in seen


@driven
async def test_each_line_of_a_curve_is_told_by_a_letter() -> None:
    """No colour is needed to read it."""
    async with seat() as s:
        await opened(s, "mismatch-heat")
        seen = await s.press("escape", "e", "g")

    assert "f  120 km/h: 809.1 W" in seen


@driven
async def test_on_a_wide_screen_sum_and_curve_stand_side_by_side() -> None:
    """Without a key."""
    async with seat(size=WIDE) as s:
        await opened(s, "mismatch-heat")
        seen = await s.press("escape", "e")

    assert "Result" in seen
    assert "↑ Heat at each speed (W)" in seen


@driven
async def test_the_key_leads_through_the_curves_and_back_to_the_sum() -> None:
    """Torque, heat, sum."""
    async with seat() as s:
        await opened(s, "coupling-torque")
        seen = [await s.press(*keys) for keys in (("escape", "e", "g"), ("g",), ("g",))]

    assert ["↑ Torque" in text for text in seen] == [True, False, False]
    assert ["↑ Heat" in text for text in seen] == [False, True, False]
    assert "Result" in seen[2]


@driven
async def test_the_mark_moves_with_what_is_typed() -> None:
    """The curve is as live as the result."""
    async with seat(size=WIDE) as s:
        await opened(s, "tread-wear")
        await typed(s, "4", "800")
        await s.settle()

        assert "● now 4 mm" in s.text()
        assert "● 1 %" in s.text()


@driven
async def test_without_the_other_inputs_it_is_said_when_the_curve_comes() -> None:
    """An empty picture would be a riddle."""
    async with seat(size=WIDE) as s:
        seen = await opened(s, "mismatch-heat")

    assert "The curve stands here once the other inputs are given." in " ".join(seen.split())


@driven
async def test_a_calculator_without_a_curve_has_no_key_for_it() -> None:
    """Nothing is promised that is not there."""
    async with seat() as s:
        await opened(s, "tyre-size")
        seen = await s.press("escape", "g")

        assert not s.app.screen.query(Graph)
    assert "g curve" not in seen


@driven
async def test_the_smallest_screen_still_takes_a_number() -> None:
    """Forty columns and twelve lines."""
    async with seat(Bench(), SMALL) as s:
        await opened(s, "tread-wear")
        seen = await typed(s, "4", "800")

    assert ": 1 %" in " ".join(seen.split())
