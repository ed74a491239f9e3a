"""Viscosity at other temperatures, viscosity index and mixtures, against published figures and a library."""

import pytest
from chemicals.viscosity import viscosity_index as oracle
from hypothesis import given
from hypothesis import strategies as st

from engine.errors import Refusal
from engine.trade.viscosity import mixed, temperature_for, viscosity_at, walther
from engine.trade.viscosity_index import reference, viscosity_index

#: nu40, nu100, index; printed as whole numbers. First two: ASTM D2270, worked examples. The rest: computed.
INDEX = [
    (73.30, 8.86, 92),
    (22.83, 5.05, 156),
    (53.47, 7.80, 111),
    (105, 15.0, 149),
    (140, 14.5, 102),
    (360, 26.0, 96),
    (34, 7.3, 188),
    (29, 6.0, 159),
]
#: nu40, nu100, temperature, viscosity; computed by ASTM D341.
AT = [
    (105, 15.0, 0, 1123),
    (105, 15.0, 20, 292.8),
    (105, 15.0, 80, 25.06),
    (105, 15.0, 120, 9.83),
    (140, 14.5, 0, 2649),
    (140, 14.5, 20, 489.5),
    (140, 14.5, 80, 25.97),
    (140, 14.5, 120, 9.05),
    (360, 26.0, 0, 10729),
    (360, 26.0, 20, 1532),
    (360, 26.0, 80, 51.02),
    (360, 26.0, 120, 15.11),
    (34, 7.3, 0, 215.8),
    (34, 7.3, 20, 75.7),
    (34, 7.3, 80, 11.00),
    (34, 7.3, 120, 5.19),
    (29, 6.0, 0, 204.2),
    (29, 6.0, 20, 67.0),
    (29, 6.0, 80, 9.09),
    (29, 6.0, 120, 4.26),
]
THICK = st.floats(min_value=20, max_value=2000)
THINNING = st.floats(min_value=3, max_value=15)


def got(value: float | Refusal) -> float:
    """The number, where it is not refused."""
    assert not isinstance(value, Refusal), value
    return value


@pytest.mark.parametrize(("at_40", "at_100", "index"), INDEX)
def test_the_index_is_the_published_whole_number(at_40: float, at_100: float, index: int) -> None:
    """ASTM D2270 gives 92 and 156 for its examples; typical oils agree with the computed figures."""
    assert round(got(viscosity_index(at_40, at_100))) == index


def test_the_indices_before_they_are_rounded() -> None:
    """92.4296 by the first procedure and 156.42 by the second (computed by an independent library)."""
    assert viscosity_index(73.30, 8.86) == pytest.approx(92.4296, abs=5e-5)
    assert viscosity_index(22.83, 5.05) == pytest.approx(156.42, abs=5e-3)


def test_both_procedures_meet_at_a_hundred() -> None:
    """An oil as thick at 40 °C as the better reference oil has the index 100, by either (ASTM D2270)."""
    thick = reference(10)[1]

    assert viscosity_index(thick + 1e-9, 10) == pytest.approx(100, abs=1e-6)
    assert viscosity_index(thick - 1e-9, 10) == pytest.approx(100, abs=1e-6)


@pytest.mark.parametrize(("at_100", "low", "high"), [(75.0, 5582.8125, 1739.0), (100.0, 9604.0, 2772.0)])
def test_above_seventy_the_references_are_parabolas(at_100: float, low: float, high: float) -> None:
    """L = 0.8353 Y² + 14.67 Y - 216, H = 0.1684 Y² + 11.85 Y - 97 (published, ASTM D2270; computed)."""
    assert reference(at_100) == pytest.approx((low, high), abs=0.01)


def test_the_reference_figures_are_those_of_the_standard() -> None:
    """ASTM D2270 prints L 119.94 and H 69.48 at 8.86 mm²/s, and H 28.97 at 5.05."""
    assert reference(8.86) == pytest.approx((119.94, 69.48), abs=0.005)
    assert reference(5.05)[1] == pytest.approx(28.97, abs=0.0051)


@given(st.floats(2, 150).filter(lambda it: abs(it - 70) > 1e-9), st.floats(1.3, 30))
def test_the_index_agrees_with_an_independent_library(at_100: float, ratio: float) -> None:
    """Any oil gets the index that an independent library computes.

    Not one of exactly 70 mm²/s: the table of the standard ends there, and that library has left it already.
    """
    expected = oracle(at_100 * ratio * 1e-6, at_100 * 1e-6)

    assert got(viscosity_index(at_100 * ratio, at_100)) == pytest.approx(expected, rel=1e-9, abs=1e-6)


def test_below_two_there_is_no_index() -> None:
    """ASTM D2270 does not define the index of an oil below 2 mm²/s at 100 °C."""
    refusal = viscosity_index(6, 1.99)

    assert isinstance(refusal, Refusal)
    assert "not defined" in refusal.message
    with pytest.raises(ValueError, match="row"):
        reference(1.99)


def test_a_swapped_pair_has_no_index() -> None:
    """An oil that is thicker when hot is two figures swapped."""
    refusal = viscosity_index(8.86, 73.3)

    assert isinstance(refusal, Refusal)
    assert "swapped" in refusal.cure


def test_the_worked_example_of_the_equation() -> None:
    """The published example, which counts 0 °C as 273 K: A 9.5259, B 3.7449, 8.5 mm²/s at 80 °C."""
    assert walther(40, 32, 100, 5.4, zero=273) == pytest.approx((9.5259, 3.7449), abs=5e-5)
    assert viscosity_at(80, 40, 32, 100, 5.4, zero=273) == pytest.approx(8.53310, abs=5e-6)


def test_the_exact_zero_differs_in_the_fourth_digit() -> None:
    """With 273.15 K: A 9.53082, B 3.74658, 8.5332 mm²/s (computed)."""
    assert walther(40, 32, 100, 5.4) == pytest.approx((9.53082, 3.74658), abs=5e-6)
    assert viscosity_at(80, 40, 32, 100, 5.4) == pytest.approx(8.5332, abs=5e-5)


@pytest.mark.parametrize(("at_40", "at_100", "temperature", "expected"), AT)
def test_an_oil_at_another_temperature(
    at_40: float, at_100: float, temperature: float, expected: float
) -> None:
    """Typical gear oils and fluids, to the digits of the computed table."""
    assert viscosity_at(temperature, 40, at_40, 100, at_100) == pytest.approx(expected, rel=1.2e-3)


@given(THICK, THINNING, st.floats(min_value=-20, max_value=150), st.floats(min_value=0.5, max_value=20))
def test_oil_thins_as_it_warms(thick: float, thinning: float, start: float, step: float) -> None:
    """A warmer oil is never thicker, where both temperatures lie in the range of the equation."""
    pair = (40, thick, 100, thick / thinning)
    cold, warm = viscosity_at(start, *pair), viscosity_at(start + step, *pair)

    assert isinstance(cold, Refusal) or isinstance(warm, Refusal) or warm < cold


@given(THICK, THINNING, st.floats(min_value=0, max_value=110))
def test_temperature_and_viscosity_go_both_ways(thick: float, thinning: float, at: float) -> None:
    """The temperature for a viscosity is the one that gave it, to a hundredth of a degree."""
    pair = (40, thick, 100, max(thick / thinning, 2.5))
    viscosity = viscosity_at(at, *pair)

    if not isinstance(viscosity, Refusal) and viscosity > 2:
        assert temperature_for(viscosity, *pair) == pytest.approx(at, abs=0.05)


@pytest.mark.parametrize("value", [0.21, 0.5, 1.0, 1.5, 2.0])
def test_thin_fluids_come_back_within_the_equations_own_error(value: float) -> None:
    """Below 2 mm²/s the standard's way back is an approximation, good to two parts in ten thousand."""
    assert viscosity_at(40, 20, value * 2, 40, value) == pytest.approx(value, rel=2e-4)


@pytest.mark.parametrize(
    ("pair", "kind"),
    [
        ((40, 32, 40, 5.4), "same-temperature"),
        ((40, 5.4, 100, 32), "no-oil"),
        ((40, 32, 100, 0.2), "outside"),
        ((40, 3e7, 100, 5.4), "outside"),
    ],
)
def test_what_is_no_oil_is_refused(pair: tuple[float, float, float, float], kind: str) -> None:
    """Each impossible pair is refused by all three functions, with its kind and a cure."""
    found = (walther(*pair), viscosity_at(80, *pair), temperature_for(10, *pair))

    assert [refusal.kind for refusal in found if isinstance(refusal, Refusal)] == [kind] * 3


@pytest.mark.parametrize("temperature", [-300, -120, 5000])
def test_beyond_the_equation_nothing_is_computed(temperature: float) -> None:
    """Below absolute zero, frozen solid, or thinner than any liquid: refused, not extrapolated."""
    assert isinstance(viscosity_at(temperature, 40, 140, 100, 14.5), Refusal)


def test_a_mixture_is_thinner_than_the_plain_average() -> None:
    """Half of 15 and half of 7.3 mm²/s make 10.254 (computed from the equation as remembered)."""
    assert mixed([15, 7.3], [1, 1]) == pytest.approx(10.254, abs=5e-4)


@given(st.lists(st.tuples(THICK, st.floats(min_value=0.01, max_value=10)), min_size=1, max_size=5))
def test_a_mixture_lies_between_its_parts(parts: list[tuple[float, float]]) -> None:
    """No mixture is thinner than its thinnest part or thicker than its thickest."""
    oils, shares = zip(*parts, strict=True)

    assert min(oils) * (1 - 1e-9) <= got(mixed(oils, shares)) <= max(oils) * (1 + 1e-9)


@pytest.mark.parametrize(
    ("oils", "shares"), [([15, 7], [1]), ([15, 7], [1, -1]), ([15, 7], [0, 0]), ([15, 0.1], [1, 1])]
)
def test_a_mixture_of_nothing_is_refused(oils: list[float], shares: list[float]) -> None:
    """Shares that are missing, negative or all nothing make no mixture, nor do fluids out of range."""
    assert isinstance(mixed(oils, shares), Refusal)
