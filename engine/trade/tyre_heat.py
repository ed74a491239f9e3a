"""What unlike tyres do to the coupling over the road speeds: how fast it slips, and the heat of it."""

from collections.abc import Sequence
from typing import Final

from engine.trade.calculator import Calculator, Input, Output
from engine.trade.coupling_slip import from_mismatch
from engine.trade.coupling_torque import rad_s
from engine.trade.inputs import Values
from engine.trade.plot import Plot


def drag(rpm: float, damping: float) -> float:
    """Torque of a coupling whose fluid does not thin, in N·m; damping in N·m·s/rad. Formula: T = c w.

    >>> round(drag(30.26, 55.949))
    177
    """
    return damping * rad_s(rpm)


def heat(rpm: float, damping: float) -> float:
    """Heat of a coupling whose fluid does not thin, in W. Formula: P = T w = c w².

    Twice the slip, be it of twice the mismatch or twice the speed, is four times the heat.

    >>> round(heat(30.26, 55.949)), round(heat(15.13, 55.949))
    (562, 140)
    """
    return drag(rpm, damping) * rad_s(rpm)


def _over(
    mismatch: float, speeds: Sequence[float], *, circumference: float, ratio: float, damping: float
) -> Values:
    slips = tuple(from_mismatch(mismatch, speed, circumference, ratio).coupling for speed in speeds)
    return slips, tuple(drag(one, damping) for one in slips), tuple(heat(one, damping) for one in slips)


CALCULATORS: Final = (
    Calculator(
        name="mismatch-heat",
        family="tyres",
        title="Slip and heat of the coupling over speed, from a mismatch",
        inputs=(
            Input("mismatch", "m", "Mismatch of the axles", "%", least=0, most=30),
            Input(
                "speeds",
                "v",
                "Road speeds",
                "km/h",
                least=0,
                most=300,
                many=1,
                default="20, 40, 60, 80, 100, 120",
            ),
            Input("circumference", "C", "Rolled in one turn of a wheel", "mm", least=500, most=4000),
            Input("ratio", "i", "Coupling turns a turn of the wheel", "", least=0.2, most=10, default="3.5"),
            Input(
                "damping",
                "c",
                "Torque of the coupling for its slip",
                "N·m·s/rad",
                least=0,
                most=10_000,
                default="55.949",
            ),
        ),
        outputs=(
            Output("slips", "dn", "Slip at each speed", "rpm"),
            Output("torques", "T", "Torque at each speed", "N·m"),
            Output("heats", "P", "Heat at each speed", "W"),
        ),
        function=_over,
        formula=("dn = v / C · m / 100 % · i", "T = 2 pi c dn", "P = 2 pi dn T"),
        source="kinematics; Newtonian shear of a plate pack",
        mark="computed",
        valid="An upper bound: the fluid of a coupling thins as it slips and warms, so torque and heat fall"
        " behind. The damping that stands in is that of an invented unit, cold.",
        example="mismatch=1 circumference=1927.6",
        plots=(Plot("mismatch", 0, 5, "heats", by="speeds"),),
    ),
)
