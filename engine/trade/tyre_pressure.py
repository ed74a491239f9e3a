"""Whether four tyres are at their pressure, and what a warm tyre has when it is cold.

A soft tyre rolls shorter: before tyres are compared, each pair has to be at one pressure.
"""

from collections.abc import Sequence
from typing import Final

from engine.errors import Refusal
from engine.trade.calculator import Calculator, Input, Output
from engine.trade.inputs import Values
from engine.trade.tyre_wear import CORNERS

#: Of the air outside, bar; ISO 2533, sea level.
AIR: Final = 1.01325
_ZERO: Final = 273.15


def at_temperature(pressure: float, warm: float, cold: float) -> float:
    """The pressure of a tyre at another temperature of the air in it; bar on the gauge, °C.

    Formula: (p + 1.01325) T2 / T1 - 1.01325, T in kelvin. Source: ideal gas at constant volume (textbook).

    About a tenth of a bar for every ten degrees:

    >>> round(at_temperature(2.3, 30, 20), 2)
    2.19
    """
    return (pressure + AIR) * (cold + _ZERO) / (warm + _ZERO) - AIR


def off(pressures: Sequence[float], front: float, rear: float) -> tuple[float, ...]:
    """By how much each tyre is above what is wanted, in bar; front left, front right, rear left, right.

    >>> [round(one, 2) for one in off([2.2, 2.1, 2.4, 2.2], 2.2, 2.2)]
    [0.0, -0.1, 0.2, 0.0]
    """
    return tuple(have - want for have, want in zip(pressures, (front, front, rear, rear), strict=True))


def advice(differences: Sequence[float], spreads: Sequence[float], tolerance: float, apart: float) -> str:
    """What to do about tyres that differ so from what is wanted, and so across each axle; all in bar.

    >>> advice([0.0, -0.3, 0.0, 0.0], [0.3, 0.0], 0.1, 0.2)
    'Correct front right; the pair in front is too far apart to measure by.'
    """
    wrong = [corner for corner, one in zip(CORNERS, differences, strict=True) if abs(one) > tolerance + 1e-9]
    axles = [
        axle for axle, one in zip(("in front", "at the rear"), spreads, strict=True) if one > apart + 1e-9
    ]
    if not wrong and not axles:
        return "All four are as wanted."
    told = f"Correct {', '.join(wrong)}" if wrong else "Bring each pair to one pressure"
    pairs = " and ".join(f"the pair {axle}" for axle in axles)
    return (
        f"{told}; {pairs} {'is' if len(axles) == 1 else 'are'} too far apart to measure by."
        if axles
        else f"{told}."
    )


def _check(
    pressures: Sequence[float],
    *,
    front: float,
    rear: float | None,
    air: float,
    tolerance: float,
    apart: float,
) -> Values | Refusal:
    if len(pressures) != 4:
        order = ", ".join(CORNERS)
        return Refusal("four-tyres", f"Four tyres are wanted; {len(pressures)} given.", f"Give {order}.")
    cold = [at_temperature(one, air, 20) for one in pressures]
    found = off(cold, front, front if rear is None else rear)
    spreads = (abs(cold[0] - cold[1]), abs(cold[2] - cold[3]))
    return advice(found, spreads, tolerance, apart), found, *spreads


_BAR: Final = (0.5, 8.0)
CALCULATORS: Final = (
    Calculator(
        name="inflation",
        family="tyres",
        title="Whether four tyres are at their pressure",
        inputs=(
            Input(
                "pressures",
                "p",
                "On the gauge: front left, front right, rear left, rear right",
                "bar",
                least=0,
                most=8,
                many=4,
            ),
            Input("front", "pf", "Wanted in front, at 20 °C", "bar", *_BAR),
            Input(
                "rear", "pr", "Wanted at the rear, at 20 °C; else as in front", "bar", *_BAR, optional=True
            ),
            Input("air", "t", "Temperature of the air in the tyres", "°C", least=-40, most=120, default="20"),
            Input("tolerance", "tol", "How far off a tyre may be", "bar", least=0, most=1, default="0.1"),
            Input("apart", "s", "How far apart a pair may be", "bar", least=0, most=1, default="0.2"),
        ),
        outputs=(
            Output("advice", "advice", "What to do", "text"),
            Output("off", "d", "Above what is wanted, at 20 °C", "bar"),
            Output("front-apart", "sf", "Pair in front apart by", "bar"),
            Output("rear-apart", "sr", "Pair at the rear apart by", "bar"),
        ),
        function=_check,
        formula=("d = (p + 1.01325) 293.15 / (t + 273.15) - 1.01325 - wanted",),
        source="ideal gas at constant volume (textbook); 0.1 and 0.2 bar: common practice, no source",
        mark="common-practice",
        valid="For tyres of one vehicle, all at one temperature. What is wanted stands on the sheet.",
        example="pressures='2.2, 2.1, 2.4, 2.2' front=2.2",
    ),
    Calculator(
        name="tyre-pressure",
        family="tyres",
        title="Pressure of a tyre at another temperature",
        inputs=(
            Input("pressure", "p1", "On the gauge now", "bar", least=0, most=12),
            Input("now", "t1", "Temperature of the air in it now", "°C", least=-40, most=120),
            Input("then", "t2", "Temperature it is wanted for", "°C", least=-40, most=120, default="20"),
        ),
        outputs=(Output("pressure", "p2", "On the gauge then", "bar"),),
        function=lambda pressure, now, then: (at_temperature(pressure, now, then),),
        formula=("p2 = (p1 + 1.01325) (t2 + 273.15) / (t1 + 273.15) - 1.01325",),
        source="ideal gas at constant volume (textbook)",
        mark="published",
        valid="At sea level, for a tyre that has lost no air; its volume hardly changes.",
        example="pressure='34 psi' now='86 °F'",
    ),
)
