"""A vehicle identification number: its parts, its check digit, its model year.

17 characters; I, O and Q are left out, for they look like 1 and 0. Nothing here knows who made the vehicle.
"""

from typing import Final, NamedTuple

from engine.errors import Refusal
from engine.trade.calculator import Calculator, Input, Output
from engine.trade.inputs import Values

LENGTH: Final = 17
#: What each letter counts in the check. Source: 49 CFR 565.15; digits count themselves.
VALUES: Final = {str(digit): digit for digit in range(10)} | dict(
    zip(
        "ABCDEFGHJKLMNPRSTUVWXYZ",
        (1, 2, 3, 4, 5, 6, 7, 8, 1, 2, 3, 4, 5, 7, 9, 2, 3, 4, 5, 6, 7, 8, 9),
        strict=True,
    )
)
#: What each place weighs; the check digit itself, ninth, weighs nothing.
WEIGHTS: Final = (8, 7, 6, 5, 4, 3, 2, 10, 0, 9, 8, 7, 6, 5, 4, 3, 2)
#: One letter or digit a year, thirty years round, from 1980.
YEARS: Final = "ABCDEFGHJKLMNPRSTVWXY123456789"
#: Numbers that begin so belong to North America, where the check digit must be right (from memory).
_NORTH_AMERICA: Final = "12345"
_CHECK: Final = 8
_YEAR: Final = 9


class Parts(NamedTuple):
    """The parts of a number by ISO 3779, and what can be told of them."""

    maker: str
    descriptor: str
    check: str
    year: str
    plant: str
    serial: str
    #: Fewer than 500 or 1000 vehicles a year: three more characters then tell the maker.
    small_maker: bool


def plain(text: str) -> str | Refusal:
    """The number as it is stamped: capitals, without the blanks and hyphens that people put in.

    Refuses another length than 17, and characters that no such number has, by their place.

    >>> plain("111 111-1111111 1111")
    '11111111111111111'
    >>> print(plain("1111111111111111"))
    A vehicle identification number has 17 characters; this has 16. One is missing: read it again in groups.
    """
    number = "".join(text.split()).replace("-", "").upper()
    if len(number) != LENGTH:
        short = len(number) < LENGTH
        message = f"A vehicle identification number has {LENGTH} characters; this has {len(number)}."
        apart = abs(LENGTH - len(number))
        what = "One is" if apart == 1 else f"{apart} are"
        return Refusal(
            "length", message, f"{what} {'missing' if short else 'too many'}: read it again in groups."
        )
    for place, sign in enumerate(number, 1):
        if sign not in VALUES:
            cure = (
                "I, O and Q are never used: read 1 or 0."
                if sign in "IOQ"
                else "Only A to Z and 0 to 9 are used."
            )
            return Refusal(
                "character", f"Character {place} is `{sign if sign.isprintable() else '?'}`.", cure
            )
    return number


def parts(text: str) -> Parts | Refusal:
    """The number in its parts: 1-3 maker, 4-8 descriptor, 9 check, 10 year, 11 plant, 12-17 serial.

    Source: ISO 3779, 49 CFR 565.15. A 9 in the third place tells a small maker, whose name goes on in 12-14.

    >>> parts("000AA00A5AA000001")[:6]
    ('000', 'AA00A', '5', 'A', 'A', '000001')
    """
    number = plain(text)
    if isinstance(number, Refusal):
        return number
    small = number[2] == "9"
    maker = number[:3] + (number[11:14] if small else "")
    return Parts(maker, number[3:8], number[8], number[9], number[10], number[14 if small else 11 :], small)


def products(number: str) -> tuple[int, ...]:
    """Each character's value times its weight; KeyError for one that no number has.

    >>> sum(products("1" * 17))
    89
    """
    return tuple(VALUES[sign] * weight for sign, weight in zip(number, WEIGHTS, strict=True))


def check_digit(text: str) -> str | Refusal:
    """The check digit that belongs in the ninth place: the sum of products modulo 11, X for 10.

    Source: 49 CFR 565.15. It does not matter what stands in the ninth place now.

    >>> check_digit("1" * 17), check_digit("000AA00A-AA000001".replace("-", "0"))
    ('1', '5')
    """
    number = plain(text)
    if isinstance(number, Refusal):
        return number
    return "0123456789X"[sum(products(number)) % 11]


def verdict(text: str) -> tuple[str, str] | Refusal:
    """`right`, `wrong` or `unchecked`, and what that means; a wrong digit counts in North America only.

    Source: 49 CFR 565.15 makes the digit compulsory there; that other regions leave it free is from memory.

    >>> verdict("1" * 17)[0], verdict("11111111211111111")[0], verdict("W" * 17)[0]
    ('right', 'wrong', 'unchecked')
    """
    number = plain(text)
    if isinstance(number, Refusal):
        return number
    expected = "0123456789X"[sum(products(number)) % 11]
    if number[_CHECK] == expected:
        return (
            "right",
            "The check digit fits: one character misread is ruled out, save for look-alikes of one value.",
        )
    if number[0] in _NORTH_AMERICA:
        return (
            "wrong",
            f"The ninth character is {number[_CHECK]} and should be {expected}: one or more are misread.",
        )
    return (
        "unchecked",
        f"The ninth character is {number[_CHECK]}, not {expected}; outside North America it need not fit.",
    )


def model_years(text: str, *, light: bool | None = None) -> tuple[int, ...] | Refusal:
    """The model years that the tenth character can mean, 1980 to 2039.

    For a light vehicle (up to 4536 kg) a digit in the seventh place means 1980-2009 and a letter 2010-2039;
    with `light` false or unknown both stay open. Source: 49 CFR 565.15. Outside North America the place may
    hold 0, or no year at all.

    >>> model_years("000AA00A5AA000001", light=True), model_years("000AA00A5AA000001")
    ((1980,), (1980, 2010))
    """
    number = plain(text)
    if isinstance(number, Refusal):
        return number
    sign = number[_YEAR]
    if sign not in YEARS:
        message = f"The tenth character, {sign}, stands for no model year."
        return Refusal(
            "no-year", message, "Outside North America it may be free: take the year from the papers."
        )
    first = 1980 + YEARS.index(sign)
    if light:
        return (first,) if number[6].isdigit() else (first + 30,)
    return first, first + 30


_NUMBER: Final = Input("number", "number", "Vehicle identification number", "text")


def _read(number: str, light: str) -> Values | Refusal:
    found = parts(number)
    if isinstance(found, Refusal):
        return found
    judged = verdict(number)
    if isinstance(judged, Refusal):
        return judged
    years = model_years(number, light={"yes": True, "no": False}.get(light))
    told = "no model year" if isinstance(years, Refusal) else " or ".join(map(str, years))
    return found.maker, found.descriptor, found.check, found.plant, found.serial, told, *judged


CALCULATORS: Final = (
    Calculator(
        name="vin",
        family="vin",
        title="What a vehicle identification number says",
        inputs=(
            _NUMBER,
            Input(
                "light",
                "light",
                "Light vehicle, up to 4536 kg?",
                "word",
                default="unknown",
                choices=("yes", "no", "unknown"),
            ),
        ),
        outputs=(
            Output("maker", "maker", "Maker, 1-3 (and 12-14 of a small one)", "text"),
            Output("descriptor", "descriptor", "Descriptor, 4-8", "text"),
            Output("check", "check", "Check digit, 9", "text"),
            Output("plant", "plant", "Plant, 11", "text"),
            Output("serial", "serial", "Serial", "text"),
            Output("years", "years", "Model year", "text"),
            Output("verdict", "verdict", "Check", "text"),
            Output("why", "why", "That is", "text"),
        ),
        function=_read,
        formula=("check digit: sum of value times weight, modulo 11; X for 10",),
        source="ISO 3779, 49 CFR 565.15",
        mark="published",
        valid="Structure only. The check counts in North America; elsewhere digit and year may be free.",
        example="number=000AA00A5AA000001 light=yes",
    ),
)
