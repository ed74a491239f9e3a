"""Lines and columns of a small screen: held against the toolkit that the app is drawn with."""

import unicodedata
from fractions import Fraction
from typing import Any, Final

import pytest
from hypothesis import given
from hypothesis import strategies as st
from rich.cells import cell_len
from textual.content import Content

from engine.lint.screen import Shown, at_most, lines, needed
from engine.model.place import Place
from engine.model.shop import Gauge
from engine.model.tree import Answer, Ask, Band, Do, Limit, Measure, Wanted
from engine.plain import cells
from engine.trade.calculator import Calculator
from engine.trade.registry import calculators, names

PLACE: Final = Place("tree.yaml", 1, 1)
#: Scripts of the trade's languages, and the signs that people put into instructions.
SCRIPTS: Final = (
    *range(0x20, 0x7F),
    *range(0xA1, 0xAD),
    *range(0xAE, 0x0530),
    *range(0x0E01, 0x0E5C),
    *range(0x2010, 0x2028),
    *range(0x2030, 0x2060),
    *range(0x20A0, 0x20C1),
    *range(0x2100, 0x2300),
    *range(0x2500, 0x2600),
    *range(0x3001, 0x3100),
    *range(0x4E00, 0x9FFF),
    *range(0xAC00, 0xD7A4),
    *range(0xFF01, 0xFFA0),
    *range(0x1F600, 0x1F650),
)
WORDS: Final = st.text("ab e\n後輪é́-", max_size=300)
LINES: Final = st.text("ab e後é-", max_size=120)


def test_characters_take_the_columns_that_the_app_gives_them() -> None:
    """Every assigned character of these scripts; the tables of the two may be of different years."""
    known = [chr(code) for code in SCRIPTS if unicodedata.category(chr(code)) not in ("Cn", "Cf")]
    amiss = [character for character in known if cells(character) != cell_len(character)]

    assert len(known) > 30_000
    assert amiss == []


@given(WORDS, st.integers(4, 80))
def test_texts_wrap_as_the_app_wraps_them(text: str, width: int) -> None:
    """Words that are wider than a line, runs of blanks and lines of one's own among them."""
    assert lines(text, width) == len(Content(text).wrap(width))


def bands(says: list[str]) -> tuple[Band, ...]:
    """A band for each saying, with both its limits."""
    low = Limit(Fraction(-999_999_999), None, owned=True, place=PLACE)
    high = Limit(Fraction("999999999.1234"), None, owned=True, place=PLACE)
    return tuple(Band(low, high, "on", say, {}, "", PLACE) for say in says)


@st.composite
def steps(draw: st.DrawFn) -> Shown:
    """A step of any kind that is shown, with texts of any length."""
    text, why = draw(WORDS), draw(WORDS)
    says = draw(st.lists(LINES, min_size=2, max_size=8))
    show = ("torques.nut",) * draw(st.integers(0, 3))
    minutes = Fraction(draw(st.integers(0, 1)))
    picture = draw(st.sampled_from(("", "a.svg", f"pictures/{'a' * 170}.svg")))
    common: dict[str, Any] = {"why": why, "show": show, "minutes": minutes, "picture": picture}
    match draw(st.sampled_from(("do", "ask", "measure"))):
        case "do":
            return Do(name="s", place=PLACE, text=text, then="on", **common)
        case "ask":
            answers = tuple(Answer(say, "on", {}, PLACE) for say in says)
            return Ask(name="s", place=PLACE, text=text, answers=answers, **common)
    wanted = Wanted("x", "lbf·ft", "rule", Fraction(-999_999_999), Fraction("999999999.1234"), PLACE)
    figure = draw(st.sampled_from(("", *names())))
    readings = (wanted,) * draw(st.integers(1, 6))
    return Measure(
        name="s", place=PLACE, text=text, readings=readings, figure=figure, unit="lbf·ft", bands=bands(says)
    )


@given(steps(), st.text("ab e", min_size=1, max_size=80))
def test_a_glance_never_lets_a_long_step_through(step: Shown, title: str) -> None:
    """What a glance at the lengths allows is never less than what the step needs."""
    gauge = Gauge("rule", title, "lbf·ft", Fraction("0.0001"), Fraction(1), "", PLACE)

    assert needed(step, {"rule": gauge}) <= at_most(step, {"rule": gauge})


@pytest.mark.parametrize("calculator", calculators(), ids=lambda calculator: calculator.name)
def test_the_title_of_a_figure_is_no_wider_than_a_glance_takes_it_to_be(
    calculator: Calculator,
) -> None:
    """Sixty columns are set aside for it."""
    assert len(calculator.title) <= 60
