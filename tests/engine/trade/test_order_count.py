"""Orders counted from a frequency: row 16 of the worked figures, and what turns not at all."""

import pytest

from engine.errors import Refusal
from engine.trade.calculator import Sum, compute
from engine.trade.order_count import engine_order, road_order
from engine.trade.registry import find

#: Hz at 100 km/h with 1.9276 m and 3.5 turns: wheel, shaft, joints (computed); turns of wheel and shaft.
ROWS = [(14.41, 1, 0.2857), (50.44, 3.5, 1), (100.87, 7, 2)]


@pytest.mark.parametrize("row", ROWS, ids=lambda row: f"{row[0]} Hz")
def test_a_frequency_at_a_hundred(row: tuple[float, ...]) -> None:
    """Each part's own frequency is a whole order of it."""
    hertz, wheel, shaft = row

    assert road_order(hertz, 100, 1927.6, 3.5) == pytest.approx((wheel, shaft), rel=0.001)


@pytest.mark.parametrize(("hertz", "order"), [(20, 0.5), (40, 1), (80, 2)])
def test_an_engine_at_2400(hertz: float, order: float) -> None:
    """2400 rpm are 40 turns a second: half of it is one cylinder, twice of it four cylinders firing."""
    assert engine_order(hertz, 2400) == (order,)


def test_at_rest_nothing_has_an_order() -> None:
    """A vehicle that stands is refused, not divided by."""
    assert isinstance(road_order(50, 0, 1927.6, 3.5), Refusal)
    assert isinstance(engine_order(50, 0), Refusal)


def test_the_shaft_is_counted_by_its_own_ratio() -> None:
    """The same frequency is another order of a shaft that turns faster."""
    calculator = find("road-order")
    assert calculator is not None
    given = {"frequency": "50", "speed": "100", "circumference": "1927.6", "ratio": "3.9 per turn"}
    made = compute(calculator, given)

    assert isinstance(made, Sum)
    assert float(made.outputs["shaft"].value) == pytest.approx(0.8897, abs=0.0001)  # type: ignore[union-attr]  # reason: a quantity
