"""A plain number: read from what people type, and written for people.

Numbers are fractions, exactly what was typed.
"""

import re
from fractions import Fraction
from typing import Final

from engine.errors import Refusal

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
_MARKS: Final = "-0123456789."


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


def beside_unit(number: str, unit: str) -> str:
    """A number that is written, with its unit; the sign of degrees stands close.

    >>> beside_unit("45", "°"), beside_unit("45", "mm")
    ('45°', '45 mm')
    """
    return f"{number}{'' if unit == '°' else ' '}{unit}"


def parse_number(text: str) -> Fraction | Refusal:
    """A number without a unit, typed as `parse` takes it.

    >>> parse_number("3,5"), str(parse_number("3.5 mm"))
    (Fraction(7, 2), '`mm` is a unit; a plain number is wanted here. Leave it out.')
    """
    found = read(text, "")
    if isinstance(found, Refusal):
        return found
    value, typed = found
    if typed:
        message = f"`{shown(typed)}` is a unit; a plain number is wanted here."
        return Refusal("other-dimension", message, "Leave it out.")
    return value


def plainly(text: str) -> tuple[int, int, str] | None:
    """The digits of a number typed as most are, how many stand behind the point, and what follows them.

    What follows is a unit, unless the number goes on there: `/2 in`, `,5` and `e3` take a second look. None
    where none of this can be told at a glance.

    >>> plainly("-12.50 in"), plainly("30"), plainly("+30")
    ((-1250, 2, 'in'), (30, 0, ''), None)
    """
    number, _, unit = text.partition(" ")
    whole, _, part = number.partition(".")
    digits = whole + part
    if not digits.isdigit():  # a sign, or a unit that follows at once
        unit = text.lstrip(_MARKS)
        whole, _, part = text[: len(text) - len(unit)].rstrip(" ").partition(".")
        unit = unit.lstrip(" ")
        digits = whole.removeprefix("-") + part
        if not digits.isdigit():
            return None
    if len(digits) > _DIGITS or not digits.isascii():
        return None
    return int(whole + part), len(part), unit


def read(text: str, unit: str) -> tuple[Fraction, str] | Refusal:
    """The number typed, and its unit as typed; `unit` is for the examples of the cures."""
    if len(text) > _LONGEST:
        message = f"That is longer than {_LONGEST} characters."
        return Refusal("too-long", message, f"Write a number, {_example(unit)}")
    short = plainly(text)
    if short is not None and _is_unit(short[2]):
        digits, places, typed = short
        return Fraction(digits, 10**places), " ".join(typed.translate(_LOOKS).split())
    plain = " ".join(text.translate(_LOOKS).split())
    found = re.fullmatch(_NUMBER, plain)
    if found is None:
        return _no_number(plain, unit)
    value = _value(found, unit)
    return value if isinstance(value, Refusal) else (value, found["unit"])


def _is_unit(typed: str) -> bool:
    """Whether what stands behind a number cannot belong to the number, as a power or a fraction would."""
    return not typed or (typed[0].isalpha() and typed[0] not in "eE") or typed[0] in "%°"


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
        message = f"`{shown(found[0])}` is not one number."
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


def _two_meanings(found: re.Match[str], unit: str) -> Refusal:
    """A comma before three digits parts thousands in one country and decimals in the next."""
    number = found["sign"] + found["number"]
    tail = f" {shown(found['unit']) or unit}".rstrip()
    small, large = number.replace(",", "."), number.replace(",", "")
    cure = f"Write `{small}{tail}` or `{large}{tail}`."
    return Refusal("ambiguous", f"`{number}` can be read as {small} or as {large}.", cure)


def _no_number(plain: str, unit: str) -> Refusal:
    message = f"`{shown(plain)}` does not start with a number." if plain else "Nothing was typed."
    return Refusal("no-number", message, f"Write a number, {_example(unit)}")


def _example(unit: str) -> str:
    if not unit:
        return "as in `12.5`."
    return f"with or without its unit, as in `{beside_unit('12.5', unit)}`."


def shown(text: str) -> str:
    """Typed text made safe to print: nothing that moves the cursor or turns the writing round."""
    return "".join(sign if sign.isprintable() else "�" for sign in text).replace("`", "'")
