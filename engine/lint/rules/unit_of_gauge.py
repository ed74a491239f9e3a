"""A reading in a unit of another kind than its gauge shows.

A dial indicator shows millimetres, never degrees. What it reads can be asked for in any unit of length,
since lengths convert; a unit of another kind means that the gauge or the unit is a slip.

Bad:

    reading: {name: play, gauge: contact-thermometer, unit: mm, plausible: [0, 5]}
    bands: [{upto: 1, then: good}, {over: 1, then: worn}]

Good:

    reading: {name: play, gauge: dial-indicator, unit: in, plausible: [0, 0.2]}
    bands: [{upto: 0.04, then: good}, {over: 0.04, then: worn}]
"""

from collections.abc import Iterator

from engine.lint.finding import Found
from engine.lint.rule import Scope
from engine.model.shop import Gauge
from engine.model.tree import Measure, Wanted
from engine.quantity import dimension


def check(scope: Scope) -> Iterator[Found]:
    """Every measuring step whose unit and gauge are of different kinds."""
    gauges = scope.library.shop.gauges
    for document in scope.documents:
        for step in document.steps.values():
            if isinstance(step, Measure):
                # readings written as one share their place: once is enough
                for wanted in {want.place: want for want in reversed(step.readings)}.values():
                    gauge = gauges.get(wanted.gauge)
                    if gauge is not None and gauge.unit != wanted.unit:
                        yield from _kinds(wanted, gauge)


def _kinds(wanted: Wanted, gauge: Gauge) -> Iterator[Found]:
    read, shown = dimension(wanted.unit), dimension(gauge.unit)
    if read and shown and read != shown:
        message = f"`{wanted.name}` is read in {wanted.unit}; the gauge `{gauge.name}` shows {gauge.unit}."
        yield Found(wanted.place, message, "Name another gauge, or another unit.")
