"""Levels of oil hot and cold, and how much to fill."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.errors import Refusal
from engine.trade.oil_level import below_hole, density_at, growth, missing, refill, rise, top_up, volume_at

DEGREES = st.floats(min_value=-40, max_value=150)
LITRES = st.floats(min_value=0.1, max_value=20)
SURFACES = st.floats(min_value=20, max_value=2000)


def test_a_hundred_litres_grow_by_a_litre_and_a_half() -> None:
    """100 L from 20 to 40 °C at 7.0e-4 per K: + 1.4 L (published, general engineering tables)."""
    assert growth(100, 20, 40, 7.0e-4) == pytest.approx(1.4, abs=1e-9)


def test_the_smaller_expansion_of_other_tables() -> None:
    """100 L from 20 to 40 °C at 6.4e-4 per K, as petroleum tables have it: + 1.28 L (from memory)."""
    assert growth(100, 20, 40, 6.4e-4) == pytest.approx(1.28, abs=1e-9)


def test_a_drum_grows_by_seven_litres() -> None:
    """200 L over 50 K: about 7 L (published by a laboratory)."""
    assert growth(200, 20, 70) == pytest.approx(7, abs=0.05)


def test_a_litre_warmed_by_sixty_degrees() -> None:
    """1 L from 20 to 80 °C: 1.042 L, and 2.1 mm on 200 cm² (computed)."""
    assert volume_at(1, 20, 80) == pytest.approx(1.042, abs=5e-4)
    assert rise(1, 200, 20, 80) == pytest.approx(2.1, abs=0.05)


def test_a_warm_oil_is_lighter() -> None:
    """880 kg/m³ at 15 °C is 841.7 at 80 °C (computed)."""
    assert density_at(880, 15, 80) == pytest.approx(841.7, abs=0.05)


@given(LITRES, SURFACES, DEGREES, DEGREES)
def test_a_level_read_hot_reads_high(volume: float, surface: float, one: float, other: float) -> None:
    """Where the check is colder than the reading, the oil will stand lower, and never the other way."""
    hot, cold = max(one, other), min(one, other)
    checked = below_hole(5, volume, surface, hot, cold)

    assert not isinstance(checked, Refusal)
    assert checked >= 5


@given(LITRES, SURFACES, DEGREES, DEGREES, st.floats(min_value=-20, max_value=80))
def test_the_correction_is_undone_on_the_way_back(
    volume: float, surface: float, one: float, other: float, read: float
) -> None:
    """Corrected to another temperature and back, a level is what was read."""
    there = below_hole(read, volume, surface, one, other)
    assert not isinstance(there, Refusal)

    assert below_hole(there, volume, surface, other, one) == pytest.approx(read, abs=1e-6)


@given(LITRES, DEGREES, DEGREES)
def test_mass_stays(volume: float, one: float, other: float) -> None:
    """Density times volume is the same at both temperatures."""
    density = density_at(880, one, other)
    assert not isinstance(density, Refusal)

    assert density * volume_at(volume, one, other) == pytest.approx(880 * volume)


@given(LITRES, st.floats(min_value=0, max_value=1), DEGREES, DEGREES, DEGREES)
def test_a_full_unit_misses_nothing(
    capacity: float, share: float, sheet: float, fill: float, hot: float
) -> None:
    """What was filled by the sum and drains hot, all but what stays, leaves nothing missing."""
    stays = capacity * share
    filled = refill(capacity, stays, sheet, fill)
    assert not isinstance(filled, Refusal)
    on_the_sheet = (capacity - stays) * 1.0
    drained = on_the_sheet / (1 + 7.0e-4 * (sheet - hot))

    assert filled == pytest.approx(volume_at(on_the_sheet, sheet, fill))
    assert missing(capacity, stays, drained, sheet, hot) == pytest.approx(0, abs=1e-9)


def test_what_fills_up_to_the_hole() -> None:
    """10 mm below the hole over 200 cm² is a fifth of a litre; above the hole it runs out."""
    assert top_up(10, 200) == pytest.approx(0.2)
    assert top_up(-10, 200) == pytest.approx(-0.2)


@pytest.mark.parametrize(
    "refusal",
    [
        rise(1, 0, 20, 80),
        below_hole(5, 1, 0, 20, 80),
        top_up(5, 0),
        refill(2, 2.1, 20, 20),
        refill(2, -0.1, 20, 20),
        missing(2, 3, 1, 20, 20),
        missing(2, 0.2, -1, 20, 20),
        density_at(880, 150, -40, 0.01),
    ],
    ids=str,
)
def test_what_cannot_be_is_refused(refusal: object) -> None:
    """No surface, more left behind than there is, a drain of less than nothing: refused with the cure."""
    assert isinstance(refusal, Refusal)
    assert refusal.cure
