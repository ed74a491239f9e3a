"""A sum worked out from words of the command line, for people and for machines."""

from collections.abc import Mapping, Sequence
from fractions import Fraction
from typing import Any

from engine.errors import Failure, Refusal
from engine.quantity import Quantity, dimension, spelling
from engine.trade.calculator import Calculator, Kept, Sum, compute


def worked(calculator: Calculator, inputs: Sequence[str], units: Sequence[str]) -> Sum:
    """The sum of inputs typed as `name=value`, with outputs in the units typed as `output=unit` or `unit`.

    Raises `Failure`, with the cure, where it cannot be worked out.

    >>> from engine.trade.registry import find
    >>> wear = find("tread-wear")
    >>> worked(wear, ["depth=4 mm", "diameter=800 mm"], []).lines[-1]
    '  = 1 %'
    """
    made = compute(calculator, _given(inputs), _asked(calculator, units))
    if isinstance(made, Refusal):
        raise Failure(made.message, made.cure)
    return made


def _given(words: Sequence[str]) -> Mapping[str, str]:
    """`name=value` by name; a name that is given twice would hide one of its values."""
    given: dict[str, str] = {}
    for word in words:
        name, equals, value = word.partition("=")
        if not equals:
            raise Failure(
                f"`{word}` gives no input a value.", "Write it as INPUT=VALUE, without spaces at =."
            )
        if name in given:
            raise Failure(f"`{name}` is given twice.", "Give it once; a list is parted by commas.")
        given[name] = value
    return given


def _asked(calculator: Calculator, words: Sequence[str]) -> Mapping[str, str]:
    """The unit that is asked for, by output; a unit alone is for every output of its kind."""
    asked: dict[str, str] = {}
    for word in words:
        name, equals, unit = word.partition("=")
        asked |= {name: unit} if equals else dict.fromkeys(_of_kind(calculator, word), word)
    return asked


def _of_kind(calculator: Calculator, typed: str) -> Sequence[str]:
    unit = spelling(typed)
    kinds = {output.name: dimension(output.unit) for output in calculator.outputs}
    fitting = [name for name, kind in kinds.items() if unit and kind == dimension(unit)]
    if not fitting:
        given = ", ".join(f"`{output.name}`" for output in calculator.outputs)
        raise Failure(
            f"No output of `{calculator.name}` is told in `{typed}`.", f"Write OUTPUT=UNIT; it gives {given}."
        )
    return fitting


def reckoned(made: Sum) -> Any:
    """A sum for machines: what went in as it was typed, what came out, and the lines for people."""
    return {
        "calculator": made.calculator.name,
        "inputs": {name: _value(value) for name, value in made.inputs.items()},
        "outputs": {name: _value(value) for name, value in made.outputs.items()},
        "lines": made.lines,
    }


def _value(value: Kept) -> Any:
    match value:
        case tuple():
            return [_value(one) for one in value]
        case Quantity():
            return {"value": float(value.value), "unit": value.unit}
        case Fraction():
            return float(value)
    return value
