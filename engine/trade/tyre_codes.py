"""What stands on a sidewall: `205/55R16 91V`, `LT245/75R16`, `31x10.50R15`, `T125/70D15`."""

import re
from fractions import Fraction
from typing import Final, NamedTuple

from engine.errors import Refusal
from engine.quantity import Quantity
from engine.trade.guess import asked, guesses

_METRIC: Final = (
    r"(?P<use>P|LT|T|ST|HL)?(?P<width>\d{2,4})/(?P<aspect>\d{1,3})(?P<old>[SHVZ](?=R))?(?P<make>R|D|B|-)?F?"
    r"(?P<rim>\d{1,2}(?:\.5)?|\d{3})(?P<late>LT|C)?(?:/[A-H](?=\d|$))?"
)
#: Older radials, whose code leaves the aspect ratio out.
_FULL: Final = (
    r"(?P<use>P|LT)?(?P<width>\d{3})(?P<old>[SHV](?=R))?(?P<make>R)(?P<rim>\d{2})(?P<late>LT|C)?"
    r"(?:/[A-H](?=\d|$))?"
)
#: What they have, within 2 %: 165R13 is 596 mm over all, 185R14 650 mm. From memory.
_FULL_ASPECT: Final = 80
_FLOTATION: Final = (
    r"(?P<use>LT)?(?P<over>\d{2}(?:\.\d{1,2})?)[X×](?P<width>\d{1,2}(?:\.\d{1,2})?)"
    r"(?P<old>[SHVZ](?=R))?(?P<make>R|D|B|-)?(?P<rim>\d{2}(?:\.5)?)(?P<late>LT|C)?(?:/[A-H](?=\d|$))?"
)
#: A load index has no zero in front and ends at 279: that tells `R15105S` and `R39091V` apart.
_SERVICE: Final = (
    r"(?:(?P<open>\()?(?P<load>[1-9]\d|[12]\d\d)(?:/(?P<twin>\d{2,3}))?(?P<speed>A[1-8]|[B-HJ-NP-UWVY]|\(Y\))\)?)?"
    r"(?:XL|RF|TL|TT|M\+S)*"
)
_EXAMPLES: Final = "Write it as it stands on the sidewall, as in `205/55R16`, `LT245/75R16` or `31x10.50R15`."
#: How the carcass is built, by its letter; without one, as with a dash, it is diagonal.
_MAKES: Final = {"R": "radial", "D": "diagonal", "B": "belted", "-": "diagonal"}
_USES: Final = {
    "P": "car",
    "LT": "light truck",
    "C": "light truck",
    "T": "temporary spare",
    "ST": "trailer",
    "HL": "car",
}
#: What numbers of a code may be; wider than anything made for a road vehicle of this kind.
_RANGES: Final = {"width": (100, 500), "aspect": (20, 100), "rim": (8, 30)}


class Size(NamedTuple):
    """What a size code says; lengths in mm, exact."""

    #: Of the section.
    width: Fraction
    #: From the rim to the tread.
    height: Fraction
    #: Of the rim at its seat.
    rim: Fraction
    #: `radial`, `diagonal` or `belted`.
    make: str
    #: `car`, `light truck`, `temporary spare` or `trailer`.
    use: str
    load: int | None = None
    speed: str = ""

    @property
    def diameter(self) -> Fraction:
        """Over the tread, new and not loaded, in mm."""
        return self.rim + 2 * self.height


def read_size(code: str) -> Size | Refusal:
    """What a size code says, in any capitals, with or without spaces and service description.

    Metric: height = width · aspect / 100, diameter = 25.4 · rim + 2 height. Flotation: the diameter over the
    tread and the width are in inches as they stand. Rim codes from 100 on are mm. A load range
    (`/E`) and an old speed letter before the R (`195/65VR15`) are read as well; an aspect that
    is left out (`185R14C`) is 80, from memory. Source: UN R30, ISO 4000-1.
    Refuses, with what may have been meant, numbers that no road tyre has.

    205 mm wide, 55 % high: 112.75 mm; 16 in are 406.4 mm: 631.9 mm over all.

    >>> float(read_size("205/55 R16 91V").diameter), float(read_size("31x10.50R15").diameter)
    (631.9, 787.4)
    >>> print(read_size("205/55R61"))
    There is no rim of 61. Did you mean 16?
    """
    plain = re.sub(r"\s", "", code).upper()
    found = re.fullmatch(_METRIC + _SERVICE, plain, re.ASCII)
    if found:
        return _metric(found, Fraction(found["aspect"]))
    found = re.fullmatch(_FULL + _SERVICE, plain, re.ASCII)
    if found:
        return _metric(found, Fraction(_FULL_ASPECT))
    found = re.fullmatch(_FLOTATION + _SERVICE, plain, re.ASCII)
    if found:
        return _flotation(found)
    shown = "".join(sign for sign in code[:40] if sign.isprintable()).replace("`", "'")
    return Refusal("tyre-code", f"`{shown}` is no size code of a tyre.", _EXAMPLES)


def _metric(found: re.Match[str], aspect: Fraction) -> Size | Refusal:
    width, rim = Fraction(found["width"]), Fraction(found["rim"])
    metric_rim = rim >= 100
    for part, value in (("width", width), ("aspect", aspect), ("rim", rim / Fraction("25.4"))):
        if part == "rim" and not metric_rim:
            value = rim  # noqa: PLW2901  reason: a rim code is in inches already
        refused = _range(part, value)
        if refused:
            return refused
    seat = rim if metric_rim else rim * Fraction("25.4")
    return _made(found, width, width * aspect / 100, seat)


def _flotation(found: re.Match[str]) -> Size | Refusal:
    inch = Fraction("25.4")
    over, width, rim = (Fraction(found[part]) for part in ("over", "width", "rim"))
    refused = _range("rim", rim)
    if refused:
        return refused
    if not rim < over <= 50:
        return Refusal("tyre-code", f"{found['over']} in over all do not fit a rim of {rim} in.", _EXAMPLES)
    return _made(found, width * inch, (over - rim) * inch / 2, rim * inch)


def _made(found: re.Match[str], width: Fraction, height: Fraction, rim: Fraction) -> Size:
    use = _USES.get(found["use"] or found["late"] or "", "car")
    load = int(found["load"]) if found["load"] else None
    speed = found["speed"] or (found["old"] or "").replace("Z", "")
    if found["open"] and speed == "Y":
        speed = "(Y)"
    return Size(width, height, rim, _MAKES[found["make"] or "-"], use, load, speed)


def _range(part: str, value: Fraction) -> Refusal | None:
    """A number that no road tyre has, with what it may have been."""
    low, high = _RANGES[part]
    if low <= value <= high:
        return None
    near = (guess for guess in guesses(Quantity(value, "%"), low, high, "%") if value.denominator == 1)
    meant = asked(tuple(near)).replace(" %", "")
    cure = meant or f"It lies between {low} and {high}. {_EXAMPLES}"
    return Refusal("tyre-code", f"There is no {part} of {float(value):g}.", cure)
