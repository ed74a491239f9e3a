"""Gear oil grades by SAE J306, both ways."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.errors import Refusal
from engine.trade.oil_grades import (
    REVISIONS,
    TABLES,
    engine_grades,
    hot_grade,
    hot_range,
    industrial_grade,
    label,
    meaning,
    read_grade,
    winter_grade,
    winter_grades_for,
)

#: The limits as printed in SAE J306, February 2019.
HOT_2019 = [
    ("65", 3.8, 5.0),
    ("70", 5.0, 6.5),
    ("75", 6.5, 8.5),
    ("80", 8.5, 11.0),
    ("85", 11.0, 13.5),
    ("90", 13.5, 18.5),
    ("110", 18.5, 24.0),
    ("140", 24.0, 32.5),
    ("190", 32.5, 41.0),
]
WINTER_2019 = [("70W", -55, 3.8), ("75W", -40, 3.8), ("80W", -26, 8.5), ("85W", -12, 11.0)]


@pytest.mark.parametrize(("name", "least", "below"), HOT_2019)
def test_a_grade_owns_its_lower_limit_only(name: str, least: float, below: float) -> None:
    """At its lower limit an oil has the grade; at the upper it has the next."""
    assert hot_grade(least) == name
    assert hot_grade(below - 0.01) == name
    assert hot_grade(below) != name
    assert hot_range(name) == (least, below)


@pytest.mark.parametrize(("at_100", "name"), [(41.0, "250"), (400, "250"), (18.49, "90"), (13.49, "85")])
def test_limits_of_grades(at_100: float, name: str) -> None:
    """The thickest grade has no upper limit."""
    assert hot_grade(at_100) == name


@pytest.mark.parametrize(("revision", "at_100"), [("2019", 3.79), ("2005", 6.99), ("2005", 4.1)])
def test_too_thin_is_no_grade(revision: str, at_100: float) -> None:
    """Below the first lower limit there is no grade; the refusal says where grades start."""
    refusal = hot_grade(at_100, revision)

    assert isinstance(refusal, Refusal)
    assert "starts at" in refusal.cure


def test_the_revisions_differ() -> None:
    """7.5 mm²/s was grade 80 in 2005 (from memory) and is 75 in 2019."""
    assert (hot_grade(7.5, "2005"), hot_grade(7.5, "2019")) == ("80", "75")


@given(st.sampled_from(REVISIONS), st.floats(min_value=0, max_value=100))
def test_every_viscosity_has_one_grade_or_none(revision: str, at_100: float) -> None:
    """Grades leave no gap and do not overlap."""
    fits = [grade.name for grade in TABLES[revision].hot if grade.least <= at_100 < grade.below]
    found = hot_grade(at_100, revision)

    assert fits == ([] if isinstance(found, Refusal) else [found])


@pytest.mark.parametrize(("name", "limit", "least"), WINTER_2019)
def test_a_winter_grade_asks_for_both(name: str, limit: float, least: float) -> None:
    """Cold enough and thick enough, both limits included; short of either is another or none."""
    assert winter_grade(limit, max(least, 11.0)) == name
    assert winter_grade(limit + 0.1, 20) != name
    assert winter_grade(limit, least) == name
    assert winter_grade(limit, least - 0.1) != name


def test_a_thin_oil_has_no_winter_grade() -> None:
    """3.7 mm²/s is less than every W grade asks for, however cold it flows; so is 5 mm²/s at -30 °C."""
    refusals = [winter_grade(-60, 3.7), winter_grade(-30, 5)]

    assert all(isinstance(refusal, Refusal) for refusal in refusals)
    assert "Every one" in str(refusals[0])


def test_both_tests_make_the_label() -> None:
    """75W-90 meets the cold limit of 75W and lies in the range of 90; without the first, it is 90."""
    assert label(-40, 15) == "75W-90"
    assert label(-11, 15) == "90"
    assert isinstance(label(-40, 3), Refusal)


@pytest.mark.parametrize("typed", ["75W-90", "75w90", " SAE 75W-90", "75W/90", "sae 75w 90"])
def test_a_multigrade_tells_coldest_and_range(typed: str) -> None:
    """75W-90 serves down to -40 °C, with 13.5 to below 18.5 mm²/s at 100 °C (SAE J306)."""
    assert meaning(typed) == (-40, 13.5, 18.5)


def test_a_number_alone_promises_nothing_for_the_cold() -> None:
    """Grade 90 has no cold limit."""
    refusal = meaning("90")

    assert isinstance(refusal, Refusal)
    assert refusal.kind == "no-cold-limit"


@pytest.mark.parametrize("typed", ["15W-40", "5W-30", "40", "SAE 50", "75W-40"])
def test_engine_oil_numbers_are_told(typed: str) -> None:
    """Gear oil 90 and engine oil 50 are about as thick: the numbers are never compared."""
    refusal = read_grade(typed)

    assert isinstance(refusal, Refusal)
    assert "engine oil" in refusal.message


#: SAE J300, engine oils, mm²/s at 100 °C (40 and 50 published, the others from memory).
ENGINE = [("30", 9.3, 12.5), ("40", 12.5, 16.3), ("50", 16.3, 21.9), ("60", 21.9, 26.1)]


@pytest.mark.parametrize(("name", "least", "below"), ENGINE)
def test_an_engine_oil_owns_its_lower_limit_only(name: str, least: float, below: float) -> None:
    """As gear oils do."""
    assert engine_grades(least) == engine_grades(below - 0.01) == (name,)
    assert name not in engine_grades(below)


@given(st.floats(min_value=13.5, max_value=18.49))
def test_gear_oil_90_is_as_thick_as_engine_oil_40_or_50(at_100: float) -> None:
    """The numbers overlap in viscosity and are not to be compared (published: SAE J306 and J300)."""
    assert hot_grade(at_100) == "90"
    assert engine_grades(at_100) in {("40",), ("50",)}


@pytest.mark.parametrize("typed", ["85W-80", "80W-75", "80W-65", "85W-75"])
def test_pairs_that_contradict_themselves_are_refused(typed: str) -> None:
    """The W half asks for more than the other half ends below."""
    assert isinstance(read_grade(typed), Refusal)


@pytest.mark.parametrize("typed", ["", "W", "-", "90-75W", "75W-91", "grease", "75W-90-140", "٧٥W-90"])
def test_what_is_no_grade_is_refused(typed: str) -> None:
    """Nothing is guessed."""
    assert isinstance(read_grade(typed), Refusal)


@given(
    st.sampled_from(REVISIONS),
    st.floats(min_value=-60, max_value=0),
    st.floats(min_value=3.8, max_value=60),
)
def test_a_label_can_be_read_back(revision: str, thick_at: float, at_100: float) -> None:
    """The grade of an oil, read again, holds the oil that it was made of."""
    made = label(thick_at, at_100, revision)

    if not isinstance(made, Refusal):
        limits = hot_range(made, revision)
        assert not isinstance(limits, Refusal)
        assert limits[0] <= at_100 < limits[1]


@pytest.mark.parametrize(
    ("ambient", "first"), [(-5, "85W"), (-12, "85W"), (-13, "80W"), (-26, "80W"), (-27, "75W"), (-55, "70W")]
)
def test_the_coldest_day_names_the_grade(ambient: float, first: str) -> None:
    """The thickest grade that still flows comes first."""
    grades = winter_grades_for(ambient)

    assert not isinstance(grades, Refusal)
    assert grades[0] == first


def test_beyond_every_grade_the_unit_is_warmed() -> None:
    """Below -55 °C no grade serves."""
    refusal = winter_grades_for(-56)

    assert isinstance(refusal, Refusal)
    assert "warm" in refusal.cure


@pytest.mark.parametrize(
    ("at_40", "name"), [(90, "100"), (110, "100"), (198, "220"), (242, "220"), (4.14, "5"), (3520, "3200")]
)
def test_an_industrial_grade_reaches_ten_per_cent(at_40: float, name: str) -> None:
    """VG 100 is 90 to 110 and VG 220 is 198 to 242 mm²/s (ISO 3448)."""
    assert industrial_grade(at_40) == name


@pytest.mark.parametrize("at_40", [89.9, 110.1, 197.9, 242.1])
def test_between_industrial_grades_there_is_none(at_40: float) -> None:
    """An oil may have no ISO VG number."""
    assert isinstance(industrial_grade(at_40), Refusal)
