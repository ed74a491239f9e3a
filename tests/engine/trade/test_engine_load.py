"""What a parking brake holds and what an engine is loaded with, against worked figures."""

import shlex
from math import hypot

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.errors import Refusal
from engine.quantity import Quantity
from engine.trade.calculator import Sum, compute
from engine.trade.engine_load import at_crank, friction, of_power
from engine.trade.parking_brake import hold
from engine.trade.registry import find

#: Calculator, what is typed, output, figure, tolerance (mark: computed; the gradient of 20 % from memory).
ROWS = [
    ("parking-brake-hold", "mass=1600 radius=306", "force", 3077, 0.5),
    ("parking-brake-hold", "mass=1600 radius=306", "torque", 942, 0.5),
    ("parking-brake-hold", "mass=1600 radius=306", "each", 471, 0.5),
    ("parking-brake-hold", "mass=1600 radius=306 ratio=3.5", "shaft", 942 / 3.5, 0.2),
    ("engine-friction", "pressure='1.0 bar' displacement='2.0 L'", "torque", 15.92, 0.005),
    ("engine-friction", "pressure=1 displacement=2 speed=800", "power", 1333, 0.5),
    ("torque-of-power", "power='1.5 kW' speed=800", "torque", 17.9, 0.05),
]


@pytest.mark.parametrize(("name", "typed", "output", "figure", "tolerance"), ROWS)
def test_worked_figures(name: str, typed: str, output: str, figure: float, tolerance: float) -> None:
    """As computed, to the digits that are given."""
    calculator = find(name)
    assert calculator is not None

    made = compute(calculator, dict(word.split("=", 1) for word in shlex.split(typed)))

    assert isinstance(made, Sum)
    value = made.outputs[output]
    assert isinstance(value, Quantity)
    assert float(value.value) == pytest.approx(figure, abs=tolerance)


@given(st.floats(500, 4000), st.floats(1, 60))
def test_the_force_lies_along_the_road(mass: float, gradient: float) -> None:
    """A gradient is rise over run, not over the road."""
    assert hold(mass, 300, gradient).force == pytest.approx(mass * 9.80665 * gradient / hypot(100, gradient))


@given(st.floats(0, 3000), st.floats(2, 6), st.floats(0.6, 5), st.floats(50, 100))
def test_power_at_the_crank_is_power_at_the_wheels_and_the_loss(
    torque: float, axle: float, gear: float, efficiency: float
) -> None:
    """Torque times turns, less the loss, is the same at both ends."""
    crank = at_crank(torque, axle, gear, efficiency)

    assert crank * axle * gear * efficiency / 100 == pytest.approx(torque)


@given(st.floats(0, 3), st.floats(0.5, 6), st.floats(300, 6000))
def test_friction_is_the_torque_of_its_power(pressure: float, displacement: float, speed: float) -> None:
    """Power and torque agree at every speed."""
    torque, power = friction(pressure, displacement, speed)

    assert of_power(power, speed) == pytest.approx(torque)


def test_an_engine_at_rest_gives_no_power() -> None:
    """Refused, and not divided by nothing."""
    assert isinstance(of_power(1500, 0), Refusal)
