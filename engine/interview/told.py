"""A measured event in words, as a person would note it."""

from collections.abc import Iterator
from fractions import Fraction

from engine.interview.sure import percent
from engine.model.tree import Measure
from engine.quantity import Quantity, write
from engine.records.event import Answered, Measured, Undecided


def answered(event: Answered) -> str:
    """The answer, and what a calculator said of it."""
    return f"{event.say} ({event.also})" if event.also else event.say


def measured(event: Measured | Undecided, step: Measure) -> str:
    """The readings in the order of the step, the figure where one was made, and the limits held against."""
    read = ", ".join(readings(event, [want.name for want in step.readings]))
    made = f"; {event.figure} {event.figure_unit}" if step.figure else ""
    sure = "; confirmed although outside the plausible range" if event.insisted else ""
    also = f"; {event.also}" if event.also else ""
    return f"{read}{made} ({event.limits}{certain(event)}){sure}{also}"


def certain(event: Measured | Undecided) -> str:
    """How sure the band was, as `, 97 % sure`; empty in a case of before that was told."""
    if not event.probability:
        return ""
    if isinstance(event, Undecided):
        decided = ", too close to call, not decided"
    else:
        decided = ", too close to call, taken as it stands" if event.close else ""
    return f", {percent(float(event.probability))} sure{decided}"


def readings(event: Measured | Undecided, order: list[str]) -> Iterator[str]:
    """Each reading in the unit that its step asks for; what was typed stands behind it where it differs."""
    for name in order:
        amount = write(Quantity(Fraction(event.values[name]), event.unit_of(name)))
        typed = event.typed[name]
        as_typed = (
            "" if typed in (amount, amount.removesuffix(f" {event.unit_of(name)}")) else f" (typed {typed})"
        )
        yield (f"{name} " if len(order) > 1 else "") + amount + as_typed
