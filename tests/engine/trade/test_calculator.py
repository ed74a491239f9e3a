"""The door of the calculators: what it takes, what it refuses with which cure, and how it writes a sum."""

from fractions import Fraction
from math import cos, inf, radians

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.errors import Refusal
from engine.quantity import Quantity, convert
from engine.trade.calculator import Calculator, Given, Input, Output, Sum, compute


def setting(torque: float, length: float, extension: float, angle: float) -> tuple[float]:
    """The setting of a torque wrench with an extension."""
    return (torque * length / (length + extension * cos(radians(angle))),)


WRENCH = Calculator(
    name="wrench",
    family="bolts",
    title="Setting of a torque wrench with an extension",
    inputs=(
        Input("torque", "T", "Torque at the bolt", "N·m", least=1, most=1000),
        Input("length", "L", "Wrench, hand to drive", "mm", least=50, most=2000),
        Input("extension", "E", "Extension, centre to centre", "mm", least=0, most=500),
        Input("angle", "a", "Angle from straight on", "°", least=0, most=180, default="0"),
    ),
    outputs=(Output("setting", "S", "What to set", "N·m"),),
    function=setting,
    formula=("S = T L / (L + E cos a)",),
    source="torque-wrench extension formula (textbook)",
    mark="published",
    valid="For an extension on the drive. A straight socket extension changes nothing.",
)


def warm(rise: float, kind: str, note: str | None, shares: tuple[float, ...]) -> tuple[float, str, None]:
    """Something of every kind."""
    return (rise * sum(shares), f"{kind}/{note}", None)


MIXED = Calculator(
    name="mixed",
    family="oils",
    title="Something of every kind",
    inputs=(
        Input("rise", "dT", "How much warmer", "K", most=200),
        Input("kind", "k", "Which oil", "word", choices=("gear", "engine")),
        Input("note", "n", "Any text", "text", optional=True),
        Input("shares", "w", "Shares", "", least=0, many=2),
    ),
    outputs=(
        Output("sum", "s", "The sum", "K"),
        Output("words", "W", "The words", "text"),
        Output("never", "N", "Nothing", "mm"),
    ),
    function=warm,
    formula=("s = dT sum(w)",),
    source="arithmetic",
    mark="computed",
    valid="Always.",
)
STRAIGHT: dict[str, Given] = {"torque": "30 N·m", "length": "12 in", "extension": "6 in"}


def done(calculator: Calculator, given: dict[str, Given], **units_out: str) -> Sum:
    """The sum, which must come out."""
    made = compute(calculator, given, units_out)
    assert isinstance(made, Sum), made
    return made


def result(more: dict[str, Given], **units_out: str) -> tuple[float, str]:
    """The setting and its unit, for the wrench straight on."""
    made = done(WRENCH, {**STRAIGHT, **more}, **units_out).outputs["setting"]
    assert isinstance(made, Quantity)
    return float(made.value), made.unit


def refused(calculator: Calculator, given: dict[str, Given], **units_out: str) -> Refusal:
    """The refusal, which must come out."""
    made = compute(calculator, given, units_out)
    assert isinstance(made, Refusal)
    return made


def test_units_are_converted_at_the_door() -> None:
    """The published case: 30 with 12 and 6 long is set to 20, in whatever units."""
    value, unit = result({})

    assert value == pytest.approx(20)
    assert unit == "N·m"


@pytest.mark.parametrize("torque", ["30", "30,0 Nm", Quantity(Fraction(30), "N·m"), 30, 30.0, Fraction(30)])
def test_a_value_may_come_as_text_number_or_quantity(torque: Given) -> None:
    """A bare number is in the unit of the input."""
    assert result({"torque": torque})[0] == pytest.approx(20)


def test_an_output_comes_in_the_unit_asked_for() -> None:
    """20 N·m are 14.75 lbf·ft."""
    value, unit = result({}, setting="ft-lb")

    assert value == pytest.approx(14.75124)
    assert unit == "lbf·ft"


def test_the_sum_is_written_as_a_person_would() -> None:
    """Inputs as typed and as reckoned with, the formula, the same with figures, the result with its unit."""
    assert done(WRENCH, STRAIGHT).lines == (
        "T = 30 N·m  (Torque at the bolt)",
        "L = 12 in = 304.8 mm  (Wrench, hand to drive)",
        "E = 6 in = 152.4 mm  (Extension, centre to centre)",
        "a = 0°  (Angle from straight on)",
        "S = T L / (L + E cos a)",
        "  = 30 N·m · 304.8 mm / (304.8 mm + 152.4 mm · cos 0°)",
        "  = 20 N·m",
    )


def test_inputs_go_by_their_symbols_too() -> None:
    """T, L and E as in the formula."""
    assert done(WRENCH, {"T": "30", "L": "12 in", "E": "6 in"}) == done(
        WRENCH, {"torque": "30", "length": "12 in", "extension": "6 in"}
    )


@pytest.mark.parametrize(
    ("more", "kind", "words", "cure"),
    [
        ({"torque": "30 mm"}, "other-dimension", "torque: `mm` is a length", "Give it in `N·m`"),
        ({"torque": "thirty"}, "no-number", "torque: `thirty`", "Write a number"),
        ({"torque": "30 Nn"}, "unknown-unit", "no unit `Nn`", "Did you mean"),
        ({"torque": "3000"}, "outside", "3000 N·m is outside", "Did you mean 3000 lbf·in or 300 N·m"),
        ({"torque": "0.5"}, "outside", "0.5 N·m", "Give 1 N·m to 1000 N·m."),
        ({"length": "20"}, "outside", "20 mm", "Did you mean 20 in"),
        ({"tork": "30"}, "unknown-input", "no input `tork`", "Did you mean `torque`?"),
        ({"torque": ("30", "40")}, "one-value", "not a list", "Give one."),
        ({"torque": inf}, "no-number", "`inf`", "Give a number."),
        ({"torque": Quantity(Fraction(1), "mm")}, "other-dimension", "1 mm", "Give it in `N·m`."),
    ],
)
def test_what_cannot_be_taken_is_refused_with_its_cure(
    more: dict[str, Given], kind: str, words: str, cure: str
) -> None:
    """Each slip gets its own word for programs, what is wrong, and what to do."""
    found = refused(WRENCH, {**STRAIGHT, **more})

    assert found.kind == kind
    assert words in found.message
    assert cure in found.cure


def test_a_slip_is_told_before_what_is_missing() -> None:
    """Whoever types one input after the other hears of it at once."""
    found = refused(WRENCH, {"length": "30 N·m"})

    assert found.kind == "other-dimension"
    assert found.message.startswith("length: ")


def test_all_that_is_missing_is_told_at_once() -> None:
    """Nobody is asked for one input after the other."""
    found = refused(WRENCH, {"torque": "30"})

    assert found.kind == "missing"
    assert "`length`" in found.message
    assert "`extension`" in found.message
    assert found.cure == "Give length=NUMBER mm extension=NUMBER mm."


@pytest.mark.parametrize(
    ("unit", "kind"), [("mm", "other-dimension"), ("furlong", "unknown-unit"), ("; N·m", "unknown-unit")]
)
def test_an_output_does_not_come_in_any_unit(unit: str, kind: str) -> None:
    """A setting is a torque."""
    assert refused(WRENCH, STRAIGHT, setting=unit).kind == kind


def test_an_unknown_output_is_told() -> None:
    """The nearest name is offered."""
    assert refused(WRENCH, STRAIGHT, seting="N·m").cure == "Did you mean `setting`?"


OF_ALL: dict[str, Given] = {"rise": "60", "kind": "Gear", "note": "cold", "shares": "0,5; 1"}


def test_words_texts_lists_and_differences_are_taken() -> None:
    """Words in any capitals, a list with decimal commas, and what does not apply left out."""
    made = done(MIXED, OF_ALL)

    assert made.outputs == {"sum": Quantity(Fraction(90), "K"), "words": "gear/cold"}
    assert made.inputs["shares"] == (Fraction(1, 2), Fraction(1))
    assert made.lines[-1] == "The words: gear/cold"


@pytest.mark.parametrize(("typed", "kelvin"), [("60 K", 60), ("60 °C", 60), ("108 °F", 60), ("0 °C", 0)])
def test_a_difference_of_temperatures_has_no_zero_point(typed: str, kelvin: int) -> None:
    """60 degrees Celsius warmer is 60 K, and not 333."""
    made = done(MIXED, {**OF_ALL, "rise": typed, "shares": "1, 0"})

    assert made.outputs["sum"] == Quantity(Fraction(kelvin), "K")


def test_a_difference_is_not_told_as_a_temperature() -> None:
    """90 K warmer is not -183 °C warmer."""
    assert refused(MIXED, OF_ALL, sum="°C").kind == "other-dimension"


@pytest.mark.parametrize(
    ("more", "kind", "cure"),
    [
        ({"kind": "gera"}, "unknown-word", "Did you mean `gear`?"),
        ({"shares": "1"}, "too-few", "Give at least 2 values"),
        ({"shares": "1, -1"}, "outside", "Give no less than 0."),
        ({"shares": "1 mm, 2 mm"}, "other-dimension", "Leave it out."),
        ({"shares": "1, , 2"}, "no-number", "Write a number, as in `12.5`."),
        ({"rise": "1,234"}, "ambiguous", "Write `1.234 K` or `1234 K`."),
    ],
)
def test_words_and_lists_are_refused_with_their_cure(more: dict[str, Given], kind: str, cure: str) -> None:
    """A word that is none, and a list that is none."""
    found = refused(MIXED, {**OF_ALL, **more})

    assert found.kind == kind
    assert cure in found.cure


def test_a_list_takes_its_last_unit_for_all() -> None:
    """`1984, 1990 mm` are two lengths."""
    taker = WRENCH._replace(
        inputs=(Input("rolled", "x", "Rolled", "mm", many=2),),
        function=lambda rolled: (sum(rolled),),
        formula=("S = sum(x)",),
    )

    assert done(taker, {"rolled": "1 , 2 in"}).inputs["rolled"] == (
        Quantity(Fraction(1), "in"),
        Quantity(Fraction(2), "in"),
    )


@pytest.mark.parametrize("result", [inf, -inf, float("nan")])
def test_a_sum_without_end_is_refused(result: float) -> None:
    """No infinity and no not-a-number gets out."""
    endless = WRENCH._replace(function=lambda **_: (result,))

    assert refused(endless, STRAIGHT).kind == "no-number"


def test_a_refusal_of_the_function_is_handed_on() -> None:
    """The formula may know better than the bounds."""
    no = Refusal("never", "Not so.", "Do otherwise.")

    assert compute(WRENCH._replace(function=lambda **_: no), STRAIGHT) == no


def test_an_exact_function_gets_fractions() -> None:
    """A tenth stays a tenth."""
    exact = WRENCH._replace(function=lambda torque, **_: (torque,), exact=True)

    assert done(exact, {**STRAIGHT, "torque": "1.1"}).outputs["setting"] == Quantity(Fraction(11, 10), "N·m")


def test_a_bound_is_the_decimal_that_is_written() -> None:
    """1.1 is within a bound of 1.1, which as a binary number lies a little above."""
    inputs = (WRENCH.inputs[0]._replace(least=1.1, most=1.2), *WRENCH.inputs[1:])

    for torque in ("1.1", "1.2"):
        done(WRENCH._replace(inputs=inputs), {**STRAIGHT, "torque": torque})


@given(
    st.dictionaries(st.sampled_from(["torque", "length", "extension", "angle", "x"]), st.text(max_size=50))
)
def test_any_text_is_taken_or_refused(typed: dict[str, str]) -> None:
    """Nothing that is typed ends in an exception."""
    assert isinstance(compute(WRENCH, typed), Sum | Refusal)


@given(st.fractions(1, 1000, max_denominator=1000), st.sampled_from(["N·m", "lbf·ft", "lbf·in", "kgf·m"]))
def test_the_unit_typed_does_not_matter(torque: Fraction, unit: str) -> None:
    """The same torque in another unit gives the same setting."""
    plain = done(WRENCH, {**STRAIGHT, "torque": Quantity(torque, "N·m")})
    other = done(WRENCH, {**STRAIGHT, "torque": convert(Quantity(torque, "N·m"), unit)})

    assert plain.outputs == other.outputs


def test_a_line_of_what_was_left_out_is_left_out() -> None:
    """Without a note there is no formula of it."""
    lone = MIXED._replace(formula=("s = dT sum(w)", "N = 2 n"))
    given_all = done(lone, OF_ALL).lines
    without = done(lone, {name: value for name, value in OF_ALL.items() if name != "note"}).lines

    assert "N = 2 n" in given_all
    assert "N = 2 n" not in without
