"""A question whose answers go into a calculator: what it says of each, against what the tree relies on."""

from collections.abc import Iterator
from typing import TYPE_CHECKING

from engine.errors import Refusal
from engine.graph.onward import Onward
from engine.lint.bands import sheets
from engine.lint.finding import Found
from engine.model.tree import ANSWER, Answer, Ask, Document
from engine.model.vehicle import Sheet
from engine.nearest import meant
from engine.trade import registry
from engine.trade.calculator import Calculator, Given, compute
from engine.trade.inputs import TEXT, WORD, Output
from engine.trade.taking import missing

if TYPE_CHECKING:
    from engine.lint.rule import Scope


def asked(scope: "Scope", document: Document, step: Ask) -> Iterator[Found]:
    """What is wrong with the calculator of a question."""
    calculator = registry.find(step.figure) if step.figure else None
    giving = [answer for answer in step.answers if answer.given]
    if calculator is None:
        if not step.figure and (step.given or step.gives or giving):
            yield Found(step.place, "No calculator is named to be given anything.", "Name one in `figure`.")
        return
    faults = [*_inputs(step, calculator, giving), *_output(step, calculator)]
    yield from faults
    output = calculator.output(step.gives)
    if faults or output is None:
        return
    for sheet in sheets(scope, document):
        if step.name in _met(scope, document, sheet):
            for answer in giving:
                yield from _said(step, calculator, output, answer, sheet)


def _inputs(step: Ask, calculator: Calculator, giving: list[Answer]) -> Iterator[Found]:
    names = [wanted.name for wanted in calculator.inputs]
    for fed in step.given:
        if fed.name not in names:
            message = f"`{calculator.name}` has no input `{fed.name}`."
            yield Found(fed.place, message, meant(fed.name, names))
    lacking = missing(calculator.name, calculator.inputs, {fed.name: "" for fed in step.given})
    if lacking is not None:
        yield Found(step.place, lacking.message, "Say in `given` where it comes from.")
    if not giving or not any(fed.readings == (ANSWER,) for fed in step.given):
        message = f"No answer of `{step.name}` goes into `{calculator.name}`."
        cure = f"Give an input `{ANSWER}`, and let the answers say in `given` what that is."
        yield Found(step.place, message, cure)


def _output(step: Ask, calculator: Calculator) -> Iterator[Found]:
    output = calculator.output(step.gives)
    if output is None:
        message = f"`{calculator.name}` does not give `{step.gives}`."
        yield Found(step.place, message, meant(step.gives, [each.name for each in calculator.outputs]))
    elif output.unit not in (WORD, TEXT):
        message = f"`{output.name}` of `{calculator.name}` is a number, which no answer can name."
        yield Found(step.place, message, "Have it measured, and hold it against bands.")


def _said(step: Ask, calculator: Calculator, output: Output, answer: Answer, sheet: Sheet) -> Iterator[Found]:
    given: dict[str, Given] = {}
    for fed in step.given:
        value = sheet.value(fed.sheet) if fed.sheet else answer.given if fed.readings else fed.typed
        if value is None:
            return  # that the sheet lacks it is told by `sheet-value`
        given[fed.name] = value
    made = compute(calculator, given)
    if isinstance(made, Refusal):
        message = f"`{step.figure}` on the sheet `{sheet.name}`, {made.message}"
        yield Found(answer.place, message, made.cure)
    elif made.outputs.get(output.name) != answer.gives:
        told = made.outputs.get(output.name)
        message = f"Of `{answer.say}` on the sheet `{sheet.name}` `{step.figure}` says `{told}`"
        cure = "Lead the answer where that belongs, or sort the vehicle away before."
        yield Found(answer.place, f"{message}, not `{answer.gives}`.", cure)


def _met(scope: "Scope", document: Document, sheet: Sheet) -> frozenset[str]:
    """The steps of the document that this vehicle can come to."""
    onward = Onward(scope.library.procedures, sheet.facts)
    seen: set[str] = set()
    waiting = [document.start]
    while waiting:
        name = waiting.pop()
        step = document.steps.get(name)
        if step is not None and name not in seen:
            seen.add(name)
            waiting += [way.then for way in onward.exits(step)]
    return frozenset(seen)
