"""Which readings try a limit, and from which side: one mark of the gauge more would carry them across."""

from fractions import Fraction

import pytest

from engine.errors import Refusal
from engine.interview.reading import taken
from engine.interview.state import State
from engine.model.tree import Measure
from engine.proof.sides import mark, sides, tried, words
from tests.engine.interview.given import measuring, tree, walk

OWNED_BELOW = "{upto: 6, then: ended}, {over: 6, then: other}"
OWNED_ABOVE = "{below: 6, then: ended}, {from: 6, then: other}"
NARROW = "{below: 6, then: ended}, {from: 6, upto: 6.2, then: other}, {over: 6.2, then: ended}"
SPREAD = """
    first:
      measure: Roll the tyres.
      readings: {gauge: rule, unit: mm, plausible: [1500, 2500], each: [left, right, spare]}
      figure: spread
      bands: [{upto: sheet.tyres.spread.max, then: ended}, {over: sheet.tyres.spread.max, then: ended}]
      unsure: ended
    """


def by(state: State, **typed: str) -> set[tuple[int, str]]:
    """The ends of bands that these readings try at the open step."""
    step = state.step
    assert isinstance(step, Measure)
    read = taken(step, typed)
    assert not isinstance(read, Refusal)
    first = {name: values[0] for name, values in read.items()}
    return set(tried(step, first, state.sheet, state.library.shop.gauges))


@pytest.mark.parametrize(
    ("bands", "typed", "ends"),
    [
        pytest.param(OWNED_BELOW, "6", {(0, "high")}, id="on the limit, in the band that holds it"),
        pytest.param(OWNED_BELOW, "5.5", set(), id="one mark more is still on the limit"),
        pytest.param(OWNED_BELOW, "6.5", {(1, "low")}, id="the first mark above"),
        pytest.param(OWNED_BELOW, "7", set(), id="the second mark above"),
        pytest.param(OWNED_BELOW, "5.6", {(0, "high")}, id="typed between two marks"),
        pytest.param(OWNED_ABOVE, "6", {(1, "low")}, id="on the limit, held by the upper band"),
        pytest.param(OWNED_ABOVE, "5.5", {(0, "high")}, id="the first mark below"),
        pytest.param(OWNED_ABOVE, "6.5", set(), id="one mark less is still on the limit"),
        pytest.param(NARROW, "6", {(1, "low"), (1, "high")}, id="both limits within one mark"),
        pytest.param(NARROW, "6.5", {(2, "low")}, id="above both limits"),
    ],
)
def test_a_side_is_tried_one_mark_from_its_limit(bands: str, typed: str, ends: set[tuple[int, str]]) -> None:
    """On a rule of half millimetres, with limits at 6 mm (and 6.2 mm)."""
    assert by(measuring(bands), x=typed) == ends


@pytest.mark.parametrize(
    ("typed", "ends"), [("0.23", {(0, "high")}), ("0.21", set()), ("0.25", {(1, "low")})]
)
def test_a_mark_counts_in_the_unit_of_the_reading(typed: str, ends: set[tuple[int, str]]) -> None:
    """Half a millimetre is 0.0197 inch."""
    bands = "{upto: 0.24, then: ended}, {over: 0.24, then: other}"

    assert by(measuring(bands, unit="in"), x=typed) == ends


def test_a_mark_of_a_thermometer_is_a_difference() -> None:
    """Half a degree Celsius is 0.9 degrees Fahrenheit, and not 32.9."""
    state = measuring("{upto: 6, then: ended}, {over: 6, then: other}", unit="°F", gauge="probe")
    assert isinstance(state.step, Measure)

    assert mark(state.step.readings[0], state.library.shop.gauges["probe"]) == Fraction(9, 10)


def test_a_limit_of_the_sheet_is_tried_on_its_vehicle() -> None:
    """The wagon's bearing may have 0.2 mm."""
    limit = "sheet.bearing.end-play.max"
    state = measuring(f"{{upto: {limit}, then: ended}}, {{over: {limit}, then: other}}")

    assert (by(state, x="0.2"), by(state, x="0.7")) == ({(0, "high")}, {(1, "low")})


@pytest.mark.parametrize(
    ("left", "ends"),
    [("2006", {(0, "high")}), ("2005.5", set()), ("2006.5", {(1, "low")}), ("2007.5", set())],
)
def test_a_figure_is_tried_where_one_reading_carries_it_across(left: str, ends: set[tuple[int, str]]) -> None:
    """Of three tyres, two read 2000 mm; a quarter of an inch of spread is 6.35 mm."""
    assert by(walk(tree(SPREAD)), left=left, right="2000", spare="2000") == ends


def test_an_outermost_end_is_no_limit() -> None:
    """Nothing below 0 is believed, so the lower end of the first band parts it from nothing."""
    state = measuring("{from: 0, upto: 6, then: ended}, {over: 6, then: other}")
    assert isinstance(state.step, Measure)

    assert (sides(state.step), by(state, x="0")) == (((0, "high"), (1, "low")), set())


def test_a_side_is_told_in_words() -> None:
    """A number with its unit, a value of the sheet by its name."""
    plain, named = "6", "sheet.bearing.end-play.max"
    told = []
    for limit in (plain, named):
        step = measuring(f"{{upto: {limit}, then: ended}}, {{over: {limit}, then: other}}").step
        assert isinstance(step, Measure)
        told += [words(step, side) for side in sides(step)]

    assert told == [
        "6 mm, from below",
        "6 mm, from above",
        f"{named}, from below",
        f"{named}, from above",
    ]
