"""Load indices and speed symbols against published figures."""

from itertools import pairwise
from math import log10

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.errors import Refusal
from engine.quantity import Quantity
from engine.trade.calculator import Sum, compute
from engine.trade.registry import find
from engine.trade.tyre_service import LAST, OPEN, SPEEDS, index_for, load_at, load_of, speed_of

#: Load index and kg, UN R30 annex 4 (published).
LOADS = [
    (0, 45), (1, 46.2), (19, 77.5), (20, 80), (29, 103), (39, 136), (46, 170), (49, 185), (59, 243),
    (60, 250), (62, 265), (69, 325), (75, 387), (79, 437), (82, 475), (88, 560), (91, 615), (95, 690),
    (99, 775), (100, 800), (109, 1030), (112, 1120), (119, 1360), (120, 1400), (125, 1650),
    (142, 2650), (165, 5150), (168, 5600),
]  # fmt: skip
#: The whole table of UN R30 annex 4 from index 0 to 125 (published).
PRINTED = """
45 46.2 47.5 48.7 50 51.5 53 54.5 56 58 60 61.5 63 65 67 69 71 73 75 77.5
80 82.5 85 87.5 90 92.5 95 97.5 100 103 106 109 112 115 118 121 125 128 132 136
140 145 150 155 160 165 170 175 180 185 190 195 200 205 212 218 224 230 236 243
250 257 265 272 280 290 300 307 315 325 335 345 355 365 375 387 400 412 425 437
450 462 475 487 500 515 530 545 560 580 600 615 630 650 670 690 710 730 750 775
800 825 850 875 900 925 950 975 1000 1030 1060 1090 1120 1150 1180 1215 1250 1285 1320 1360
1400 1450 1500 1550 1600 1650
"""
#: Speed symbol and km/h, UN R30 and R54 (published).
SYMBOLS = [
    ("A1", 5), ("A2", 10), ("A3", 15), ("A4", 20), ("A5", 25), ("A6", 30), ("A7", 35), ("A8", 40),
    ("B", 50), ("C", 60), ("D", 65), ("E", 70), ("F", 80), ("G", 90), ("J", 100),
    ("K", 110),
    ("L", 120), ("M", 130), ("N", 140), ("P", 150), ("Q", 160), ("R", 170), ("S", 180), ("T", 190),
    ("U", 200), ("H", 210), ("V", 240), ("W", 270), ("Y", 300), ("(Y)", 300), ("ZR", 240),
]  # fmt: skip


def loads() -> list[float]:
    """The load of every index there is."""
    every = [load_of(index) for index in range(LAST + 1)]
    return [load for load in every if not isinstance(load, Refusal)]


@pytest.mark.parametrize(("index", "kg"), LOADS)
def test_a_load_index_is_the_load_in_the_table(index: int, kg: float) -> None:
    """As published, to the digit."""
    assert load_of(index) == kg


def test_the_printed_table_is_whole() -> None:
    """126 entries, to the digit."""
    assert loads()[:126] == [float(kg) for kg in PRINTED.split()]


def test_every_index_has_its_load_and_each_carries_more() -> None:
    """280 entries, rising: the 165 kg that a public table prints for index 62 would not."""
    found = loads()

    assert len(found) == 280
    assert all(low < high for low, high in pairwise(found))


def test_the_series_follows_its_decade() -> None:
    """The load is about 45 kg · 10^(index / 80), within 1.94 % up to 125 and 2 % beyond (computed)."""
    off = [abs(kg / (45 * 10 ** (index / 80)) - 1) for index, kg in enumerate(loads())]

    assert max(off[:126]) == pytest.approx(0.0194, abs=5e-5)
    assert max(off[126:]) < 0.02
    assert log10(loads()[-1] / loads()[199]) == pytest.approx(1)


@given(st.integers(0, LAST))
def test_the_lowest_index_for_a_load_is_its_own(index: int) -> None:
    """From index to load and back."""
    load = load_of(index)

    assert not isinstance(load, Refusal)
    assert index_for(load) == index


@pytest.mark.parametrize("index", [-1, 280, 91.5, 1e6])
def test_an_index_outside_the_table_is_refused(index: float) -> None:
    """There is nothing between two indices, and nothing beyond 279."""
    assert isinstance(load_of(index), Refusal)


def test_no_tyre_carries_everything() -> None:
    """A load beyond the last index is refused."""
    assert isinstance(index_for(1e6), Refusal)


@pytest.mark.parametrize(("symbol", "speed"), SYMBOLS)
def test_a_speed_symbol_is_the_speed_in_the_table(symbol: str, speed: float) -> None:
    """As published; H stands out of order."""
    assert speed_of(symbol) == speed


def test_there_are_thirty_one_symbols() -> None:
    """With (Y) and ZR, whose upper end is open."""
    assert len(SPEEDS) == 31
    assert set(SPEEDS) >= OPEN


@pytest.mark.parametrize("symbol", ["I", "O", "X", "A9", "", "HH"])
def test_a_letter_that_is_none_is_refused(symbol: str) -> None:
    """I, O and X were never given out."""
    assert isinstance(speed_of(symbol), Refusal)


@pytest.mark.parametrize(
    ("symbol", "speed", "part"),
    [("V", 210, 1), ("V", 240, 0.91), ("V", 225, 0.955), ("W", 240, 1), ("W", 270, 0.85), ("H", 210, 1)],
)
def test_fast_tyres_carry_less(symbol: str, speed: float, part: float) -> None:
    """V 91 % at 240 km/h, W 85 % at 270, in a straight line between (published, UN R30)."""
    assert load_at(91, symbol, speed) == pytest.approx(615 * part)


def test_a_tyre_is_not_driven_beyond_its_symbol() -> None:
    """An H tyre at 211 km/h is refused."""
    assert isinstance(load_at(91, "H", 211), Refusal)


def test_what_is_not_asked_is_not_told() -> None:
    """Without a symbol there is a load alone."""
    calculator = find("tyre-service")
    assert calculator is not None

    made = compute(calculator, {"load-index": "91"})

    assert isinstance(made, Sum)
    assert made.outputs == {"load": Quantity(615, "kg")}  # type: ignore[arg-type]  # reason: an int is as exact
