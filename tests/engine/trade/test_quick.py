"""The short way to a number is the long one, only shorter."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.quantity import dimension, units
from engine.trade.inputs import ANY, Input
from engine.trade.quick import exactly, quick, several, several_exactly
from engine.trade.taking import Taken, take

KINDS = [
    (typed, wanted)
    for wanted in ("mm", "°C", "bar", "N·m", "km/h", "L", "%", "rpm", "mm²/s", "imp qt")
    for typed in units()
    if dimension(typed) == dimension(wanted)
]
NUMBERS = st.from_regex(r"\A-?[0-9]{1,9}(\.[0-9]{1,6})?\Z")


@given(NUMBERS, st.sampled_from(KINDS), st.sampled_from(["", " "]))
def test_the_short_way_gives_what_the_long_way_gives(number: str, kind: tuple[str, str], space: str) -> None:
    """To the last bit, in whatever unit of the kind."""
    typed, unit = kind
    wanted = Input("x", "x", "x", unit)
    text = f"{number}{space}{typed}"

    short = quick(text, wanted)

    if short is not None:
        long = take("sum", wanted, text)
        assert isinstance(long, Taken)
        assert isinstance(long.values[0], Fraction)
        assert short == float(long.values[0])


@given(
    st.lists(NUMBERS, min_size=1, max_size=5),
    st.sampled_from([*KINDS, ("mm", ANY), ("in", ANY), ("°C", ANY), ("bar", ANY)]),
    st.sampled_from([", ", ",", "; "]),
    st.booleans(),
)
def test_a_list_gives_what_the_long_way_gives(
    numbers: list[str], kind: tuple[str, str], between: str, each: object
) -> None:
    """To the last bit, the unit behind each number or behind the last alone; as fractions and as floats."""
    typed, unit = kind
    wanted = Input("x", "x", "x", unit, many=2)
    text = between.join(f"{n} {typed}" for n in numbers) if each else f"{between.join(numbers)} {typed}"

    exact, floats = several_exactly(text, wanted), several(text, wanted)

    if exact is not None:
        long = take("sum", wanted, text)
        assert isinstance(long, Taken)
        assert exact == long.values
        assert floats == tuple(float(value) for value in exact)


@pytest.mark.parametrize(
    "text",
    ["1, 2, 3 mm", "1 mm; 2 mm", "1984, 1990 mm"],
)
def test_plain_lists_go_the_short_way(text: str) -> None:
    """Readings of one kind, whatever kind that is."""
    assert several_exactly(text, Input("x", "x", "x", ANY, many=2)) is not None


@pytest.mark.parametrize(
    "text",
    ["1 mm, 2 cm", "1 mm, 2", "1, 2 °C", "1", "1,5; 2 mm", "1/2, 1 in", "1, , 2 mm", "1, 2 furlong", ""],
)
def test_lists_that_take_a_second_look_go_the_long_way(text: str) -> None:
    """Several units, temperatures, too few, fractions, commas that may be points."""
    assert several_exactly(text, Input("x", "x", "x", ANY, many=2)) is None


@given(NUMBERS, st.sampled_from(KINDS))
def test_an_exact_number_is_the_long_ways(number: str, kind: tuple[str, str]) -> None:
    """As a fraction, for formulas that stay exact."""
    typed, unit = kind
    wanted = Input("x", "x", "x", unit)

    if (short := exactly(f"{number} {typed}", wanted)) is not None:
        long = take("sum", wanted, f"{number} {typed}")
        assert isinstance(long, Taken)
        assert long.values == (short,)


@given(st.text(max_size=30), st.sampled_from(["mm", "", "K", "°C"]))
def test_whatever_the_short_way_takes_the_long_way_takes(text: str, unit: str) -> None:
    """Nothing is taken that would have been refused."""
    wanted = Input("x", "x", "x", unit, least=0, most=1000)

    if quick(text, wanted) is not None:
        assert isinstance(take("sum", wanted, text), Taken)


@pytest.mark.parametrize(
    ("text", "unit", "value"),
    [("12 in", "mm", 304.8), ("30", "N·m", 30), ("68 °F", "°C", 20), ("3.5", "", 3.5)],
)
def test_plain_numbers_go_the_short_way(text: str, unit: str, value: float) -> None:
    """With or without a unit, points on a scale of temperature among them."""
    assert quick(text, Input("x", "x", "x", unit)) == value


@pytest.mark.parametrize(
    ("text", "unit"),
    [
        ("1,5", "mm"), ("1/2 in", "mm"), ("1e3", "mm"), ("12 kPa", "mm"), ("12 qt", "imp qt"), ("60 °C", "K"),
        ("3 mm", ""), ("5", "mm"), ("0", "mm"), ("10", "mm"), ("12", "mm"), ("١٢", "mm"), ("", "mm"),
    ],
)  # fmt: skip
def test_what_takes_a_second_look_goes_the_long_way(text: str, unit: str) -> None:
    """Two meanings, fractions, wrong kinds, differences of temperature, and what is on a bound or beyond."""
    assert quick(text, Input("x", "x", "x", unit, least=5, most=10)) is None
