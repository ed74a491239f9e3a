"""The calculators for gear oil grades, over `oil_grades`."""

from typing import Final

from engine.errors import Refusal
from engine.trade.answers import finite, single
from engine.trade.calculator import Calculator, Input, Output
from engine.trade.inputs import Values
from engine.trade.oil_grades import (
    REVISIONS,
    engine_grades,
    hot_grade,
    hot_range,
    industrial_grade,
    label,
    read_grade,
    winter_grades_for,
)

_REVISION: Final = Input(
    "revision", "revision", "Revision of SAE J306", "word", default="2019", choices=REVISIONS
)


def _grade(at_100: float, thick_at: float | None, revision: str) -> Values | Refusal:
    found = hot_grade(at_100, revision) if thick_at is None else label(thick_at, at_100, revision)
    return found if isinstance(found, Refusal) else (found, ", ".join(engine_grades(at_100)) or None)


def _meaning(grade: str, revision: str) -> Values | Refusal:
    halves = read_grade(grade, revision)
    if isinstance(halves, Refusal):
        return halves
    limits = hot_range(grade, revision)
    if isinstance(limits, Refusal):
        return limits
    coldest = halves[0].limit if halves[0] else None
    words = "no promise" if coldest is None else "reaches the bearings down to the coldest day"
    return coldest, words, limits[0], finite(limits[1])


def _for_cold(ambient: float, revision: str) -> Values | Refusal:
    found = winter_grades_for(ambient, revision)
    return found if isinstance(found, Refusal) else (found[0], ", ".join(found))


CALCULATORS: Final = (
    Calculator(
        name="gear-oil-grade",
        family="oils",
        title="Gear oil grade from viscosity",
        inputs=(
            Input("at-100", "v", "Viscosity at 100 °C", "mm²/s", least=0, most=1_000),
            Input(
                "thick-at",
                "t",
                "Temperature at which it has 150 000 mPa·s",
                "°C",
                least=-80,
                most=60,
                optional=True,
            ),
            _REVISION,
        ),
        outputs=(
            Output("grade", "grade", "Grade", "text"),
            Output("engine", "engine", "As thick when hot as engine oil", "text"),
        ),
        function=_grade,
        formula=("lower limit <= v < upper limit", "t <= limit of the grade with a W"),
        source="SAE J306 (February 2019); its revision of 2005, and SAE J300 but for 40 and 50, from memory",
        mark="published",
        valid="For the viscosity after the shear test. No engine oil replaces a gear oil that is as thick.",
        example="at-100=15 thick-at=-41",
    ),
    Calculator(
        name="gear-oil-meaning",
        family="oils",
        title="What a gear oil grade promises",
        inputs=(Input("grade", "grade", "Grade as it stands on the can", "text"), _REVISION),
        outputs=(
            Output("coldest", "t", "Coldest day, at no more than 150 000 mPa·s", "°C"),
            Output("cold", "cold", "In the cold", "text"),
            Output("least", "v1", "At 100 °C, from", "mm²/s"),
            Output("below", "v2", "At 100 °C, below", "mm²/s"),
        ),
        function=_meaning,
        formula=("v1 <= viscosity at 100 °C < v2",),
        source="SAE J306 (February 2019); the revision of 2005 from memory",
        mark="published",
        valid="For axles and manual gearboxes. The coldest day is that of 150 000 mPa·s, not easy shifting.",
        example="grade=75W-90",
    ),
    Calculator(
        name="gear-oil-for-cold",
        family="oils",
        title="Gear oil grades for the coldest day",
        inputs=(Input("ambient", "t", "Coldest day", "°C", least=-90, most=60), _REVISION),
        outputs=(
            Output("grade", "grade", "Thickest grade that serves", "text"),
            Output("grades", "grades", "All that serve", "text"),
        ),
        function=_for_cold,
        formula=("limit of the grade <= t",),
        source="SAE J306 (February 2019); the revision of 2005 from memory",
        mark="published",
        valid="Only for the W half; the number after it is that of the sheet.",
        example="ambient=-30",
    ),
    Calculator(
        name="industrial-oil-grade",
        family="oils",
        title="ISO VG number from viscosity",
        inputs=(Input("at-40", "v", "Viscosity at 40 °C", "mm²/s", least=0, most=10_000),),
        outputs=(Output("grade", "VG", "ISO VG", "text"),),
        function=lambda at_40: single(industrial_grade(at_40)),
        formula=("0.9 VG <= v <= 1.1 VG",),
        source="ISO 3448",
        mark="published",
        valid="Viscosity alone; it says nothing of additives.",
        example="at-40=220",
    ),
)
