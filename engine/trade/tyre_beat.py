"""Two wheels that turn nearly alike: how often their shaking comes and goes, and what that tells of them."""

from typing import Final

from engine.errors import Refusal
from engine.trade.answers import single
from engine.trade.calculator import Calculator, Input, Output
from engine.trade.orders import ROLLED, SPEED, TEXTBOOK, wheel_hertz


def beat(speed: float, circumference: float, mismatch: float) -> tuple[float, float] | Refusal:
    """How often in a second two unlike wheels come into step, and seconds between; km/h, mm, per cent.

    Formula: df = f m / 100, T = 1 / df. Source: kinematics. Refuses wheels that are alike or at rest.

    1 % at 100 km/h: a drone that comes and goes every seven seconds.

    >>> [round(value, 3) for value in beat(100, 1927.6, 1)]
    [0.144, 6.939]
    """
    often = wheel_hertz(speed, circumference) * abs(mismatch) / 100
    if not often:
        message = "Wheels that are alike, or at rest, never fall out of step."
        return Refusal("no-beat", message, "Give a speed and a mismatch above nothing.")
    return often, 1 / often


def mismatch_of(period: float, speed: float, circumference: float) -> float | Refusal:
    """The mismatch in per cent that makes a drone come and go every so many seconds; the way back of `beat`.

    >>> round(mismatch_of(6.939, 100, 1927.6), 3)
    1.0
    """
    wheel = wheel_hertz(speed, circumference)
    if not wheel:
        return Refusal("at-rest", "A vehicle at rest turns no wheel.", "Give a road speed above zero.")
    return 100 / (period * wheel)


def recording_time(first: float, second: float) -> float | Refusal:
    """Seconds that a recording must last to tell two frequencies apart. Formula: T = 1 / |f1 - f2|.

    >>> recording_time(14.5, 14.25)
    4.0
    """
    if first == second:
        return Refusal("alike", "Two frequencies that are alike are never told apart.", "Give two.")
    return 1 / abs(first - second)


CALCULATORS: Final = (
    Calculator(
        name="tyre-beat",
        family="orders",
        title="How often a drone of two unlike tyres comes and goes",
        inputs=(SPEED, ROLLED, Input("mismatch", "m", "Mismatch of the tyres", "%", least=0.01, most=10)),
        outputs=(
            Output("often", "df", "Comes and goes", "Hz"),
            Output("period", "T", "Time from one to the next", "s"),
        ),
        function=beat,
        formula=("df = v / C · m / 100 %", "T = 1 / df"),
        source=TEXTBOOK,
        mark="published",
        valid="For two wheels that shake alike, at a steady speed, straight ahead.",
        example="speed=100 circumference=1927.6 mismatch=1",
    ),
    Calculator(
        name="beat-mismatch",
        family="orders",
        title="Mismatch of tyres, from a drone that comes and goes",
        inputs=(
            Input("period", "T", "Time from one to the next", "s", least=0.1, most=600),
            SPEED,
            ROLLED,
        ),
        outputs=(Output("mismatch", "m", "Mismatch of the tyres", "%"),),
        function=lambda period, speed, circumference: single(mismatch_of(period, speed, circumference)),
        formula=("m = 100 % · C / (T v)",),
        source=TEXTBOOK,
        mark="published",
        valid="For two wheels that shake alike, at a steady speed, straight ahead.",
        example="period=7 speed=100 circumference=1927.6",
    ),
    Calculator(
        name="recording-time",
        family="orders",
        title="How long to record, to tell two frequencies apart",
        inputs=(
            Input("first", "f1", "One frequency", "Hz", least=0.1, most=20_000),
            Input("second", "f2", "The other frequency", "Hz", least=0.1, most=20_000),
        ),
        outputs=(Output("time", "T", "Time at least", "s"),),
        function=lambda first, second: single(recording_time(first, second)),
        formula=("T = 1 / |f1 - f2|",),
        source="resolution of a spectrum, bin width 1 / T (textbook)",
        mark="published",
        valid="For a steady speed during the whole time.",
        example="first=14.41 second=14.55",
    ),
)
