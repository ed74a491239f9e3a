"""Figures: several readings make one number, and that number is held against the bands."""

import pytest

from engine.interview.command import Read
from engine.interview.evolve import evolve
from engine.interview.prompt import prompt
from engine.interview.question import MeasurePrompt
from engine.interview.reading import sketch
from engine.interview.state import State
from engine.model.tree import Measure
from engine.records.codec import NOTHING_BEFORE, decode, encode, seal
from engine.records.event import Measured
from tests.engine.interview.given import after, made, refused, tree, walk


def tyres(figure: str, limit: str) -> State:
    """A walk at four tyres rolled one turn, their figure held against one limit."""
    return walk(
        tree(f"""
            first:
              measure: Roll each tyre.
              readings: {{gauge: rule, unit: mm, plausible: [0, 2500], each: [lf, rf, lr, rr]}}
              figure: {figure}
              bands: [{{upto: {limit}, say: Equal enough, then: ended}}, {{over: {limit}, then: ended}}]
            """)
    )


def typed(*readings: str) -> dict[str, str]:
    """Four readings by the tyre's name."""
    return dict(zip(("lf", "rf", "lr", "rr"), readings, strict=True))


def event(state: State, *readings: str) -> Measured:
    """What four readings make."""
    (got,) = made(state, Read(typed(*readings)))
    assert isinstance(got, Measured)
    return got


@pytest.mark.parametrize(
    ("figure", "limit", "readings", "made_of_them", "band"),
    [
        ("spread", "6", ("1980", "1986", "1984", "1982"), ("6", "mm"), 0),
        ("spread", "6", ("1980", "1986.001", "1984", "1982"), ("6.001", "mm"), 1),
        ("spread", "6", ("1.98 m", "198.6 cm", "1984", "1982"), ("6", "mm"), 0),
        ("spread", "sheet.tyres.spread.max", ("1980", "1986.35", "1984", "1982"), ("6.35", "mm"), 0),
        ("spread", "sheet.tyres.spread.max", ("1980", "1986.36", "1984", "1982"), ("6.36", "mm"), 1),
        ("relative-spread", "0.5", ("2000", "2010", "2005", "2001"), ("0.5", "%"), 0),
        ("relative-spread", "0.5", ("2000", "2010.02", "2005", "2001"), ("0.501", "%"), 1),
        ("relative-spread", "sheet.tyres.relative.max", ("2000", "2010", "2005", "2001"), ("0.5", "%"), 0),
    ],
)
def test_one_figure_is_held_against_the_bands(
    figure: str, limit: str, readings: tuple[str, ...], made_of_them: tuple[str, str], band: int
) -> None:
    """The spread is largest less smallest; the relative spread is that in per cent of the smallest."""
    got = event(tyres(figure, limit), *readings)

    assert ((got.figure, got.figure_unit), got.band) == (made_of_them, band)


def test_each_reading_is_kept_beside_the_figure() -> None:
    """The record keeps what was typed and the exact value of every reading, in the order of the step."""
    got = event(tyres("spread", "6"), "1980", "78 in", "1984", "1982")

    assert list(got.typed.items()) == [("lf", "1980"), ("rf", "78 in"), ("lr", "1984"), ("rr", "1982")]
    assert list(got.values.items()) == [("lf", "1980"), ("rf", "9906/5"), ("lr", "1984"), ("rr", "1982")]


def test_the_prompt_names_figure_and_readings() -> None:
    """The calculator's title and each reading to take are shown, and the limit in the figure's unit."""
    asked = prompt(tyres("relative-spread", "0.5"))

    assert isinstance(asked, MeasurePrompt)
    assert asked.figure == "Largest reading minus smallest, in per cent of the smallest"
    assert [blank.name for blank in asked.blanks] == ["lf", "rf", "lr", "rr"]
    assert [scale.limits for scale in asked.scales] == ["up to 0.5 %", "over 0.5 %"]


def test_a_missing_reading_is_named() -> None:
    """The first reading that is missing is told by its name."""
    refusal = refused(tyres("spread", "6"), Read(typed("1980", "1986", " ", "1982")))

    assert refusal.message == "The reading `lr` is missing."


def test_an_unreadable_reading_is_named() -> None:
    """Among several readings the one that cannot be read is told by its name."""
    refusal = refused(tyres("spread", "6"), Read(typed("1980", "19x86", "1984", "1982")))

    assert refusal.message.startswith("rf: ")


def test_one_implausible_reading_is_doubted_by_name() -> None:
    """One reading out of range is enough to doubt, and insisting takes all of them."""
    state = tyres("spread", "6")
    command = typed("1980", "1986", "198.4", "19.82 m")
    refusal = refused(state, Read(command))

    assert (refusal.kind, refusal.message.partition(" lies")[0]) == ("implausible", "rr = 19820 mm")
    assert after(state, Read(command, insist=True)).where == "ended"


def test_a_figure_that_cannot_be_made_is_refused() -> None:
    """Nothing is a percentage of zero; insisting does not make it one."""
    state = tyres("relative-spread", "0.5")

    assert refused(state, Read(typed("0", "1986", "1984", "1982"))).kind == "figure"
    assert refused(state, Read(typed("0", "1986", "1984", "1982"), insist=True)).kind == "figure"


def test_the_trail_tells_readings_and_figure() -> None:
    """All readings in the order of the step, then the figure with the limits it was held against."""
    state = after(tyres("spread", "6"), Read(typed("1980", "78 in", "1984", "1982")))

    assert state.past[0].line.answer == (
        "lf 1980 mm, rf 1981.2 mm (typed 78 in), lr 1984 mm, rr 1982 mm; 4 mm (up to 6 mm, over 99 % sure)"
    )


def test_a_record_read_again_tells_readings_in_the_order_of_the_step() -> None:
    """Stored by name in the order of the alphabet, the readings are told as the step asks for them."""
    state = tyres("spread", "6")
    sealed = seal("c", 2, "", event(state, "1984", "1983", "1982", "1981"), NOTHING_BEFORE)
    again = evolve(state, decode(encode(sealed)))

    assert again.past[0].line.answer.startswith("lf 1984 mm, rf 1983 mm, lr 1982 mm, rr 1981 mm;")


@pytest.mark.parametrize(
    ("readings", "told"),
    [
        (("1980", "1986", "1984", ""), ""),
        (("1980", "1986", "1984", "x"), ""),
        (("1980", "1986", "1984", "1982"), "6 mm: up to 6 mm - Equal enough, 50 % sure"),
        (("1980", "1989", "1984", "1982"), "9 mm: over 6 mm, over 99 % sure"),
    ],
)
def test_the_figure_is_sketched_while_it_is_typed(readings: tuple[str, ...], told: str) -> None:
    """As soon as every reading can be read the figure and its band are told; before that nothing is."""
    state = tyres("spread", "6")
    step = state.step
    assert isinstance(step, Measure)

    assert sketch(state, step, typed(*readings)) == told
