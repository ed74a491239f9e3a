"""Torque and preload of a bolt by the one factor K: quick, and good to a third either way.

Torques in N·m, forces in kN, lengths in mm.
"""

from typing import Final

from engine.errors import Refusal
from engine.trade.answers import single
from engine.trade.calculator import Calculator, Input, Output

_K: Final = Input("factor", "K", "0.20 dry, 0.15 lubricated", "", least=0.05, most=0.5, default="0.2")
_DIAMETER: Final = Input("diameter", "d", "Nominal diameter", "mm", least=1, most=64)


def by_factor(preload: float, diameter: float, factor: float) -> float:
    """The torque for a preload by the short formula T = K d F, in N·m.

    Source: machine-design textbooks; K 0.20 dry as supplied, 0.15 lubricated, 0.12 with grease that is made
    for it. Good to a third either way; it is for judging a figure, not for setting one.

    >>> round(by_factor(25.23, 10, 0.20), 1)
    50.5
    """
    return factor * diameter * preload


def factor_preload(torque: float, diameter: float, factor: float) -> float | Refusal:
    """The preload in kN that a torque makes: F = T / (K d).

    >>> factor_preload(50, 10, 0.20)
    25.0
    """
    if factor <= 0 or diameter <= 0:
        return Refusal("factor", "K and the diameter are more than nothing.", "K lies between 0.1 and 0.3.")
    return torque / (factor * diameter)


CALCULATORS: Final = (
    Calculator(
        name="torque-by-factor",
        family="bolts",
        title="Torque for a preload, by the factor K",
        inputs=(Input("preload", "F", "Preload", "kN", least=0, most=2_000), _DIAMETER, _K),
        outputs=(Output("torque", "T", "Torque", "N·m"),),
        function=lambda preload, diameter, factor: (by_factor(preload, diameter, factor),),
        formula=("T = K d F",),
        source="machine-design textbooks",
        mark="published",
        valid="Good to a third either way. A locking compound, oil or a new coating changes K.",
        example="preload=25.23 diameter=10",
    ),
    Calculator(
        name="preload-by-factor",
        family="bolts",
        title="Preload of a torque, by the factor K",
        inputs=(Input("torque", "T", "Torque", "N·m", least=0, most=10_000), _DIAMETER, _K),
        outputs=(Output("preload", "F", "Preload", "kN"),),
        function=lambda torque, diameter, factor: single(factor_preload(torque, diameter, factor)),
        formula=("F = T / (K d)",),
        source="machine-design textbooks",
        mark="published",
        valid="Good to a third either way. A locking compound, oil or a new coating changes K.",
        example="torque=50 diameter=10",
    ),
)
