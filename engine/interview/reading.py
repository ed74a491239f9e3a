"""From what was typed to a measured event: units, plausibility, the figure, and the exact band."""

from collections.abc import Mapping, Sequence
from dataclasses import fields
from types import MappingProxyType
from typing import NamedTuple

from engine.errors import Refusal
from engine.interview import limits
from engine.interview.advice import close, proposed
from engine.interview.question import Close
from engine.interview.reckoned import besides, reckoned
from engine.interview.slips import slip
from engine.interview.state import State
from engine.interview.sure import Sure, judged, percent, settled
from engine.model.tree import Measure, Wanted
from engine.model.vehicle import Sheet
from engine.quantity import Quantity, convert, parse, write
from engine.records.event import Measured, Undecided
from engine.trade.calculator import Sum
from engine.trade.sums import trimmed


class Weighed(NamedTuple):
    """Readings held against the bands: what each came to, the figure, its band, and how sure that is."""

    read: Mapping[str, Quantity]
    figure: Quantity
    band: int
    sure: Sure
    #: What else the calculator says.
    also: str


def measure(
    state: State, step: Measure, typed: Mapping[str, str], *, insist: bool, settle: bool
) -> Measured | Undecided | Refusal:
    """The event that these readings make, or what must be typed again.

    What is too close to call is undecided until it is settled; the same typed again says nothing new.
    """
    each = taken(step, typed)
    if isinstance(each, Refusal):
        return each
    odd = _implausible(step, each, typed)
    if not insist and (doubted := _implausible(step, each, typed, _believed(state))):
        return doubted
    found = weighed(state, step, each)
    if isinstance(found, Refusal):
        return found
    doubtful = found.sure.probability < state.tree.confidence
    first, *others = step.readings
    made = Measured(
        step=state.where,
        typed={want.name: typed[want.name].strip() for want in step.readings},
        values={name: str(quantity.value) for name, quantity in found.read.items()},
        unit=first.unit,
        figure=write(found.figure).removesuffix(found.figure.unit).strip(),
        figure_unit=found.figure.unit,
        band=found.band,
        limits=limits.words(step.bands[found.band], step.unit, state.sheet),
        insisted=odd is not None,
        probability=f"{found.sure.probability:.4f}",
        uncertainty=f"{found.sure.uncertainty:.4g}",
        gauge=", ".join(dict.fromkeys(want.gauge for want in step.readings)),
        close=doubtful,
        units={want.name: want.unit for want in others if want.unit != first.unit},
        also=found.also,
    )
    if settle or not doubtful:
        return made
    if state.undecided and state.undecided.typed == made.typed:
        return close(state, step, found.figure, found.band, found.sure)
    return Undecided(**{field.name: getattr(made, field.name) for field in fields(Undecided)})


def behind(before: Mapping[str, str], more: Mapping[str, str]) -> dict[str, str] | Refusal:
    """What was typed with further readings of some of it behind, or why that cannot be.

    >>> behind({"a": "12; 12.5", "b": "7"}, {"a": "13 "})
    {'a': '12; 12.5; 13', 'b': '7'}
    """
    for name, text in more.items():
        if name not in before:
            known = ", ".join(before)
            return Refusal("not-there", f"The step has no reading `{name}`.", f"It has: {known}.")
        if not text.strip("; "):
            return Refusal("missing", f"The reading `{name}` is missing.", "Type what was read once more.")
    if not more:
        return Refusal("missing", "Nothing was read once more.", "Name a reading, and what it shows.")
    further = {name: f"{before[name].rstrip('; ')}; {text.strip('; ')}" for name, text in more.items()}
    return {**before, **further}


def undecided(state: State, step: Measure, typed: Mapping[str, str]) -> Close:
    """How close the readings are that have yet to be decided, and what would decide them."""
    each = taken(step, typed)
    found = each if isinstance(each, Refusal) else weighed(state, step, each)
    if isinstance(found, Refusal):
        return Close(typed, str(found))
    told = close(state, step, found.figure, found.band, found.sure)
    return Close(typed, str(told), proposed(state, step, found.sure))


def weighed(state: State, step: Measure, each: Mapping[str, Sequence[Quantity]]) -> Weighed | Refusal:
    """What the readings come to, or why they come to nothing."""
    found = {want.name: settled(state, want, each[want.name]) for want in step.readings}
    read = {want.name: Quantity(found[want.name].value, want.unit) for want in step.readings}
    figure = compared(step, read, state.sheet)
    if isinstance(figure, Refusal):
        return figure
    band = limits.chosen(step, figure.value, state.sheet)
    if band is None:
        return _no_band(figure)

    def figured(values: Mapping[str, Quantity]) -> Quantity | Refusal:
        return compared(step, values, state.sheet)

    sure = judged(state, step, found, figure, band=band, figured=figured)
    return Weighed(read, figure, band, sure, _also(step, read, state.sheet))


def _also(step: Measure, read: Mapping[str, Quantity], sheet: Sheet) -> str:
    """What the calculator says beside the figure that is compared."""
    made = reckoned(step, read, sheet) if step.figure else None
    if not isinstance(made, Sum):
        return ""
    output = made.calculator.output(step.gives)
    return besides(made, output.name if output else "")


def taken(step: Measure, typed: Mapping[str, str]) -> dict[str, list[Quantity]] | Refusal:
    """Every reading as exact numbers in its unit, or the first that cannot be read.

    One that was taken several times has `;` between.
    """
    out: dict[str, list[Quantity]] = {}
    for want in step.readings:
        text = typed.get(want.name, "").strip()
        if not text:
            return Refusal("missing", f"The reading `{want.name}` is missing.", f"Type it, in {want.unit}.")
        each = out[want.name] = []
        for part in parts(text):
            found = parse(part, want.unit)
            if isinstance(found, Refusal):
                name = "" if len(step.readings) == 1 else f"{want.name}: "
                return Refusal(found.kind, name + found.message, found.cure)
            each.append(convert(found, want.unit))
    return out


def parts(text: str) -> list[str]:
    """The readings of one thing, as typed one after the other.

    >>> parts("12; 12.5 mm; ")
    ['12', ' 12.5 mm']
    """
    return text.strip().rstrip("; ").split(";")


def compared(step: Measure, read: Mapping[str, Quantity], sheet: Sheet) -> Quantity | Refusal:
    """The one number that is held against the bands."""
    if not step.figure:
        return next(iter(read.values()))
    made = reckoned(step, read, sheet)
    if isinstance(made, Refusal):
        return made
    output = made.calculator.output(step.gives)
    value = made.outputs.get(output.name) if output else None
    if isinstance(value, Quantity):
        # a limit must not be missed by the last digits of the machine's arithmetic
        exact = value if made.calculator.exact else Quantity(trimmed(value.value), value.unit)
        return convert(exact, step.unit)
    return Refusal("no-number", f"`{step.figure}` gives nothing here to be compared.", "Check what was read.")


def sketch(state: State, step: Measure, typed: Mapping[str, str]) -> str:
    """The figure and its band in words, for readings that are still being typed; empty while unclear."""
    each = taken(step, typed)
    found = each if isinstance(each, Refusal) else weighed(state, step, each)
    if isinstance(found, Refusal):
        return str(found) if found.kind == "no-band" else ""
    words = limits.words(step.bands[found.band], step.unit, state.sheet)
    say = step.bands[found.band].say
    told = f", {percent(found.sure.probability)} sure"
    return f"{write(found.figure)}: {words}" + (f" - {say}" if say else "") + told


def working(state: State, step: Measure, typed: Mapping[str, str]) -> tuple[str, ...]:
    """The sum that is made of the readings, line by line; nothing where none is, or not yet."""
    each = taken(step, typed)
    found = each if isinstance(each, Refusal) else weighed(state, step, each)
    if isinstance(found, Refusal) or not step.figure:
        return ()
    made = reckoned(step, found.read, state.sheet)
    return made.lines if isinstance(made, Sum) else ()


def range_words(want: Wanted) -> str:
    """The plausible range of a reading in words."""
    low, high = Quantity(want.low, want.unit), Quantity(want.high, want.unit)
    return f"{write(low)} to {write(high)}"


def _believed(state: State) -> Mapping[str, Sequence[str]]:
    """What was kept of the open step already: whatever is hard to believe there was confirmed before."""
    typed = state.undecided.typed if state.undecided else {}
    return {name: [part.strip() for part in parts(text)] for name, text in typed.items()}


def _implausible(
    step: Measure,
    each: Mapping[str, Sequence[Quantity]],
    typed: Mapping[str, str],
    believed: Mapping[str, Sequence[str]] = MappingProxyType({}),
) -> Refusal | None:
    for want in step.readings:
        for quantity, text in zip(each[want.name], parts(typed[want.name]), strict=True):
            doubted = text.strip() not in believed.get(want.name, ())
            if doubted and not want.low <= quantity.value <= want.high:
                message = (
                    f"{want.name} = {write(quantity)} lies outside what is believed here"
                    f" ({range_words(want)})."
                )
                cure = "Read it again and check the unit; give the same reading once more to confirm it."
                meant = slip(text, want.low, want.high, want.unit)
                return Refusal("implausible", message, f"{meant} {cure}".lstrip(), insist=True)
    return None


def _no_band(figure: Quantity) -> Refusal:
    cure = "Say that it cannot be told here, and tell whoever writes the trees."
    return Refusal("no-band", f"The tree has no band for {write(figure)}.", cure)
