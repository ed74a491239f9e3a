"""A calculator that cannot use what it is given: too few readings, the wrong kind, an input that it lacks.

Where `given` says nothing, all readings of the step are the first input. Else every input that has no value
of its own must be there, each of its kind and within its bounds, on every sheet that the tree is for; every
reading must go somewhere; and `gives`, else the first output, must be a number with a unit that bands can
be held against. That several readings need a calculator at all is said by the schema.

Where the step is a question, its answers give what is called `answer`, and each says in `gives` what the
calculator must say of it: on every sheet that comes to the step it must say just that.

Bad: the spread of two temperatures; a difference of degrees is no temperature.

    readings: {gauge: contact-thermometer, unit: °C, plausible: [0, 200], each: [left, right]}
    figure: spread

Good: the spread of two lengths.

    readings: {gauge: tape, unit: mm, plausible: [1500, 2500], each: [left, right]}
    figure: spread
"""

from collections.abc import Iterator, Mapping

from engine.errors import Refusal
from engine.lint.answered import asked
from engine.lint.bands import sheets
from engine.lint.finding import Found
from engine.lint.rule import Scope
from engine.model.tree import Ask, Document, Fed, Measure, Wanted
from engine.nearest import meant
from engine.quantity import Quantity, dimension
from engine.trade import registry
from engine.trade.calculator import Calculator, Sum, compute
from engine.trade.inputs import TEXT, WORD, Input
from engine.trade.taking import Given, missing, take


def check(scope: Scope) -> Iterator[Found]:
    """Every measuring step whose readings and calculator do not fit."""
    for document in scope.documents:
        for step in document.steps.values():
            if isinstance(step, Measure):
                yield from _step(scope, document, step)
            elif isinstance(step, Ask):
                yield from asked(scope, document, step)


def _step(scope: Scope, document: Document, step: Measure) -> Iterator[Found]:
    calculator = registry.find(step.figure) if step.figure else None
    if calculator is None:
        if not step.figure and (step.given or step.gives):
            yield Found(step.place, "No calculator is named to be given anything.", "Name one in `figure`.")
    elif step.given or step.gives:
        yield from _output(step, calculator)
        yield from _given(scope, document, step, calculator)
    else:
        yield from _alone(step, calculator)


def _alone(step: Measure, calculator: Calculator) -> Iterator[Found]:
    """Where the readings are all that it is given."""
    kinds = list(dict.fromkeys(want.unit for want in step.readings if dimension(want.unit)))
    other = next((unit for unit in kinds if dimension(unit) != dimension(kinds[0])), "")
    if other:
        message = f"`{step.figure}` cannot be made of readings in {kinds[0]} and in {other} alike."
        yield Found(step.place, message, "Say in `given` what each of its inputs is.")
        return
    taken, unit = len(step.readings), step.readings[0].unit
    if not calculator.least_inputs:
        message = f"`{step.figure}` does not make one figure of readings alone."
        yield Found(
            step.place, message, "Say in `given` what each of its inputs is, or name another calculator."
        )
    elif taken < calculator.least_inputs:
        message = (
            f"`{step.figure}` needs at least {calculator.least_inputs} readings; `{step.name}` takes {taken}."
        )
        yield Found(step.place, message, "Add readings, or take the figure out.")
    elif dimension(unit) and calculator.result_unit(unit) is None:
        message = f"`{step.figure}` cannot be made of readings in {unit}."
        yield Found(step.place, message, "Name another calculator, or compare the reading itself.")


def _output(step: Measure, calculator: Calculator) -> Iterator[Found]:
    output = calculator.output(step.gives)
    if output is None:
        message = f"`{calculator.name}` does not give `{step.gives}`."
        yield Found(step.place, message, meant(step.gives, [each.name for each in calculator.outputs]))
    elif output.unit in ("", WORD, TEXT):
        message = f"`{output.name}` of `{calculator.name}` is no number with a unit; no band can hold it."
        yield Found(step.place, message, "Name another output in `gives`, or ask for the word.")


def _given(scope: Scope, document: Document, step: Measure, calculator: Calculator) -> Iterator[Found]:
    found = [*_inputs(scope, document, step, calculator)]
    yield from found
    # a reading in a unit that is none is told of elsewhere
    if not found and all(dimension(want.unit) for want in step.readings):
        yield from _tried(scope, document, step, calculator)


def _inputs(scope: Scope, document: Document, step: Measure, calculator: Calculator) -> Iterator[Found]:
    inputs = {wanted.name: wanted for wanted in calculator.inputs}
    lacking = missing(calculator.name, calculator.inputs, {fed.name: "" for fed in step.given})
    if lacking is not None:
        yield Found(step.place, lacking.message, "Say in `given` where it comes from.")
    for fed in step.given:
        if fed.name not in inputs:
            message = f"`{calculator.name}` has no input `{fed.name}`."
            yield Found(fed.place, message, meant(fed.name, list(inputs)))
        else:
            yield from _fed(scope, document, step, fed, inputs[fed.name])
    used = {name for fed in step.given for name in fed.readings}
    idle = [want.name for want in step.readings if want.name not in used]
    if step.given and idle:
        message = f"Nothing is made of the reading `{idle[0]}`."
        yield Found(step.place, message, "Name it in `given`, or do not have it read.")


def _tried(scope: Scope, document: Document, step: Measure, calculator: Calculator) -> Iterator[Found]:
    """Whether one number comes out, tried at both ends of what may plausibly be read."""
    output = calculator.output(step.gives)
    there = {want.name: want for want in step.readings}
    many = {wanted.name for wanted in calculator.inputs if wanted.many}
    for sheet in sheets(scope, document):
        for end in ("low", "high"):
            given = {
                fed.name: sheet.value(fed.sheet) or ""
                if fed.sheet
                else _values(fed, there, end, many=fed.name in many) or fed.typed
                for fed in step.given
            }
            made = compute(calculator, given)
            if isinstance(made, Sum) and output and not isinstance(made.outputs.get(output.name), Quantity):
                message = f"`{output.name}` of `{calculator.name}` is not one number; no band can hold it."
                yield Found(step.place, message, "Name another output in `gives`.")
                return


def _fed(scope: Scope, document: Document, step: Measure, fed: Fed, wanted: Input) -> Iterator[Found]:
    if fed.readings:
        yield from _read(step, fed, wanted)
    elif fed.sheet:
        for sheet in sheets(scope, document):
            value = sheet.value(fed.sheet)
            refused = take(step.figure, wanted, value) if value is not None else None
            if isinstance(refused, Refusal):
                message = f"`{fed.sheet}` of the sheet `{sheet.name}`: {refused.message}"
                yield Found(fed.place, message, "Mend the sheet, or give another value.")
    else:
        refused = take(step.figure, wanted, fed.typed)
        if isinstance(refused, Refusal):
            yield Found(fed.place, f"`{step.figure}`, {refused.message}", refused.cure)


def _read(step: Measure, fed: Fed, wanted: Input) -> Iterator[Found]:
    """Whether the input can be these readings, at both ends of what may plausibly be read."""
    there = {want.name: want for want in step.readings}
    strange = [name for name in fed.readings if name not in there]
    if strange:
        message = f"The step takes no reading `{strange[0]}`."
        yield Found(fed.place, message, meant(strange[0], list(there)))
        return
    if any(dimension(want.unit) is None for want in there.values()):
        return  # that a unit is none is told by `unknown-name`
    for end in ("low", "high"):
        refused = take(step.figure, wanted, _values(fed, there, end, many=bool(wanted.many)))
        if isinstance(refused, Refusal):
            cure = f"{refused.cure} What is `plausible` must lie within what the calculator holds for."
            yield Found(fed.place, f"`{step.figure}`, {refused.message}", cure)
            return


def _values(fed: Fed, there: Mapping[str, Wanted], end: str, *, many: bool) -> Given:
    """Readings at one end of what is plausible, as a calculator takes them."""
    read = [there[name] for name in fed.readings]
    values = tuple(Quantity(want.low if end == "low" else want.high, want.unit) for want in read)
    return values if many or len(values) != 1 else values[0]
