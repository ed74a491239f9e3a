"""A number with its unit: read from what people type, converted, and written for people.

Nothing else in the program converts units; how a number itself is read and written is told in
`engine.number`. Numbers are fractions, so that a reading that lies on a limit
lies on it in every unit; the factors and their sources are in `engine.units`.
"""

from fractions import Fraction
from typing import NoReturn

from engine.errors import Refusal
from engine.number import beside_unit, parse_number, read, shown, write_number
from engine.units import alike, dimension, look_up, partner, spelling, units

__all__ = [
    "Quantity",
    "beside",
    "convert",
    "dimension",
    "parse",
    "parse_number",
    "partner",
    "same_kind",
    "spelling",
    "units",
    "write",
    "write_number",
]


class Quantity:
    """An exact number of one unit; ValueError where there is no such unit.

    Two quantities are equal when number and unit are: 1 in is not the same value as 25.4 mm until converted.
    Written out, and not as a data class, whose machinery takes longer to load than a sum takes to work out.

    >>> print(Quantity(Fraction(127, 10), "mm"))
    12.7 mm
    """

    __slots__ = ("unit", "value")
    __match_args__ = ("value", "unit")

    value: Fraction
    unit: str

    def __init__(self, value: Fraction, unit: str) -> None:
        look_up(unit)
        object.__setattr__(self, "value", value)
        object.__setattr__(self, "unit", unit)

    def __setattr__(self, name: str, _: object) -> NoReturn:
        raise AttributeError(f"A quantity does not change its {name}.")

    def __delattr__(self, name: str) -> NoReturn:
        raise AttributeError(f"A quantity does not lose its {name}.")

    def __eq__(self, other: object) -> bool:
        if not isinstance(other, Quantity):
            return NotImplemented
        return self.value == other.value and self.unit == other.unit

    def __hash__(self) -> int:
        return hash((self.value, self.unit))

    def __reduce__(self) -> tuple[type["Quantity"], tuple[Fraction, str]]:
        return Quantity, (self.value, self.unit)

    def __repr__(self) -> str:
        return f"Quantity(value={self.value!r}, unit={self.unit!r})"

    def __str__(self) -> str:
        return write(self)


def same_kind(a: Quantity, b: Quantity) -> bool:
    """Whether both measure the same thing, so that one converts into the unit of the other."""
    return dimension(a.unit) == dimension(b.unit)


def convert(quantity: Quantity, unit: str) -> Quantity:
    """The same amount in another unit, exactly.

    Temperatures are points on their scale, not differences. Another dimension, or no unit at all, is a
    mistake of the caller: ValueError. What people type goes through `parse`, which refuses it instead.

    >>> print(convert(Quantity(Fraction(1, 2), "in"), "mm"))
    12.7 mm
    >>> print(convert(Quantity(Fraction(212), "°F"), "°C"))
    100 °C
    """
    if quantity.unit == unit:
        return quantity  # as most are
    old, new = look_up(quantity.unit), look_up(unit)
    if old.dimension != new.dimension:
        raise ValueError(f"{quantity.unit} is no {new.dimension}, as {unit} is.")
    base = quantity.value * old.factor + old.offset
    return Quantity((base - new.offset) / new.factor, unit)


def write(quantity: Quantity, digits: int | None = None) -> str:
    """The quantity for people; `≈` stands before it where the number had to be rounded.

    With `digits`, that many decimals. Without, the exact decimal where four decimals hold it, else five
    significant digits (whole digits are never rounded away). Halves are rounded away from zero.

    >>> write(Quantity(Fraction(25, 2), "mm")), write(Quantity(Fraction(1, 3), "in"))
    ('12.5 mm', '≈ 0.33333 in')
    >>> write(Quantity(Fraction(25, 2), "mm"), 2), write(Quantity(Fraction(45), "°"))
    ('12.50 mm', '45°')
    """
    return beside_unit(write_number(quantity.value, digits), quantity.unit)


def beside(quantity: Quantity, unit: str | None = None) -> str:
    """The quantity, and what it is in `unit`: in the usual unit of the other system where none is given.

    >>> beside(Quantity(Fraction(127, 10), "mm")), beside(Quantity(Fraction(100), "N·m"))
    ('12.7 mm = 0.5 in', '100 N·m ≈ 73.756 lbf·ft')
    >>> beside(Quantity(Fraction(25), "psi"), "bar"), beside(Quantity(Fraction(12), "V"))
    ('25 psi ≈ 1.7237 bar', '12 V')
    """
    other = unit or partner(quantity.unit)
    if other in (None, quantity.unit):
        return write(quantity)
    text = write(convert(quantity, other))
    return f"{write(quantity)} {text if text.startswith('≈') else f'= {text}'}"


def parse(text: str, unit: str) -> Quantity | Refusal:
    """What a person typed, in the unit typed, which always converts into `unit`; without one, in `unit`.

    Takes a decimal point or comma, fractions (`1 3/8"`, `½`), powers of ten (`1e3`) and the usual spellings
    of units. Refuses, with the cure, what has two meanings (`1,234`), thousands separators, a unit that
    is unknown or measures something else, more than 40 characters or 15 digits, powers beyond 15. Any
    text gets one of the two; only an unknown `unit` is the caller's mistake: ValueError.

    >>> print(parse('1 3/8"', "mm"), "|", parse("12,5", "mm"), "|", parse("25 ft-lb", "N·m"))
    1.375 in | 12.5 mm | 25 lbf·ft
    >>> print(parse("32 kPa", "mm"))
    `kPa` is a pressure; a length is wanted here. Give it in `mm` or `in`.
    """
    look_up(unit)
    found = read(text, unit)
    return found if isinstance(found, Refusal) else _with_unit(*found, unit)


def _with_unit(value: Fraction, typed: str, unit: str) -> Quantity | Refusal:
    """The value in the typed unit, provided that it converts into the unit that is wanted."""
    name = spelling(typed) if typed else unit
    kind = look_up(unit).dimension
    either = " or ".join(f"`{way}`" for way in (unit, partner(unit)) if way)
    if name is None:
        close = " or ".join(f"`{near}`" for near in alike(typed, kind))
        cure = f"Did you mean {close}?" if close else f"Give it in {either}."
        return Refusal("unknown-unit", f"There is no unit `{shown(typed)}` here.", cure)
    if dimension(name) != kind:
        message = f"`{shown(typed)}` is {_a(dimension(name) or '')}; {_a(kind)} is wanted here."
        return Refusal("other-dimension", message, f"Give it in {either}.")
    if name.startswith("US") and unit.startswith("imp") and not typed.casefold().startswith("u"):
        size = name.removeprefix("US ")
        message = f"`{shown(typed)}` can be the US or the imperial measure."
        return Refusal("ambiguous", message, f"Write `US {size}` or `imp {size}`.")
    return Quantity(value, name)


def _a(noun: str) -> str:
    return f"{'an' if noun[0] in 'aeiou' else 'a'} {noun}"
