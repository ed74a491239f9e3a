"""From what a function gave to what a person gets: quantities with units, in the units of choice."""

from collections.abc import Mapping, Sequence
from fractions import Fraction

from engine.errors import Refusal
from engine.nearest import meant
from engine.quantity import Quantity, convert, parse
from engine.trade.inputs import Output, Value
from engine.trade.taking import Kept


def kept(value: Value, unit: str) -> Kept:
    """One value of a function with its unit."""
    if isinstance(value, tuple):
        return tuple(_single(one, unit) for one in value)
    assert value is not None
    return _single(value, unit)


def _single(value: Fraction | float | str, unit: str) -> Quantity | Fraction | str:
    if isinstance(value, str):
        return value
    return Quantity(Fraction(value), unit) if unit else Fraction(value)


def converted(
    calculator: str, outputs: Sequence[Output], given: dict[str, Kept], units_out: Mapping[str, str]
) -> dict[str, Kept] | Refusal:
    """What the calculator gave, in the units that were asked for."""
    names = [output.name for output in outputs]
    for name, typed in units_out.items():
        if name not in names:
            message = f"`{calculator}` does not give `{name}`."
            return Refusal("unknown-output", message, meant(name, names))
        if name in given:
            new = _in_unit(given[name], typed)
            if isinstance(new, Refusal):
                return new._replace(message=f"{name}: {new.message}")
            given = {**given, name: new}
    return given


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
