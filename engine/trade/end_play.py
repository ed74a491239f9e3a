"""An end play as it is measured: several readings and their spread, its uncertainty, what heat makes of it.

Lengths in mm, temperatures in °C. Decimals are taken as typed, so that a play on a limit lies on it.
"""

from collections.abc import Sequence
from fractions import Fraction
from math import sqrt
from typing import Final

from engine.errors import Refusal
from engine.trade.answers import single
from engine.trade.calculator import Calculator, Input, Output
from engine.trade.inputs import Values
from engine.trade.shims import LIMITS, SEATED, Number, exact

#: Readings of one play may differ by so much (common practice).
SPREAD: Final = 0.02
#: Linear expansion per K, from memory: the usual case, and the steel of shafts and bearings.
ALUMINIUM: Final = 23e-6
STEEL: Final = 11.5e-6
_EXPANSION: Final = (
    Input("housing", "ah", "Expansion of the housing", "ppm/K", 0, 50, default="23 ppm/K"),
    Input("shaft", "as", "Expansion of the shaft", "ppm/K", 0, 50, default="11.5 ppm/K"),
)


def mean_play(readings: Sequence[Number], spread: Number = SPREAD) -> tuple[Fraction, Fraction] | Refusal:
    """The mean of three readings or more and their spread; refuses readings that lie too far apart.

    Turn the shaft several times both ways before each reading, so that the rollers seat. Source: common
    practice.

    >>> [float(figure) for figure in mean_play([0.10, 0.11, 0.12])]
    [0.11, 0.02]
    """
    if len(readings) < 3:
        message = f"{len(readings)} readings are too few to trust a play."
        return Refusal("few", message, "Turn the shaft and measure until there are three.")
    values = [exact(reading) for reading in readings]
    apart = max(values) - min(values)
    if apart > exact(spread):
        message = f"The readings lie {float(apart):g} mm apart; {float(spread):g} mm are allowed."
        cure = (
            "Seat the rollers by turning the shaft several times both ways, see to the dial, and begin again."
        )
        return Refusal("spread", message, cure)
    return sum(values, Fraction(0)) / len(values), apart


def together(*parts: Number) -> float:
    """Independent uncertainties of one sum: the square root of the sum of their squares.

    >>> together(0.03, 0.04)
    0.05
    """
    return sqrt(sum(float(part) ** 2 for part in parts))


def judged(play: Number, uncertainty: Number, least: Number, most: Number) -> str:
    """Whether a play lies within its limits: `within`, `outside`, or `measure again` where it is too close.

    Within: play and uncertainty together lie in the limits; outside: they lie beyond. Source: the guard
    bands of ISO 14253-1, with the uncertainty as it is given.

    >>> judged(0.06, 0.02, 0.03, 0.10), judged(0.04, 0.02, 0.03, 0.10), judged(0.13, 0.02, 0.03, 0.10)
    ('within', 'measure again', 'outside')
    """
    low, high = exact(play) - exact(uncertainty), exact(play) + exact(uncertainty)
    if exact(least) <= low and high <= exact(most):
        return "within"
    return "outside" if high < exact(least) or low > exact(most) else "measure again"


def play_change(
    length: Number, start: Number, end: Number, housing: Number = ALUMINIUM, shaft: Number = STEEL
) -> Fraction:
    """By how much an end play grows as the unit warms: L (a_housing - a_shaft) (t2 - t1), in mm.

    `length` between the bearings. An aluminium case outgrows its steel shaft: a cold preload becomes a play.
    Source: arithmetic; the coefficients, per K, are from memory.

    >>> float(play_change(150, 20, 80))
    0.1035
    """
    return exact(length) * (exact(housing) - exact(shaft)) * (exact(end) - exact(start))


def _readings(
    readings: tuple[Number, ...], uncertainty: Number, spread: Number, least: Number, most: Number
) -> Values | Refusal:
    found = mean_play(readings, spread)
    if isinstance(found, Refusal):
        return found
    return (*found, judged(found[0], uncertainty, least, most))


CALCULATORS: Final = (
    Calculator(
        name="end-play-readings",
        family="shims",
        title="End play from several readings",
        inputs=(
            Input("readings", "e", "Readings, the shaft turned between them", "mm", 0, 10, many=3),
            Input("uncertainty", "u", "Uncertainty of the mean", "mm", 0, 1, default="0.01 mm"),
            Input("spread", "r", "Furthest that they may lie apart", "mm", 0, 1, default="0.02 mm"),
            *LIMITS,
        ),
        outputs=(
            Output("play", "em", "Mean", "mm"),
            Output("apart", "d", "Largest minus smallest", "mm"),
            Output("answer", "answer", "Against its limits", "text"),
        ),
        function=_readings,
        formula=("within: e1 <= em - u and em + u <= e2",),
        source="ISO 14253-1 for the limits; three readings and 0.02 mm are common practice",
        mark="common-practice",
        valid=SEATED,
        example="readings='0.06, 0.07, 0.065' least=0.03 most=0.10",
        exact=True,
    ),
    Calculator(
        name="end-play-uncertainty",
        family="shims",
        title="Uncertainty of an end play",
        inputs=(Input("parts", "u", "Uncertainty of dial, shim, ...", "mm", 0, 1, many=2),),
        outputs=(Output("uncertainty", "U", "Together", "mm"),),
        function=lambda parts: (together(*parts),),
        formula=("U: square root of the sum of u²",),
        source="JCGM 100, independent parts",
        mark="published",
        valid="For parts that do not depend on each other.",
        example="parts='0.008, 0.006'",
    ),
    Calculator(
        name="end-play-heat",
        family="shims",
        title="End play gained as the unit warms",
        inputs=(
            Input("length", "L", "Between the bearings", "mm", least=0, most=2_000),
            Input("cold", "t1", "Temperature when it was set", "°C", -60, 60, default="20 °C"),
            Input("warm", "t2", "Temperature at work", "°C", -60, 250),
            *_EXPANSION,
        ),
        outputs=(Output("change", "de", "Play gained", "mm"),),
        function=lambda length, cold, warm, housing, shaft: single(
            play_change(length, cold, warm, exact(housing) / 1_000_000, exact(shaft) / 1_000_000)
        ),
        formula=("de = L (ah - as) (t2 - t1)",),
        source="arithmetic; the coefficients, aluminium on steel, from memory",
        mark="computed",
        valid="Housing and shaft equally warm. A cold preload in an aluminium case becomes play when hot.",
        example="length=150 warm=80",
        exact=True,
    ),
)
