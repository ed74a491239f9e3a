"""Shims by arithmetic: which thickness gives the end play or the preload that is wanted.

All lengths in mm, temperatures in °C. Play and preload are never mixed: a play is more than nothing, a
preload (interference) is more than nothing too, and has functions of its own. Decimals are taken as typed,
so that a shim that lies on a limit lies on it.
"""

from collections.abc import Sequence
from fractions import Fraction
from math import sqrt
from typing import Final

from engine.errors import Refusal
from engine.trade.answers import single
from engine.trade.calculator import Calculator, Input, Output
from engine.trade.inputs import Values

Number = float | Fraction
Window = tuple[Fraction, Fraction]
#: Readings of one play may differ by so much (common practice).
SPREAD: Final = 0.02
#: Linear expansion per K, from memory: the usual case, and the steel of shafts and bearings.
ALUMINIUM: Final = 23e-6
STEEL: Final = 11.5e-6


def exact(value: Number) -> Fraction:
    """The number as it was written, to twelve digits: 0.1 is a tenth, and 0.1 + 0.2 three of them.

    >>> exact(0.1)
    Fraction(1, 10)
    """
    return value if isinstance(value, Fraction) else Fraction(f"{float(value):.12g}")


def shim_for_play(fitted: Number, play: Number, target: Number) -> Fraction | Refusal:
    """The shim for an end play: s = s0 + e - e_target.

    `fitted` s0 is the shim that was in while `play` e was measured; 0 where none was. Source: arithmetic.
    Refuses a play of less than nothing, and a target that no shim can reach.

    >>> float(shim_for_play(0.65, 0.30, 0.08))
    0.87
    """
    return _not_below(fitted, play, exact(target), "play")


def window_for_play(fitted: Number, play: Number, least: Number, most: Number) -> Window | Refusal:
    """The thinnest and the thickest shim that keep an end play between `least` and `most`.

    [s0 + e - e_max, s0 + e - e_min]; a thinnest of less than nothing means that no shim at all would do
    too. Source: arithmetic. Refuses what cannot be: with no shim in, a play below the least is a bearing
    that is not seated or a shim that was overlooked, not a shim of less than nothing.

    >>> [float(limit) for limit in window_for_play(0.65, 0.30, 0.03, 0.10)]
    [0.85, 0.92]
    """
    if exact(least) < 0 or exact(most) < exact(least):
        return _no_window("An end play", least, most)
    thick = _not_below(fitted, play, exact(least), "play")
    if isinstance(thick, Refusal):
        return thick
    return thick - (exact(most) - exact(least)), thick


def shim_for_preload(fitted: Number, play: Number, preload: Number) -> Fraction | Refusal:
    """The shim for a preload p, as interference: s = s0 + e + p.

    The end play is measured first, always; a preload cannot be measured with a dial. Source: arithmetic.

    >>> float(shim_for_preload(0.65, 0.30, 0.20))
    1.15
    """
    if exact(preload) < 0:
        cure = "Give the interference as a number above nothing; for an end play use the sum for that."
        return Refusal("sign", "A preload is not less than nothing.", cure)
    return _not_below(fitted, play, -exact(preload), "preload")


def window_for_preload(fitted: Number, play: Number, least: Number, most: Number) -> Window | Refusal:
    """The thinnest and the thickest shim for a preload between `least` and `most`.

    >>> [float(limit) for limit in window_for_preload(0.65, 0.30, 0.15, 0.20)]
    [1.1, 1.15]
    """
    if exact(least) < 0 or exact(most) < exact(least):
        return _no_window("A preload", least, most)
    thin = shim_for_preload(fitted, play, least)
    if isinstance(thin, Refusal):
        return thin
    return thin, thin + exact(most) - exact(least)


def play_with(fitted: Number, play: Number, new: Number) -> Fraction:
    """The end play that another shim will leave, s0 + e - s; less than nothing is a preload.

    >>> float(play_with(0.65, 0.30, 0.90))
    0.05
    """
    return exact(fitted) + exact(play) - exact(new)


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


def _not_below(fitted: Number, play: Number, target: Fraction, kind: str) -> Fraction | Refusal:
    """The shim for a play (a preload is a play of less than nothing), refused where nothing can be so."""
    if exact(play) < 0 or exact(fitted) < 0:
        message = "A measured end play or a fitted shim is never less than nothing."
        return Refusal("sign", message, "Zero the dial at one end of the travel, and give the travel.")
    found = exact(fitted) + exact(play) - target
    if found < 0:
        message = (
            f"The play of {float(play):g} mm is less than the least, with a shim of {float(fitted):g} mm"
        )
        message += f" taken away: the {kind} would need a shim of less than nothing."
        cure = "Stop: see whether a bearing is not seated or a shim was left in, and measure again."
        return Refusal("impossible", message, cure)
    return found


def _no_window(what: str, least: Number, most: Number) -> Refusal:
    message = f"{what} cannot lie between {float(least):g} and {float(most):g} mm."
    return Refusal("window", message, "Give the smaller limit first, and neither below nothing.")


def _with_limits(nominal: Fraction | Refusal, limits: Window | Refusal) -> Values | Refusal:
    """The shim asked for and the window around it."""
    if isinstance(limits, Refusal):
        return limits
    return nominal if isinstance(nominal, Refusal) else (nominal, *limits)


def _for_play(
    fitted: Number, play: Number, least: Number, most: Number, target: Number | None
) -> Values | Refusal:
    wanted = (exact(least) + exact(most)) / 2 if target is None else target
    return _with_limits(shim_for_play(fitted, play, wanted), window_for_play(fitted, play, least, most))


def _for_preload(
    fitted: Number, play: Number, least: Number, most: Number, target: Number | None
) -> Values | Refusal:
    wanted = (exact(least) + exact(most)) / 2 if target is None else target
    return _with_limits(shim_for_preload(fitted, play, wanted), window_for_preload(fitted, play, least, most))


def _readings(
    readings: tuple[Number, ...], uncertainty: Number, spread: Number, least: Number, most: Number
) -> Values | Refusal:
    found = mean_play(readings, spread)
    if isinstance(found, Refusal):
        return found
    return (*found, judged(found[0], uncertainty, least, most))


FITTED: Final = Input("fitted", "s0", "Shim in while the play was measured; 0 for none", "mm", 0, 50)
PLAY: Final = Input("play", "e", "End play measured", "mm", least=0, most=10)
LIMITS: Final = (
    Input("least", "e1", "Least play allowed", "mm", least=0, most=10),
    Input("most", "e2", "Most play allowed", "mm", least=0, most=10),
)
PRELOADS: Final = (
    Input("least", "p1", "Least preload, as interference", "mm", least=0, most=2),
    Input("most", "p2", "Most preload, as interference", "mm", least=0, most=2),
)
_WINDOW: Final = (
    Output("thinnest", "s1", "Thinnest that may be", "mm"),
    Output("thickest", "s2", "Thickest that may be", "mm"),
)
_EXPANSION: Final = (
    Input("housing", "ah", "Expansion of the housing", "ppm/K", 0, 50, default="23 ppm/K"),
    Input("shaft", "as", "Expansion of the shaft", "ppm/K", 0, 50, default="11.5 ppm/K"),
)
SEATED: Final = (
    "With the rollers seated by turning both ways; play above nothing, preload never mixed with it."
)

CALCULATORS: Final = (
    Calculator(
        name="end-play-shim",
        family="shims",
        title="Shim for an end play",
        inputs=(
            FITTED,
            PLAY,
            *LIMITS,
            Input("target", "et", "Play wanted; the middle where left out", "mm", 0, 10, optional=True),
        ),
        outputs=(Output("shim", "s", "Shim", "mm"), *_WINDOW),
        function=_for_play,
        formula=("s = s0 + e - et", "s1 = s0 + e - e2", "s2 = s0 + e - e1"),
        source="arithmetic",
        mark="computed",
        valid=SEATED + " Less than nothing means that no shim would do.",
        example="fitted=0.65 play=0.30 least=0.03 most=0.10 target=0.08",
        exact=True,
    ),
    Calculator(
        name="preload-shim",
        family="shims",
        title="Shim for a bearing preload",
        inputs=(
            FITTED,
            PLAY,
            *PRELOADS,
            Input("target", "p", "Preload wanted; the middle where left out", "mm", 0, 2, optional=True),
        ),
        outputs=(Output("shim", "s", "Shim", "mm"), *_WINDOW),
        function=_for_preload,
        formula=("s = s0 + e + p", "s1 = s0 + e + p1", "s2 = s0 + e + p2"),
        source="arithmetic",
        mark="computed",
        valid=SEATED + " The play is measured first, with a shim thin enough to leave one.",
        example="fitted=0.65 play=0.30 least=0.15 most=0.25 target=0.20",
        exact=True,
    ),
    Calculator(
        name="end-play-with",
        family="shims",
        title="End play that another shim leaves",
        inputs=(FITTED, PLAY, Input("new", "s", "Other shim or stack, measured", "mm", least=0, most=50)),
        outputs=(Output("play", "e′", "End play; less than nothing is a preload", "mm"),),
        function=lambda fitted, play, new: (play_with(fitted, play, new),),
        formula=("e′ = s0 + e - s",),
        source="arithmetic",
        mark="computed",
        valid=SEATED,
        example="fitted=0.65 play=0.30 new=0.90",
        exact=True,
    ),
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
