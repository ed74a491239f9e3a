"""The sum that a measuring step makes of its readings, of the sheet, and of figures that it says."""

from collections.abc import Mapping

from engine.errors import Refusal
from engine.model.tree import Fed, Measure
from engine.model.vehicle import Sheet
from engine.quantity import Quantity
from engine.trade import registry
from engine.trade.calculator import Sum, compute
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


def _given(fed: Fed, read: Mapping[str, Quantity], sheet: Sheet, *, many: bool) -> Given:
    if fed.readings:
        values = tuple(read[name] for name in fed.readings)
        return values if many else values[0]
    if fed.sheet:
        value = sheet.value(fed.sheet)
        assert value is not None  # lint has seen to it, and a tree that it finds fault with is not walked
        return value
    return fed.typed
