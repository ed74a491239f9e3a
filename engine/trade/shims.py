"""Shims by arithmetic: which thickness gives the end play or the preload that is wanted.

All lengths in mm, temperatures in °C. Play and preload are never mixed: a play is more than nothing, a
preload (interference) is more than nothing too, and has functions of its own. Decimals are taken as typed,
so that a shim that lies on a limit lies on it.
"""

from fractions import Fraction
from typing import Final

from engine.errors import Refusal
from engine.trade.calculator import Calculator, Input, Output
from engine.trade.inputs import Values

Number = float | Fraction
Window = tuple[Fraction, Fraction]


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
)
