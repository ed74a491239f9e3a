"""Which shims to take from the drawer: as few as possible, and as near to the middle as they come.

Every shim adds its own tolerance to the stack, and every face between two can hold dirt; one shim is best.
All lengths in mm.
"""

from collections.abc import Iterable
from fractions import Fraction
from typing import Final, NamedTuple

from engine.errors import Refusal
from engine.trade.calculator import Calculator, Input, Output
from engine.trade.inputs import Values
from engine.trade.shim_totals import FINEST, Totals
from engine.trade.shims import (
    FITTED,
    LIMITS,
    PLAY,
    PRELOADS,
    SEATED,
    Number,
    exact,
    window_for_play,
    window_for_preload,
)

_MOST: Final = 6
_SIZES: Final = 200


class Stack(NamedTuple):
    """Shims to fit, thickest first, and how thick they are together."""

    shims: tuple[Fraction, ...]
    total: Fraction
    #: By how much the stack and the measurement may be off, at worst.
    doubt: Fraction


class Wanted(NamedTuple):
    """What a stack has to come to."""

    low: Fraction
    high: Fraction
    target: Fraction
    tolerance: Fraction
    doubt: Fraction

    def outside(self, count: int, total: Fraction) -> Fraction:
        """How far a stack may lie outside the window at worst; nothing or less where it is sure to fit."""
        off = self.doubt + count * self.tolerance
        return max(self.low + off - total, total + off - self.high)


def choose(
    catalogue: Iterable[Number],
    low: Number,
    high: Number,
    target: Number | None = None,
    *,
    tolerance: Number = 0,
    uncertainty: Number = 0,
    each: int = _MOST,
    most: int = 4,
) -> Stack | Refusal:
    """The fewest shims that lie from `low` to `high` whatever the doubt; of those, nearest to `target`.

    Without a target, nearest to the middle. `tolerance` is that of one shim (plus or minus), `uncertainty`
    that of the measured play; both shrink the window at their worst. `each` is how many of one size there
    are, `most` how many may be stacked. Of equal stacks, the one with the thickest shim. Refuses, with what
    comes nearest, where nothing fits. Source: arithmetic; every stack that could be better is looked at.

    >>> sizes = [0.50, 0.55, 0.60, 0.85, 0.90]
    >>> [float(shim) for shim in choose(sizes, 0.85, 0.92).shims]
    [0.9]
    >>> [float(shim) for shim in choose(sizes, 1.14, 1.16).shims]
    [0.6, 0.55]
    """
    sizes = sorted({exact(size) for size in catalogue}, reverse=True)
    wrong = _wrong(sizes, each, most)
    if wrong:
        return wrong
    middle = (exact(low) + exact(high)) / 2
    wanted = Wanted(
        exact(low),
        exact(high),
        middle if target is None else exact(target),
        exact(tolerance),
        exact(uncertainty),
    )
    if wanted.doubt < 0 or wanted.tolerance < 0 or wanted.outside(0, middle) > 0:
        message = "The uncertainty leaves nothing of the window."
        return Refusal("window", message, "Measure with a finer dial, more often, or look at the limits.")
    try:
        totals = Totals(sizes, most, each, max(wanted.high, wanted.target))
    except ValueError:
        message = "The thicknesses lie closer together than can be measured."
        return Refusal("catalogue", message, "Give them to a thousandth of a millimetre.")
    for count in range(most + 1):
        found = _best(totals, count, wanted)
        if found is not None:
            return found
    return _none(totals, wanted, most)


def sure_step(low: Number, high: Number, *, tolerance: Number = 0, uncertainty: Number = 0) -> Fraction:
    """The coarsest step of sizes in which one shim always fits: the window less its doubts on both sides.

    >>> float(sure_step(0.85, 0.90)), float(sure_step(0.85, 0.92, tolerance=0.005))
    (0.05, 0.06)
    """
    return exact(high) - exact(low) - 2 * (exact(tolerance) + exact(uncertainty))


def _best(totals: Totals, count: int, wanted: Wanted) -> Stack | None:
    """The stack nearest to the target, among those that are sure to fit."""
    off = wanted.doubt + count * wanted.tolerance
    fit = list(totals.nearest(count, wanted.low + off, wanted.high - off, wanted.target))
    if not fit:
        return None
    _, _, shims, total = min(
        (
            abs(total - wanted.target),
            [-shim for shim in totals.stack(count, total)],
            totals.stack(count, total),
            total,
        )
        for total in fit
    )
    return Stack(shims, total, off)


def _wrong(sizes: list[Fraction], each: int, most: int) -> Refusal | None:
    """A catalogue or a bound that no choice can be made from."""
    if not sizes or sizes[-1] <= 0 or len(sizes) > _SIZES:
        message = f"The catalogue has {len(sizes)} sizes, or one of nothing."
        return Refusal("catalogue", message, f"Give 1 to {_SIZES} thicknesses in mm, each above nothing.")
    if each < 1 or not 1 <= most <= _MOST:
        return Refusal(
            "stack", "So many shims are not stacked.", f"Allow 1 to {_MOST}, and one of each at least."
        )
    return None


def _none(totals: Totals, wanted: Wanted, most: int) -> Refusal:
    """Nothing fits: what comes nearest."""
    middle, far = (wanted.low + wanted.high) / 2, wanted.high + totals.step * FINEST
    off, count, total = min(
        (wanted.outside(count, total), count, total)
        for count in range(most + 1)
        for total in totals.nearest(count, Fraction(0), far, middle)
    )
    stack = " + ".join(f"{float(shim):g}" for shim in totals.stack(count, total)) or "no shim"
    message = (
        f"No stack of up to {most} shims is sure to fit; nearest is {stack}, {float(off):.4g} mm outside."
    )
    return Refusal("none-fits", message, "Get a size in between, or measure again with less uncertainty.")


def _told(found: Stack | Refusal, zero: Fraction, sign: int, fitted: Fraction) -> Values | Refusal:
    """A stack as a calculator gives it, with the play or preload that it leaves."""
    if isinstance(found, Refusal):
        return found
    stack = found.shims or None
    return (
        len(found.shims),
        stack,
        found.total,
        sign * (zero - found.total),
        found.doubt,
        found.total - fitted,
    )


def _for_play(
    fitted: Fraction,
    play: Fraction,
    least: Fraction,
    most: Fraction,
    catalogue: tuple[Fraction, ...],
    target: Fraction | None,
    tolerance: Fraction,
    uncertainty: Fraction,
    each: Fraction,
    stacked: Fraction,
) -> Values | Refusal:
    window = window_for_play(fitted, play, least, most)
    if isinstance(window, Refusal):
        return window
    found = choose(
        catalogue,
        *window,
        None if target is None else fitted + play - target,
        tolerance=tolerance,
        uncertainty=uncertainty,
        each=int(each),
        most=int(stacked),
    )
    return _told(found, fitted + play, 1, fitted)


def _for_preload(
    fitted: Fraction,
    play: Fraction,
    least: Fraction,
    most: Fraction,
    catalogue: tuple[Fraction, ...],
    target: Fraction | None,
    tolerance: Fraction,
    uncertainty: Fraction,
    each: Fraction,
    stacked: Fraction,
) -> Values | Refusal:
    window = window_for_preload(fitted, play, least, most)
    if isinstance(window, Refusal):
        return window
    found = choose(
        catalogue,
        *window,
        None if target is None else fitted + play + target,
        tolerance=tolerance,
        uncertainty=uncertainty,
        each=int(each),
        most=int(stacked),
    )
    return _told(found, fitted + play, -1, fitted)


_CATALOGUE: Final = Input("catalogue", "q", "Thicknesses to be had", "mm", 0.01, 50, many=1)
_DRAWER: Final = (
    Input("tolerance", "ts", "Tolerance of one shim, plus or minus", "mm", 0, 1, default="0 mm"),
    Input("uncertainty", "u", "Uncertainty of the measured play", "mm", 0, 1, default="0 mm"),
    Input("each", "n1", "How many of one thickness there are", "", 1, 100, default="6"),
    Input("stacked", "n2", "How many may be stacked", "", 1, _MOST, default="4"),
)
_STACK: Final = (
    Output("count", "n", "Number of shims", ""),
    Output("shims", "shims", "Shims, thickest first", "mm"),
    Output("total", "S", "Together", "mm"),
)
_DOUBT: Final = Output("doubt", "du", "At worst off by", "mm")
_CHANGE: Final = Output("change", "ds", "Thicker than what was in by", "mm")
_FEWEST: Final = "fewest shims, then nearest to the target"
_MEASURED: Final = SEATED + " Measure each shim with a micrometer at three or four points."

CALCULATORS: Final = (
    Calculator(
        name="shim-choice",
        family="shims",
        title="Shims from a drawer for an end play",
        inputs=(
            FITTED,
            PLAY,
            *LIMITS,
            _CATALOGUE,
            Input("target", "et", "Play wanted; the middle where left out", "mm", 0, 10, optional=True),
            *_DRAWER,
        ),
        outputs=(*_STACK, Output("play", "e′", "End play then", "mm"), _DOUBT, _CHANGE),
        function=_for_play,
        formula=(
            f"s0 + e - e2 + du <= S <= s0 + e - e1 - du; {_FEWEST}",
            "e′ = s0 + e - S",
            "du = u + n ts",
            "ds = S - s0",
        ),
        source="arithmetic, every stack looked at",
        mark="computed",
        valid=_MEASURED,
        example="fitted=0.65 play=0.30 least=0.03 most=0.10 catalogue='0.5, 0.55, 0.6, 0.85, 0.9'",
        exact=True,
    ),
    Calculator(
        name="shim-choice-preload",
        family="shims",
        title="Shims from a drawer for a bearing preload",
        inputs=(
            FITTED,
            PLAY,
            *PRELOADS,
            _CATALOGUE,
            Input("target", "p", "Preload wanted; the middle where left out", "mm", 0, 2, optional=True),
            *_DRAWER,
        ),
        outputs=(*_STACK, Output("preload", "p′", "Preload then, as interference", "mm"), _DOUBT, _CHANGE),
        function=_for_preload,
        formula=(
            f"s0 + e + p1 + du <= S <= s0 + e + p2 - du; {_FEWEST}",
            "p′ = S - s0 - e",
            "du = u + n ts",
            "ds = S - s0",
        ),
        source="arithmetic, every stack looked at",
        mark="computed",
        valid=_MEASURED,
        example="fitted=0.65 play=0.30 least=0.15 most=0.25 catalogue='0.5, 0.55, 0.6, 1.15'",
        exact=True,
    ),
)
