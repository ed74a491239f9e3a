"""The one door to the trade's arithmetic: typed inputs go in, a sum that a person can follow comes out."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from math import isfinite
from typing import Final, Literal, NamedTuple

from engine.errors import Refusal
from engine.nearest import meant
from engine.quantity import Quantity, convert, dimension, parse
from engine.trade.inputs import ANY, SAME, TEXT, WORD, Function, Input, Output, Value, Values
from engine.trade.sums import told
from engine.trade.taking import Given, Kept, Taken, missing, take, unknown

__all__ = ["Calculator", "Given", "Input", "Kept", "Output", "Sum", "Values", "compute", "figure"]

Mark = Literal["published", "common-practice", "memory", "computed", "invented"]
_WORDS: Final = (WORD, TEXT)


class Calculator(NamedTuple):
    """One piece of the trade's arithmetic, with everything that must be known to trust it."""

    name: str
    family: str
    #: No more than 60 characters.
    title: str
    inputs: tuple[Input, ...]
    outputs: tuple[Output, ...]
    #: Called by keyword; gives a tuple with one value for each output, in its unit, or refuses.
    function: Function
    #: In the symbols: a line for each output, and any between them.
    formula: tuple[str, ...]
    source: str
    mark: Mark
    #: Where it holds and where it does not.
    valid: str
    #: The function is plain arithmetic: it gets fractions, so that nothing is lost at a limit.
    exact: bool = False
    #: Inputs that a person might type, as a shell takes them: `torque=30 length='12 in'`.
    example: str = ""

    @property
    def least_inputs(self) -> int:
        """The fewest readings that a tree must give; none where it cannot be made of readings alone."""
        first, *others = self.inputs
        alone = all(other.default or other.optional for other in others)
        return first.many if alone and len(self.outputs) == 1 and self.outputs[0].unit not in _WORDS else 0

    def result_unit(self, unit: str) -> str | None:
        """The unit of the figure of readings in `unit`; None where it cannot be made of such readings."""
        kind, wanted, given = dimension(unit), self.inputs[0].unit, self.outputs[0].unit
        if kind is None or not self.least_inputs:
            return None
        if wanted == ANY:
            return None if kind == "temperature" else unit if given == SAME else given
        return given if wanted and kind == dimension(wanted) else None


@dataclass(frozen=True)
class Sum:
    """One calculation: what went in as it was given, and what came out, each by its name."""

    calculator: Calculator
    inputs: Mapping[str, Kept]
    outputs: Mapping[str, Kept]
    #: The inputs once more, as the function got them.
    taken: Mapping[str, Taken]

    @cached_property
    def lines(self) -> tuple[str, ...]:
        """The sum as a person would write it: inputs, formula, figures put in, result with its unit."""
        maker = self.calculator
        return told(maker.inputs, maker.outputs, maker.formula, self.taken, self.outputs)


def compute(
    calculator: Calculator, given: Mapping[str, Given], units_out: Mapping[str, str] | None = None
) -> Sum | Refusal:
    """What the calculator makes of what was given; `units_out` says in which unit to give an output.

    Inputs go by name or by symbol; texts are read as people type them, with or without a unit. Refuses, with
    the cure: inputs that are unknown, missing, of another kind, outside their bounds, too few, and words that
    are not among the choices.
    """
    named = _named(calculator, given)
    refused = unknown(calculator.name, calculator.inputs, named) or missing(
        calculator.name, calculator.inputs, named
    )
    if refused is not None:
        return refused
    taken: dict[str, Taken] = {}
    for wanted in calculator.inputs:
        if wanted.name in named or wanted.default:
            found = take(calculator.name, wanted, named.get(wanted.name, wanted.default))
            if isinstance(found, Refusal):
                return found
            taken[wanted.name] = found
    outputs = _outputs(calculator, taken)
    if not isinstance(outputs, Refusal):
        outputs = _converted(calculator, outputs, units_out or {})
    if isinstance(outputs, Refusal):
        return outputs
    return Sum(calculator, {name: one.kept for name, one in taken.items()}, outputs, taken)


def figure(calculator: Calculator, readings: Sequence[Quantity]) -> Quantity | Refusal:
    """The one figure that a tree compares, of readings alone."""
    made = compute(calculator, {calculator.inputs[0].name: readings})
    if isinstance(made, Refusal):
        return made
    (value,) = made.outputs.values()
    assert isinstance(value, Quantity)
    return value


def _named(calculator: Calculator, given: Mapping[str, Given]) -> Mapping[str, Given]:
    """What was given, with names for symbols."""
    names = {wanted.symbol: wanted.name for wanted in calculator.inputs}
    names |= {wanted.name: wanted.name for wanted in calculator.inputs}
    return {names.get(word, word): value for word, value in given.items()}


def _outputs(calculator: Calculator, taken: Mapping[str, Taken]) -> dict[str, Kept] | Refusal:
    """What the function gives, with names and units."""
    made = calculator.function(
        **{
            wanted.name.replace("-", "_"): _argument(calculator, wanted, taken)
            for wanted in calculator.inputs
        }
    )
    if isinstance(made, Refusal):
        return made
    first = taken.get(calculator.inputs[0].name)
    out: dict[str, Kept] = {}
    for output, value in zip(calculator.outputs, made, strict=True):
        if value is None:
            continue
        unit = first.unit if first and output.unit == SAME else output.unit
        kept = _kept(value, unit)
        if isinstance(kept, Refusal):
            return kept._replace(message=f"{output.name}: {kept.message}")
        out[output.name] = kept
    return out


def _argument(
    calculator: Calculator, wanted: Input, taken: Mapping[str, Taken]
) -> Value | tuple[Fraction | float | str, ...]:
    found = taken.get(wanted.name)
    if found is None:
        return None
    values = tuple(_plain(value, exact=calculator.exact) for value in found.values)
    return values if wanted.many else values[0]


def _plain(value: Fraction | str, *, exact: bool) -> Fraction | float | str:
    return value if exact or isinstance(value, str) else float(value)


def _kept(value: Value, unit: str) -> Kept | Refusal:
    """One value of a function with its unit."""
    if isinstance(value, tuple):
        out: list[Quantity | Fraction | str] = []
        for one in value:
            kept = _kept(one, unit)
            if isinstance(kept, Refusal):
                return kept
            assert not isinstance(kept, tuple)
            out.append(kept)
        return tuple(out)
    assert value is not None
    if isinstance(value, str):
        return value
    if not isfinite(value):
        return Refusal("no-number", "The sum has no end with these figures.", "Look for one that is nothing.")
    return Quantity(Fraction(value), unit) if unit else Fraction(value)


def _converted(
    calculator: Calculator, outputs: dict[str, Kept], units_out: Mapping[str, str]
) -> dict[str, Kept] | Refusal:
    """The outputs in the units that were asked for."""
    names = [output.name for output in calculator.outputs]
    for name, typed in units_out.items():
        if name not in names:
            message = f"`{calculator.name}` does not give `{name}`."
            return Refusal("unknown-output", message, meant(name, names))
        if name in outputs:
            new = _in_unit(outputs[name], typed)
            if isinstance(new, Refusal):
                return new._replace(message=f"{name}: {new.message}")
            outputs = {**outputs, name: new}
    return outputs


def _in_unit(value: Kept, typed: str) -> Kept | Refusal:
    if isinstance(value, tuple):
        new = tuple(_in_unit(one, typed) for one in value)
        refused = next((one for one in new if isinstance(one, Refusal)), None)
        return refused or new  # type: ignore[return-value]  # reason: none of them is a refusal or a tuple
    if not isinstance(value, Quantity):
        return Refusal("other-dimension", "It has no unit to choose.", "Leave the unit out.")
    asked = parse(f"1 {typed}", value.unit)
    if isinstance(asked, Refusal):
        return asked
    if value.unit == "K" and asked.unit != "K":
        message = "A difference of temperatures is told in K."
        return Refusal("other-dimension", message, "Leave the unit out.")
    return convert(value, asked.unit)
