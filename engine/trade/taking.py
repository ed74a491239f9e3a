"""From what was typed to what a function takes: units, lists, words, defaults and bounds.

Whatever is wrong is refused with the cure, one thing at a time.
"""

from collections.abc import Mapping, Sequence
from fractions import Fraction
from functools import cache
from math import inf, isfinite
from typing import NamedTuple

from engine.errors import Refusal
from engine.nearest import meant
from engine.quantity import Quantity, convert, dimension, parse, parse_number, spelling, write, write_number
from engine.trade.inputs import ANY, SAME, TEXT, WORD, Input
from engine.units import look_up

#: What may be given for one value; a text is read as a person types it.
One = str | int | float | Fraction | Quantity
Given = One | Sequence[One]
#: What was taken, as it was given: with the unit that was typed.
Kept = Quantity | Fraction | str | tuple[Quantity | Fraction | str, ...]


class Taken(NamedTuple):
    """One input: as it was given, and the numbers or words that the function gets, in the input's unit."""

    kept: Kept
    #: Fractions in the unit of the input, or words; one for each value of a list.
    values: tuple[Fraction | str, ...]
    #: The unit of the values: that of the input, or of the first reading where the input takes any.
    unit: str


def take(name: str, wanted: Input, given: Given) -> Taken | Refusal:
    """What was given for one input of the calculator `name`, or why it cannot be."""
    taken = _many(wanted, given) if wanted.many else _one(wanted, given)
    if isinstance(taken, Refusal):
        return taken._replace(message=f"{wanted.name}: {taken.message}")
    if wanted.many > len(taken.values):
        count = f"at least {wanted.many} value{'s' * (wanted.many > 1)}"
        cure = f"Give {count}, parted by commas: {wanted.name}=A,B."
        return Refusal(
            "too-few", f"`{name}` needs {count} of {wanted.name}; {len(taken.values)} given.", cure
        )
    return taken


def unknown(name: str, inputs: Sequence[Input], given: Mapping[str, Given]) -> Refusal | None:
    """The first input given that the calculator does not have."""
    known = {wanted.name for wanted in inputs}
    for word in given:
        if word not in known:
            return Refusal("unknown-input", f"`{name}` has no input `{word}`.", meant(word, known))
    return None


def missing(name: str, inputs: Sequence[Input], given: Mapping[str, Given]) -> Refusal | None:
    """All inputs that must be given and are not."""
    lacking = [i for i in inputs if not (i.name in given or i.default or i.optional)]
    if not lacking:
        return None
    told = ", ".join(f"`{i.name}` ({i.title})" for i in lacking)
    return Refusal("missing", f"`{name}` also needs {told}.", f"Give {example(lacking)}.")


def example(inputs: Sequence[Input]) -> str:
    """What to type for these inputs, with words for what only the reader knows.

    >>> example([Input("torque", "T", "Torque at the bolt", "N·m")])
    'torque=NUMBER N·m'
    """
    return " ".join(f"{i.name}={_example(i)}" for i in inputs)


def _example(wanted: Input) -> str:
    if wanted.choices:
        return "|".join(wanted.choices)
    unit = wanted.unit if wanted.unit not in (ANY, TEXT, "") else ""
    return f"NUMBER{unit and f' {unit}'}" if wanted.unit != TEXT else "TEXT"


def _one(wanted: Input, given: Given) -> Taken | Refusal:
    if not isinstance(given, One):
        return Refusal("one-value", "One value is wanted here, not a list.", "Give one.")
    if wanted.unit in (WORD, TEXT):
        word = _word(wanted, str(given))
        return word if isinstance(word, Refusal) else Taken(word, (word,), wanted.unit)
    number = _number(wanted, given)
    if isinstance(number, Refusal):
        return number
    kept, value = number
    return Taken(kept, (value,), wanted.unit)


def _many(wanted: Input, given: Given) -> Taken | Refusal:
    """A list: `a, b, c`, or `a; b; c` where the comma is the decimal sign; the last unit may serve all."""
    parts: Sequence[One] = _parts(given) if isinstance(given, One) else given
    settled = _settled(wanted, parts)
    if wanted.unit == ANY and dimension(settled.unit) == "temperature":
        message = "A difference of temperatures is no temperature."
        return Refusal("other-dimension", message, "Take the readings one by one.")
    kept: list[Quantity | Fraction | str] = []
    values: list[Fraction | str] = []
    for part in parts:
        taken = _one(settled, part)
        if isinstance(taken, Refusal):
            return taken
        assert not isinstance(taken.kept, tuple)
        kept.append(taken.kept)
        values += taken.values
    return Taken(tuple(kept), tuple(values), settled.unit)


def _parts(given: One) -> Sequence[One]:
    if not isinstance(given, str):
        return [given]
    parts = [part.strip() for part in given.split(";" if ";" in given else ",")]
    last = _unit_typed(parts[-1])
    if last and all(_is_bare(part) for part in parts[:-1]):
        return [f"{part} {last}" if part else part for part in parts[:-1]] + [parts[-1]]
    return parts


def _settled(wanted: Input, parts: Sequence[One]) -> Input:
    """The input with the unit of its first reading, where it takes readings of any kind."""
    if wanted.unit != ANY:
        return wanted
    typed = (part.unit if isinstance(part, Quantity) else spelling(_unit_typed(str(part))) for part in parts)
    return wanted._replace(unit=next((unit for unit in typed if unit), ""))


def _unit_typed(text: str) -> str:
    """What stands behind the number."""
    return text.strip().lstrip("+-−0123456789.,/ ½⅓⅔¼¾⅛⅜⅝⅞")


def _is_bare(text: str) -> bool:
    return not _unit_typed(text)


def _word(wanted: Input, typed: str) -> str | Refusal:
    text = typed.strip()
    if wanted.unit == TEXT:
        return text or Refusal("missing", "Nothing was typed.", f"Type {wanted.title}.")
    for choice in wanted.choices:
        if choice.casefold() == text.casefold():
            return choice
    unit = spelling(text)
    if unit in wanted.choices:
        return unit
    message = f"`{text[:40]}` is none of the words known here."
    return Refusal("unknown-word", message, meant(text, wanted.choices))


def _number(wanted: Input, given: One) -> tuple[Quantity | Fraction, Fraction] | Refusal:
    """A number as given and in the unit of the input, within its bounds."""
    kept = _read(wanted, given)
    if isinstance(kept, Refusal):
        return kept
    if isinstance(kept, Quantity):
        value = _difference(kept) if wanted.unit == "K" else convert(kept, wanted.unit).value
    else:
        value = kept
    low, high = _bound(wanted.least), _bound(wanted.most)
    if low <= value <= high:
        return kept, value
    return _outside(wanted, kept, bare=isinstance(given, str) and _is_bare(given))


def _read(wanted: Input, given: One) -> Quantity | Fraction | Refusal:
    match given:
        case Quantity() if not wanted.unit or dimension(given.unit) != dimension(wanted.unit):
            cure = f"Give it in `{wanted.unit}`." if wanted.unit else "Leave the unit out."
            return Refusal("other-dimension", f"{write(given)} is not of the kind that is wanted here.", cure)
        case Quantity():
            return given
        case str():
            return parse(given, wanted.unit) if wanted.unit else parse_number(given)
        case float() if not isfinite(given):
            return Refusal("no-number", f"`{given}` is no number to reckon with.", "Give a number.")
    number = Fraction(given)
    return Quantity(number, wanted.unit) if wanted.unit else number


def _difference(quantity: Quantity) -> Fraction:
    """A difference of temperatures in kelvin: 18 °F apart are 10 K, and the zero of the scale is nothing."""
    return quantity.value * look_up(quantity.unit).factor


@cache
def _bound(bound: float) -> Fraction | float:
    """A bound as it is written in the table, 0.1 and not the binary number next to it."""
    return Fraction(str(bound)) if isfinite(bound) else bound


def _outside(wanted: Input, kept: Quantity | Fraction, *, bare: bool) -> Refusal:
    from engine.trade.guess import asked, guesses  # only a slip needs it, and most sums have none

    number = write(kept) if isinstance(kept, Quantity) else write_number(kept)
    guessed = ""
    if isinstance(kept, Quantity) and wanted.unit != "K":
        guessed = asked(guesses(kept, _bound(wanted.least), _bound(wanted.most), wanted.unit, bare=bare))
    cure = " ".join(filter(None, (guessed, f"Give {bounds(wanted)}.")))
    return Refusal("outside", f"{number} is outside what the sum holds for.", cure)


def bounds(wanted: Input) -> str:
    """The bounds of an input in words; empty where it has none.

    >>> bounds(Input("tread", "t", "Tread depth", "mm", least=0, most=20))
    '0 mm to 20 mm'
    """
    low, high = (_shown(bound, wanted.unit) for bound in (wanted.least, wanted.most))
    if wanted.least == -inf:
        return f"no more than {high}" if wanted.most < inf else ""
    return f"no less than {low}" if wanted.most == inf else f"{low} to {high}"


def _shown(bound: float, unit: str) -> str:
    exact = _bound(bound)
    if isinstance(exact, float):
        return ""
    return write(Quantity(exact, unit)) if unit and unit not in (ANY, SAME) else write_number(exact)
