"""A calculator that cannot use the readings it is given: too few of them, or of the wrong kind.

That several readings need a calculator at all is said by the schema.

Bad: the spread of two temperatures; a difference of degrees is no temperature.

    readings: {gauge: contact-thermometer, unit: °C, plausible: [0, 200], each: [left, right]}
    figure: spread

Good: the spread of two lengths.

    readings: {gauge: tape, unit: mm, plausible: [1500, 2500], each: [left, right]}
    figure: spread
"""

from collections.abc import Iterator

from engine.lint.finding import Found
from engine.lint.rule import Scope
from engine.model.tree import Measure
from engine.quantity import dimension
from engine.trade import registry


def check(scope: Scope) -> Iterator[Found]:
    """Every measuring step whose readings and calculator do not fit."""
    for document in scope.documents:
        for step in document.steps.values():
            if isinstance(step, Measure):
                yield from _step(step)


def _step(step: Measure) -> Iterator[Found]:
    taken, unit = len(step.readings), step.readings[0].unit
    calculator = registry.find(step.figure) if step.figure else None
    if calculator and not calculator.least_inputs:
        message = f"`{step.figure}` does not make one figure of readings alone."
        yield Found(step.place, message, "Name another calculator, or take the figure out.")
        return
    if calculator and taken < calculator.least_inputs:
        message = (
            f"`{step.figure}` needs at least {calculator.least_inputs} readings; `{step.name}` takes {taken}."
        )
        yield Found(step.place, message, "Add readings, or take the figure out.")
    if calculator and dimension(unit) and calculator.result_unit(unit) is None:
        message = f"`{step.figure}` cannot be made of readings in {unit}."
        yield Found(step.place, message, "Name another calculator, or compare the reading itself.")
