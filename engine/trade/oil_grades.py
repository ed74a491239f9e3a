"""What `75W-90` on a can says, and which grade an oil of known viscosity has.

Gear oil numbers are not engine oil numbers: gear oil 90 is about as thick as engine oil 40 or 50. A grade is
told by two tests: the viscosity at 100 °C (after shearing), and the temperature at which the cold oil becomes
as thick as 150 000 mPa·s, when a pinion bearing starves.
"""

import re
from typing import Final, NamedTuple

from engine.errors import Refusal


class Winter(NamedTuple):
    """A grade with a W: as thick as 150 000 mPa·s no higher than `limit` °C, and `least` mm²/s at 100 °C."""

    name: str
    limit: float
    least: float


class Hot(NamedTuple):
    """A grade without a W: from `least`, which belongs to it, to below `below` mm²/s at 100 °C."""

    name: str
    least: float
    below: float


class Table(NamedTuple):
    """One revision of SAE J306, thin to thick."""

    winter: tuple[Winter, ...]
    hot: tuple[Hot, ...]


_THICK: Final = (
    Hot("85", 11.0, 13.5),
    Hot("90", 13.5, 18.5),
    Hot("110", 18.5, 24.0),
    Hot("140", 24.0, 32.5),
    Hot("190", 32.5, 41.0),
    Hot("250", 41.0, float("inf")),
)
#: SAE J306 by its revision. 2019: February 2019, as published. 2005: from memory.
TABLES: Final = {
    "2019": Table(
        (
            Winter("70W", -55, 3.8),
            Winter("75W", -40, 3.8),
            Winter("80W", -26, 8.5),
            Winter("85W", -12, 11.0),
        ),
        (Hot("65", 3.8, 5.0), Hot("70", 5.0, 6.5), Hot("75", 6.5, 8.5), Hot("80", 8.5, 11.0), *_THICK),
    ),
    "2005": Table(
        (
            Winter("70W", -55, 4.1),
            Winter("75W", -40, 4.1),
            Winter("80W", -26, 7.0),
            Winter("85W", -12, 11.0),
        ),
        (Hot("80", 7.0, 11.0), *_THICK),
    ),
}
REVISIONS: Final = tuple(TABLES)
#: Numbers of SAE J300, which people type by mistake.
_ENGINE: Final = frozenset(
    ("0W", "5W", "10W", "15W", "20W", "25W", "8", "12", "16", "20", "30", "40", "50", "60")
)
#: Engine oil grades of SAE J300 without a W, mm²/s at 100 °C; 40 and 50 as published, the others from memory.
#: The thin ones overlap.
ENGINE_HOT: Final = (
    Hot("8", 4.0, 6.1),
    Hot("12", 5.0, 7.1),
    Hot("16", 6.1, 8.2),
    Hot("20", 6.9, 9.3),
    Hot("30", 9.3, 12.5),
    Hot("40", 12.5, 16.3),
    Hot("50", 16.3, 21.9),
    Hot("60", 21.9, 26.1),
)
#: Mid-points of ISO 3448, mm²/s at 40 °C, and their names; each grade reaches 10 % to either side.
_INDUSTRIAL: Final = {
    "2": 2.2,
    "3": 3.2,
    "5": 4.6,
    "7": 6.8,
    **{str(n): float(n) for n in (10, 15, 22, 32, 46, 68, 100, 150, 220, 320, 460, 680)},
    **{str(n): float(n) for n in (1000, 1500, 2200, 3200)},
}


def hot_grade(at_100: float, revision: str = "2019") -> str | Refusal:
    """The grade without a W of an oil of this viscosity, mm²/s at 100 °C.

    Lower limits belong to their grade, upper ones to the next. Source: SAE J306. Refuses what is thinner than
    any of them.

    >>> hot_grade(13.5), hot_grade(18.49), hot_grade(18.5), hot_grade(41)
    ('90', '90', '110', '250')
    """
    for grade in TABLES[revision].hot:
        if grade.least <= at_100 < grade.below:
            return grade.name
    least = TABLES[revision].hot[0]
    message = (
        f"An oil of {at_100:g} mm²/s at 100 °C is thinner than any gear oil grade of SAE J306:{revision}."
    )
    return Refusal("no-grade", message, f"The thinnest grade, {least.name}, starts at {least.least:g} mm²/s.")


def engine_grades(at_100: float) -> tuple[str, ...]:
    """The engine oils that are as thick at 100 °C, none where there is none: to compare, never to replace.

    Source: SAE J300; 40 and 50 as published, the others from memory.

    >>> engine_grades(14), engine_grades(18), engine_grades(7), engine_grades(30)
    (('40',), ('50',), ('12', '16', '20'), ())
    """
    return tuple(grade.name for grade in ENGINE_HOT if grade.least <= at_100 < grade.below)


def winter_grade(thick_at: float, at_100: float, revision: str = "2019") -> str | Refusal:
    """The grade with a W for the coldest work that an oil can do.

    `thick_at` is the temperature in °C at which the oil has 150 000 mPa·s (ASTM D2983), `at_100` its mm²/s at
    100 °C. Source: SAE J306.

    >>> winter_grade(-41, 14.0), winter_grade(-30, 14.0)
    ('75W', '80W')
    """
    grades = TABLES[revision].winter
    for grade in grades:
        if thick_at <= grade.limit and at_100 >= grade.least:
            return grade.name
    last = grades[-1]
    message = f"No grade with a W fits {thick_at:g} °C at 150 000 mPa·s with {at_100:g} mm²/s at 100 °C."
    cure = f"{last.name} asks for {last.limit:g} °C or colder and {last.least:g} mm²/s or more."
    thin = min(grades, key=lambda grade: grade.least)
    if at_100 < thin.least:
        cure = f"Every one of them asks for {thin.least:g} mm²/s or more."
    return Refusal("no-grade", message, cure)


def label(thick_at: float, at_100: float, revision: str = "2019") -> str | Refusal:
    """The full grade of an oil, such as 75W-90, from both tests; without its W where the cold test is missed.

    >>> label(-41, 15.0), label(-5, 15.0)
    ('75W-90', '90')
    """
    hot = hot_grade(at_100, revision)
    winter = winter_grade(thick_at, at_100, revision)
    if isinstance(hot, Refusal) or isinstance(winter, Refusal):
        return hot
    return f"{winter}-{hot}"


def read_grade(text: str, revision: str = "2019") -> tuple[Winter | None, Hot | None] | Refusal:
    """Both halves of a grade as people write it: `75W-90`, `75w90`, `SAE 80W`, `90`.

    Refuses engine oil numbers, unknown grades, and pairs that no oil can have: 85W asks for 11 mm²/s at
    100 °C, so there is no 85W-80.

    >>> read_grade("SAE 75w90")
    (Winter(name='75W', limit=-40, least=3.8), Hot(name='90', least=13.5, below=18.5))
    >>> print(read_grade("15W-40"))
    `15W` is an engine oil number (SAE J300).
    Gear oils have numbers of their own, SAE J306: give one as in `75W-90`.
    """
    plain = text.strip().upper().removeprefix("SAE").strip()
    found = re.fullmatch(r"([0-9]{1,3}W)?[ /-]*([0-9]{1,3})?", plain, re.ASCII)
    if found is None or not plain.strip(" /-"):
        return Refusal("grade", "That is no gear oil grade.", "Write it as in `75W-90`, `80W` or `90`.")
    table = TABLES[revision]
    winters = {grade.name: grade for grade in table.winter}
    hots = {grade.name: grade for grade in table.hot}
    for part, known in ((found[1], winters), (found[2], hots)):
        if part and part not in known:
            return _unknown(part, tuple(known), revision)
    winter, hot = winters.get(found[1] or ""), hots.get(found[2] or "")
    if winter and hot and hot.below <= winter.least:
        message = (
            f"No oil is {winter.name}-{hot.name}: {winter.name} asks for {winter.least:g} mm²/s at 100 °C"
        )
        message += f" or more, and {hot.name} ends below {hot.below:g}."
        return Refusal("grade", message, "Read the can again.")
    return winter, hot


def meaning(text: str, revision: str = "2019") -> tuple[float, float, float] | Refusal:
    """What a multigrade promises: coldest °C, then from and below how many mm²/s at 100 °C.

    Below the coldest temperature the oil may be thicker than 150 000 mPa·s. A single number promises nothing
    for the cold, and is refused. Source: SAE J306.

    >>> meaning("75W-90")
    (-40, 13.5, 18.5)
    """
    halves = read_grade(text, revision)
    if isinstance(halves, Refusal):
        return halves
    winter, hot = halves
    if winter is None:
        cure = "Only a grade with a W has a cold limit: ask for the oil's data sheet."
        return Refusal("no-cold-limit", f"`{text.strip()}` promises nothing for the cold.", cure)
    if hot is None:
        return winter.limit, winter.least, float("inf")
    return winter.limit, max(winter.least, hot.least), hot.below


def hot_range(text: str, revision: str = "2019") -> tuple[float, float] | Refusal:
    """From and below how many mm²/s at 100 °C an oil of this grade lies; of a bare W grade, the least alone.

    >>> hot_range("90"), hot_range("80W")
    ((13.5, 18.5), (8.5, inf))
    """
    halves = read_grade(text, revision)
    if isinstance(halves, Refusal):
        return halves
    winter, hot = halves
    least = max(half.least for half in (winter, hot) if half)
    return least, hot.below if hot else float("inf")


def winter_grades_for(ambient: float, revision: str = "2019") -> tuple[str, ...] | Refusal:
    """The W grades that still reach the bearings at this coldest temperature in °C, thickest first.

    >>> winter_grades_for(-30), winter_grades_for(-10)
    (('75W', '70W'), ('85W', '80W', '75W', '70W'))
    """
    fit = tuple(grade.name for grade in reversed(TABLES[revision].winter) if grade.limit <= ambient)
    if not fit:
        coldest = TABLES[revision].winter[0]
        message = f"No gear oil grade is made for {ambient:g} °C."
        return Refusal(
            "too-cold", message, f"{coldest.name} reaches {coldest.limit:g} °C: warm the unit first."
        )
    return fit


def industrial_grade(at_40: float) -> str | Refusal:
    """The ISO VG number of an oil by its mm²/s at 40 °C: within 10 % of the grade's mid-point.

    Source: ISO 3448.

    >>> industrial_grade(198), industrial_grade(242)
    ('220', '220')
    """
    for name, middle in _INDUSTRIAL.items():
        if round(0.9 * middle, 6) <= at_40 <= round(1.1 * middle, 6):
            return name
    message = f"{at_40:g} mm²/s at 40 °C lies between the ISO VG grades."
    return Refusal("no-grade", message, "Each reaches 10 % to either side: an oil may have no ISO VG number.")


def _unknown(part: str, known: tuple[str, ...], revision: str) -> Refusal:
    """A number that is no grade of this table, told from an engine oil's."""
    if part in _ENGINE:
        message = f"`{part}` is an engine oil number (SAE J300)."
        cure = "Gear oils have numbers of their own, SAE J306: give one as in `75W-90`."
        return Refusal("engine-grade", message, cure)
    message = f"SAE J306:{revision} has no grade `{part}`."
    return Refusal("grade", message, f"It has {', '.join(known)}.")
