"""The sum that a measuring step makes of its readings, of the sheet, and of figures that it says."""

from collections.abc import Mapping

from engine.errors import Refusal
from engine.model.tree import ANSWER, Answer, Ask, Fed, Measure
from engine.model.vehicle import Sheet
from engine.quantity import Quantity
from engine.trade import registry
from engine.trade.calculator import Sum, compute
from engine.trade.sums import written
from engine.trade.taking import Given


def reckoned(step: Measure, read: Mapping[str, Quantity], sheet: Sheet) -> Sum | Refusal:
    """The sum with all its lines, or why it cannot be made. The step has a calculator."""
    calculator = registry.find(step.figure)
    assert calculator is not None
    if not step.given:
        return compute(calculator, {calculator.inputs[0].name: tuple(read.values())})
    many = {wanted.name for wanted in calculator.inputs if wanted.many}
    return compute(
        calculator, {fed.name: _given(fed, read, sheet, many=fed.name in many) for fed in step.given}
    )


def answered(step: Ask, answer: Answer, sheet: Sheet) -> Sum | Refusal | None:
    """What the calculator of a question makes of an answer; None where there is nothing to reckon."""
    calculator = registry.find(step.figure) if step.figure and answer.given else None
    if calculator is None:
        return None
    read = {ANSWER: answer.given}
    return compute(calculator, {fed.name: _given(fed, read, sheet, many=False) for fed in step.given})


def besides(made: Sum, gives: str = "") -> str:
    """What came out beside the output that is compared, in words: `Slip at the coupling: 31 rpm`."""
    told = made.outputs
    return "; ".join(
        f"{output.title}: {written(told[output.name])}"
        for output in made.calculator.outputs
        if output.name in told and output.name != gives
    )


def _given(fed: Fed, read: Mapping[str, Quantity | str], sheet: Sheet, *, many: bool) -> Given:
    if fed.readings:
        values = tuple(read[name] for name in fed.readings)
        return values if many else values[0]
    if fed.sheet:
        value = sheet.value(fed.sheet)
        assert value is not None  # lint has seen to it, and a tree that it finds fault with is not walked
        return value
    return fed.typed
