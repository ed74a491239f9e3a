"""A number with its unit: read from what people type, converted, and written for people.

Nothing else in the program converts units. Numbers are fractions, so that a reading that lies on a limit
lies on it in every unit; the factors and their sources are in `engine.units`.
"""

import re
from fractions import Fraction
from typing import Final, NoReturn

from engine.errors import Refusal
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

_LONGEST: Final = 40
_DIGITS: Final = 15
_POWER: Final = 15
#: Looked up by the compiled-pattern cache of `re` on first use, so that starting up compiles nothing.
_NUMBER: Final = (
    r"(?P<sign>[+-]?) ?"
    r"(?P<number>(?:(?P<whole>[0-9]+)[ -])?(?P<top>[0-9]+)/(?P<bottom>[0-9]+)"
    r"|(?P<decimal>[0-9]+[.,]?[0-9]*|[.,][0-9]+)(?:[eE](?P<power>[+-]?[0-9]+))?)"
    r" ?(?P<unit>.*)"
)
_FRACTIONS: Final = "½1/2 ⅓1/3 ⅔2/3 ¼1/4 ¾3/4 ⅕1/5 ⅖2/5 ⅗3/5 ⅘4/5 ⅙1/6 ⅚5/6 ⅛1/8 ⅜3/8 ⅝5/8 ⅞7/8"
#: Signs that look alike on paper; a fraction sign stands apart from the whole number before it.
_LOOKS: Final = str.maketrans(
    dict.fromkeys("−–‒﹣－", "-")
    | dict.fromkeys("⁄∕", "/")
    | {pair[0]: f" {pair[1:]}" for pair in _FRACTIONS.split()}
)


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
    return f"{write_number(quantity.value, digits)}{'' if quantity.unit == '°' else ' '}{quantity.unit}"


def write_number(value: Fraction, digits: int | None = None) -> str:
    """A plain number for people, by the rules of `write`.

    >>> write_number(Fraction(7, 2)), write_number(Fraction(-2, 3)), write_number(Fraction(2, 3), 1)
    ('3.5', '≈ -0.66667', '≈ 0.7')
    """
    places = _places(value) if digits is None else digits
    steps = abs(value) * 10**places
    rounded = int(steps + Fraction(1, 2))
    text = _decimal(rounded, places)
    if digits is None and "." in text:
        text = text.rstrip("0").rstrip(".")
    sign = "-" if value < 0 and rounded else ""
    mark = "" if rounded == steps else "≈ "
    return f"{mark}{sign}{text}"


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
    read = _read(text, unit)
    return read if isinstance(read, Refusal) else _with_unit(*read, unit)


def parse_number(text: str) -> Fraction | Refusal:
    """A number without a unit, typed as `parse` takes it.

    >>> parse_number("3,5"), str(parse_number("3.5 mm"))
    (Fraction(7, 2), '`mm` is a unit; a plain number is wanted here. Leave it out.')
    """
    read = _read(text, "")
    if isinstance(read, Refusal):
        return read
    value, typed = read
    if typed:
        message = f"`{_shown(typed)}` is a unit; a plain number is wanted here."
        return Refusal("other-dimension", message, "Leave it out.")
    return value


def _read(text: str, unit: str) -> tuple[Fraction, str] | Refusal:
    """The number typed, and its unit as typed; `unit` is for the examples of the cures."""
    if len(text) > _LONGEST:
        message = f"That is longer than {_LONGEST} characters."
        return Refusal("too-long", message, f"Write a number, {_example(unit)}")
    plain = " ".join(text.translate(_LOOKS).split())
    found = re.fullmatch(_NUMBER, plain)
    if found is None:
        return _no_number(plain, unit)
    value = _value(found, unit)
    return value if isinstance(value, Refusal) else (value, found["unit"])


def _places(value: Fraction) -> int:
    """Decimals that show the value exactly, up to four, or else its five leading digits."""
    if (value * 10**4).denominator == 1:
        return 4
    places = 4
    while abs(value) * 10**places < 10**4:
        places += 1
    while places and abs(value) * 10**places >= 10**5:
        places -= 1
    return places


def _decimal(steps: int, places: int) -> str:
    """A whole number of steps of `10**-places` with its decimal point."""
    if not places:
        return str(steps)
    digits = str(steps).rjust(places + 1, "0")
    return f"{digits[:-places]}.{digits[-places:]}"


def _value(found: re.Match[str], unit: str) -> Fraction | Refusal:
    """The number of a match, without its unit."""
    number, rest = found["number"], found["unit"]
    if rest[:1] in tuple("0123456789.,/+-_") or (rest[:1] == "'" and rest[1:2].isdigit()):
        message = f"`{_shown(found[0])}` is not one number."
        return Refusal("number", message, f"Write one number without thousands separators, {_example(unit)}")
    if re.fullmatch(r"[1-9][0-9]{0,2},[0-9]{3}", found["decimal"] or ""):
        return _two_meanings(found, unit)
    digits = re.sub("[^0-9]", "", number.lower().partition("e")[0]).lstrip("0")
    if len(digits) > _DIGITS or abs(int(found["power"] or 0)) > _POWER:
        message = f"`{number}` has more than {_DIGITS} digits or a power of ten beyond {_POWER}."
        return Refusal("digits", message, "Write what the gauge shows, and no more.")
    return _exact(found)


def _exact(found: re.Match[str]) -> Fraction | Refusal:
    """The exact value of a number of sane size."""
    sign = -1 if found["sign"] == "-" else 1
    if found["decimal"]:
        return sign * Fraction(found["decimal"].replace(",", ".")) * Fraction(10) ** int(found["power"] or 0)
    whole, top, bottom = int(found["whole"] or 0), int(found["top"]), int(found["bottom"])
    if bottom == 0 or (found["whole"] and top >= bottom):
        message = f"`{found['number']}` is no fraction that a rule shows."
        return Refusal("fraction", message, "Write it as in `3/8` or `1 3/8`.")
    return sign * (whole + Fraction(top, bottom))


def _with_unit(value: Fraction, typed: str, unit: str) -> Quantity | Refusal:
    """The value in the typed unit, provided that it converts into the unit that is wanted."""
    name = spelling(typed) if typed else unit
    kind = look_up(unit).dimension
    either = " or ".join(f"`{way}`" for way in (unit, partner(unit)) if way)
    if name is None:
        close = " or ".join(f"`{near}`" for near in alike(typed, kind))
        cure = f"Did you mean {close}?" if close else f"Give it in {either}."
        return Refusal("unknown-unit", f"There is no unit `{_shown(typed)}` here.", cure)
    if dimension(name) != kind:
        message = f"`{_shown(typed)}` is {_a(dimension(name) or '')}; {_a(kind)} is wanted here."
        return Refusal("other-dimension", message, f"Give it in {either}.")
    if name.startswith("US") and unit.startswith("imp") and not typed.casefold().startswith("u"):
        size = name.removeprefix("US ")
        message = f"`{_shown(typed)}` can be the US or the imperial measure."
        return Refusal("ambiguous", message, f"Write `US {size}` or `imp {size}`.")
    return Quantity(value, name)


def _two_meanings(found: re.Match[str], unit: str) -> Refusal:
    """A comma before three digits parts thousands in one country and decimals in the next."""
    number = found["sign"] + found["number"]
    tail = f" {_shown(found['unit']) or unit}".rstrip()
    small, large = number.replace(",", "."), number.replace(",", "")
    cure = f"Write `{small}{tail}` or `{large}{tail}`."
    return Refusal("ambiguous", f"`{number}` can be read as {small} or as {large}.", cure)


def _no_number(plain: str, unit: str) -> Refusal:
    message = f"`{_shown(plain)}` does not start with a number." if plain else "Nothing was typed."
    return Refusal("no-number", message, f"Write a number, {_example(unit)}")


def _example(unit: str) -> str:
    if not unit:
        return "as in `12.5`."
    return f"with or without its unit, as in `{write(Quantity(Fraction(25, 2), unit))}`."


def _a(noun: str) -> str:
    return f"{'an' if noun[0] in 'aeiou' else 'a'} {noun}"


def _shown(text: str) -> str:
    """Typed text made safe to print: nothing that moves the cursor or turns the writing round."""
    return "".join(sign if sign.isprintable() else "�" for sign in text).replace("`", "'")
