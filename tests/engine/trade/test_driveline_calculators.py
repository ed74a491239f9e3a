"""Couplings, differentials, joints and shafts as they are asked for at the keyboard."""

import shlex

import pytest

from engine.errors import Refusal
from engine.quantity import Quantity
from engine.trade.calculator import Sum, compute
from engine.trade.registry import find

PACK = "inner=35 outer=55 gap=0.25 gaps=40 viscosity=29.1"

#: Calculator, what is typed, output, its figure and the tolerance that it is known to (mark: computed).
ROWS = [
    ("coupling-torque", f"slip=10 {PACK}", "torque", 58.59, 5e-4),
    ("coupling-torque", f"slip=10 {PACK}", "power", 61.36, 5e-3),
    ("coupling-torque", "slip=10 " + PACK.replace("55", "'5.5 cm'"), "damping", 55.949, 5e-4),
    ("coupling-torque-cross", f"slip=10 {PACK} stress='30 kPa'", "torque", 46.29, 5e-3),
    ("coupling-full", "fill='90 %'", "temperature", 146, 0.5),
    ("coupling-temperature", "power=200 time='10 min'", "temperature", 39.7830, 5e-5),
    ("coupling-temperature", "power=200 time=600", "time-constant", 275.2, 0.05),
    ("coupling-temperature", "power=200 time=600 start='77 °F'", "settled", 41.667, 5e-4),
    ("coupling-time", "power='31.7 kW' limit=135 loss=0", "time", 11.5, 0.05),
    ("coupling-time", "power='31.7 kW' limit=135 loss=0", "rate", 9.6, 0.05),
    ("mismatch-hour", "mismatch=0.5 speed=100 circumference=1927.6", "power", 140, 1),
    ("turn-slip", "wheelbase=2.6 radius=4.5 speed=5 circumference=1927.6", "path", 15.49, 0.01),
    ("lever-time", "damping=500 mass=5 length=1", "time", 8.98751, 5e-6),
    ("coupling-run-down", "time=0.1 damping=10 one=0.8 other=1.2 first=100", "slip", 12.4514, 5e-5),
    ("hoist-speed", "shown=30 circumference=1927.6", "free", 518.8, 0.05),
    ("axle-ratio", "turns=17.5 left=10 right=0", "ratio", 3.5, 1e-9),
    ("centre-split", "sun=40 ring=80", "sun-share", 33.3, 0.05),
    ("cardan", "joint=10", "spread", 3.062, 5e-4),
    ("cardan", "joint=5", "acceleration", 83.6, 0.05),
    ("joints-two", "first=7.3 second=0 speed=1500", "acceleration", 400.5, 0.05),
    ("joint-second", "first=6 speed=1500", "most", 9.5, 0.06),
    ("shaft-critical-speed", "outer=63.5 wall=1.65 length='1.5 m'", "critical", 4694, 0.5),
    ("towing-heat", "speed=50", "slip", 1513, 0.5),
]

#: Calculator, what is typed, and a word of the refusal.
REFUSED = [
    ("coupling-torque", "slip=10 inner=55 outer=35 gap=0.25 gaps=40 viscosity=29.1", "inner radius"),
    ("coupling-torque", "slip='10 km/h' inner=35 outer=55 gap=0.25 gaps=40 viscosity=29.1", "speed"),
    ("coupling-time", "power=200 limit=100", "settles at 42 °C"),
    ("hoist-speed", "shown=80 circumference=1927.6", "50 km/h"),
    ("lever-time", "damping=500 mass=5 length=1 start=90 end=45", "does not fall"),
    ("axle-ratio", "turns=5 left=1 right=-1", "cancel"),
    ("moving", "way=helicopter", "none of the words"),
]


def typed(line: str) -> dict[str, str]:
    """What a shell would make of it."""
    return dict(word.split("=", 1) for word in shlex.split(line))


@pytest.mark.parametrize(("name", "line", "output", "expected", "within"), ROWS)
def test_a_worked_figure_comes_out_at_the_door(
    name: str, line: str, output: str, expected: float, within: float
) -> None:
    """The figure of the table, in the unit of the calculator, however the inputs are typed."""
    calculator = find(name)
    assert calculator is not None

    found = compute(calculator, typed(line))

    assert isinstance(found, Sum), found
    value = found.outputs[output]
    assert not isinstance(value, str | tuple)
    number = value.value if isinstance(value, Quantity) else value
    assert float(number) == pytest.approx(expected, abs=within)


@pytest.mark.parametrize(("name", "line", "words"), REFUSED)
def test_what_cannot_be_is_refused_at_the_door(name: str, line: str, words: str) -> None:
    """With the reason, and with a cure."""
    calculator = find(name)
    assert calculator is not None

    found = compute(calculator, typed(line))

    assert isinstance(found, Refusal)
    assert words in str(found)
    assert found.cure
