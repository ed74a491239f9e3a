"""The shipped sheets and trees held against standards, rules of safety, and the kinematics of gears."""

import re
from collections.abc import Iterator
from fractions import Fraction
from itertools import pairwise
from typing import Final

import pytest
import yaml

from engine import resources
from engine.errors import Refusal
from engine.loading import folders
from engine.loading.library import gather
from engine.model.tree import Ask, Do, Document, Step
from engine.model.vehicle import Sheet
from engine.trade.differential import other_wheel, shaft_turns
from engine.trade.oil_grades import hot_range, read_grade
from engine.trade.oil_service import substitution
from engine.trade.tyre_size import rolled

LIBRARY: Final = gather(folders.shipped())
SHEETS: Final = tuple(LIBRARY.sheets.values())
DOCUMENTS: Final[dict[str, Document]] = {**LIBRARY.trees, **LIBRARY.procedures}
#: SAE J306 (February 2019): kinematic viscosity at 100 °C in mm²/s, from and below.
J306: Final = {"75W": (3.8, None), "80W": (8.5, None), "90": (13.5, 18.5)}
#: Cautions and where their rule stands: HSE HSG261 (vehicle repair), 29 CFR 1910.244(a) (jacks).
PUBLISHED: Final = {
    "raising": "HSG261",
    "lowering": "HSG261",
    "exhaust-gas": "HSG261",
    "used-oil": "HSG261",
    "under-raised": "29 CFR 1910.244(a)",
}


def limit(sheet: Sheet, name: str) -> Fraction:
    """A limit of a sheet, as it stands there."""
    return sheet.limits[name].value


def sheet_id(sheet: Sheet) -> str:
    """The name of a sheet, for the test's name."""
    return sheet.name


@pytest.mark.parametrize("sheet", SHEETS, ids=sheet_id)
def test_the_tyres_roll_as_their_size_says(sheet: Sheet) -> None:
    """ISO 4000-1: rim and twice the section height; rolled 3.05 times (common practice), within 1 %."""
    size = LIBRARY.shop.facts["tyre-size"].values[sheet.facts["tyre-size"]]
    width, aspect, rim = map(int, re.findall(r"\d+", size))
    diameter = 25.4 * rim + 2 * width * aspect / 100
    least, nominal, most = (
        float(limit(sheet, f"tyres.rolling-circumference.{word}")) for word in ("min", "nominal", "max")
    )

    assert nominal == pytest.approx(3.05 * diameter, rel=0.01)
    assert nominal == pytest.approx(rolled(diameter), rel=0.01)
    assert (0.975 * nominal < least < nominal, nominal < most < 1.015 * nominal) == (True, True)


@pytest.mark.parametrize("sheet", SHEETS, ids=sheet_id)
def test_tyres_may_differ_by_less_than_harms(sheet: Sheet) -> None:
    """0.5 % at most, which is 2/32 in of tread (common practice, no source)."""
    spread = limit(sheet, "tyres.spread.max") / limit(sheet, "tyres.rolling-circumference.nominal")

    assert Fraction("0.002") < spread <= Fraction("0.005")


@pytest.mark.parametrize("sheet", SHEETS, ids=sheet_id)
def test_the_teeth_make_the_ratio(sheet: Sheet) -> None:
    """Ring over pinion is what the propeller shaft turns in one turn of the wheels."""
    ratio = limit(sheet, "rear-axle.ring-teeth.nominal") / limit(sheet, "rear-axle.pinion-teeth.nominal")

    assert ratio == limit(sheet, "propeller-shaft.turns.nominal")


@pytest.mark.parametrize("sheet", SHEETS, ids=sheet_id)
@pytest.mark.parametrize("unit", ["transaxle", "transfer", "rear-axle"])
def test_a_gear_oil_has_a_grade_of_the_standard(sheet: Sheet, unit: str) -> None:
    """SAE J306: winter and hot grade exist, and 75W-90 or 80W-90 is what stands in the sheets."""
    grade = sheet.lubricants[unit].grade
    if grade == "ATF":
        assert (unit, sheet.facts["transmission"]) == ("transaxle", "automatic")
        return
    winter, hot = grade.split("-")
    found = hot_range(grade)

    assert not isinstance(read_grade(grade), Refusal)
    assert found == J306[hot]
    assert J306[winter][0] <= J306[hot][0]


@pytest.mark.parametrize("sheet", SHEETS, ids=sheet_id)
def test_every_unit_gets_the_class_that_it_needs(sheet: Sheet) -> None:
    """API 1560: GL-5 for a hypoid axle, GL-4 for a synchronised transaxle, and neither for the other."""
    axle = sheet.lubricants["rear-axle"].service
    transaxle = sheet.lubricants["transaxle"].service

    assert axle == "GL-5"
    assert substitution(axle, "GL-4", "hypoid axle")[0] == "do not use"
    if sheet.facts["transmission"] == "manual":
        assert transaxle == "GL-4"
        assert substitution(transaxle, "GL-5", "synchronised transaxle")[0] != "use"


@pytest.mark.parametrize("sheet", SHEETS, ids=sheet_id)
def test_only_friction_plates_want_an_additive(sheet: Sheet) -> None:
    """Limited-slip plates want a friction modifier, an open axle none (common practice, no source)."""
    remark = sheet.lubricants["rear-axle"].remark

    assert remark.startswith("With" if sheet.facts["rear-differential"] == "limited-slip" else "No")


@pytest.mark.parametrize("sheet", SHEETS, ids=sheet_id)
def test_the_rear_axle_is_full_half_an_inch_below_its_hole(sheet: Sheet) -> None:
    """12.7 mm, exactly (common practice, no source)."""
    assert limit(sheet, "rear-axle.level-below-hole.max") == Fraction("25.4") / 2


@pytest.mark.parametrize(
    "sheet", [sheet for sheet in SHEETS if sheet.facts["centre"] == "electronic"], ids=sheet_id
)
def test_the_coil_draws_what_its_resistance_lets_it(sheet: Sheet) -> None:
    """Ohm's law: the weakest supply across the greatest resistance still gives the least current asked."""
    weakest = limit(sheet, "centre-coupling.supply.min") / limit(sheet, "centre-coupling.coil.max")

    assert limit(sheet, "centre-coupling.current.min") < weakest
    assert limit(sheet, "centre-coupling.supply.min") < limit(sheet, "battery.at-rest.min")


@pytest.mark.parametrize("sheet", SHEETS, ids=sheet_id)
def test_only_an_open_differential_has_washers_to_choose(sheet: Sheet) -> None:
    """Plates behind side gears take up their play; behind those of an open one stand washers."""
    named = "rear-axle.side-gear-play.max" in sheet.limits

    assert named == ("side-gear-washers" in sheet.catalogues)
    assert named == (sheet.facts["rear-differential"] == "open")


@pytest.mark.parametrize(
    "sheet", [sheet for sheet in SHEETS if sheet.facts["rear-differential"] == "open"], ids=sheet_id
)
def test_there_is_a_washer_for_every_play(sheet: Sheet) -> None:
    """No step between washers is wider than the play allowed less what the dial leaves open."""
    sizes = sheet.catalogues["side-gear-washers"].values
    allowed = limit(sheet, "rear-axle.side-gear-play.max") - limit(sheet, "rear-axle.side-gear-play.min")

    assert max(b - a for a, b in pairwise(sizes)) <= allowed - 2 * Fraction("0.01")
    assert sizes[-1] < limit(sheet, "rear-axle.one-washer.max") < sizes[-1] + Fraction("0.05")
    assert sizes[-1] <= 2 * sizes[0]


@pytest.mark.parametrize("sheet", SHEETS, ids=sheet_id)
def test_what_turns_and_carries_is_drawn_tighter_than_what_only_holds(sheet: Sheet) -> None:
    """Nut over flange over bracket, and no mount as tight as a hub nut (common practice, no source)."""
    torque = {name: each.value for name, each in sheet.torques.items()}
    mounts = [torque[f"{unit}-mounts"] for unit in ("engine", "transaxle", "rear-axle")]

    assert torque["centre-bearing-nut"] > torque["propeller-shaft-flange"] > torque["centre-bearing"]
    assert max(mounts) < torque["hub-nut"]


#: What turns, in turns: tree or procedure, step, the answer, the carrier, the wheel that is turned.
OBSERVED: Final = [
    ("one-rear-wheel-spins", "turn-one", "It turns the opposite way", 0, 1),
    ("no-rear-drive", "turn-limited-slip", "It turns the opposite way, easily", 0, 1),
    ("no-rear-drive", "turn-limited-slip", "It turns the same way, or neither can be turned", 1, 1),
    ("turn-parted", "turn", "It follows the same way", 1, 1),
    ("turn-parted", "turn", "It turns the opposite way", 0, 1),
]


@pytest.mark.parametrize(("document", "step", "say", "carrier", "wheel"), OBSERVED)
def test_the_other_wheel_turns_as_a_differential_lets_it(
    document: str, step: str, say: str, carrier: int, wheel: int
) -> None:
    """Textbook rule: both wheels together turn twice as often as the carrier. A held shaft holds the carrier.

    So behind a held shaft the other wheel turns back as often; where plates tie the wheels, the carrier
    goes along and both turn the same way.
    """
    asked = DOCUMENTS[document].steps[step]
    assert isinstance(asked, Ask)
    other = 2 * carrier - wheel

    assert say in [answer.say for answer in asked.answers]
    assert other_wheel(carrier, wheel) == other
    assert ("opposite" in say) == (other < 0)


@pytest.mark.parametrize(
    ("document", "step"), [("no-rear-drive", "turn-rear-wheels"), ("no-rear-drive", "turn-one-rear")]
)
def test_a_turned_wheel_moves_the_other_wheel_or_the_shaft(document: str, step: str) -> None:
    """What does not go to the other wheel goes to the shaft: behind whole gears not both can stand."""
    asked = DOCUMENTS[document].steps[step]
    assert isinstance(asked, Ask)
    ratio, shares = 3.5, [other / 10 for other in range(-10, 11)]

    assert asked.answers[0].say == "With each, the other wheel or the propeller shaft"
    assert all(other or shaft_turns(ratio, 1, other) for other in shares)


def every_step() -> Iterator[tuple[str, Step]]:
    """Each step with the name of its document."""
    for name, document in DOCUMENTS.items():
        yield from ((name, step) for step in document.steps.values())


@pytest.mark.parametrize("name", PUBLISHED)
def test_a_caution_names_where_its_rule_stands(name: str) -> None:
    """The source that the caution names is the published one."""
    held = yaml.safe_load((resources.trees() / "shop/cautions.yaml").read_text(encoding="utf-8"))
    source = held["sources"][held["cautions"][name]["source"]]

    assert (source["kind"], PUBLISHED[name] in source["cite"]) == ("published", True)


def test_whoever_raises_reads_of_it_first() -> None:
    """HSE HSG261: one procedure alone raises, and it begins with the caution."""
    raising = [d for d in DOCUMENTS.values() if any("raised" in s.sets for s in d.steps.values())]

    assert [d.name for d in raising] == ["raise-all-wheels"]
    assert "raising" in raising[0].steps[raising[0].start].cautions


def test_an_engine_starts_only_behind_the_caution_on_exhaust_gas_or_out_of_doors() -> None:
    """HSE HSG261, carbon monoxide: read before the engine starts; who drives off has read of driving."""
    starting = [
        (name, step) for name, step in every_step() if isinstance(step, Do) and "engine-running" in step.sets
    ]
    bare = [
        f"{name}/{step.name}"
        for name, step in starting
        if not {"exhaust-gas", "driving"} & set(_read_before(DOCUMENTS[name], step))
    ]

    assert starting
    assert bare == []


def _read_before(document: Document, step: Step) -> Iterator[str]:
    """The cautions of a step, and of the steps of its document that come before it in the text."""
    for each in document.steps.values():
        yield from each.cautions
        if each.name == step.name:
            return


def test_drains_are_warm_and_into_a_tray() -> None:
    """Below 60 °C (common practice, no source): every step that drains has the caution."""
    draining = [(n, s) for n, s in every_step() if {"unit-drained", "transfer-drained"} & set(s.sets)]

    assert draining
    assert [f"{n}/{s.name}" for n, s in draining if "hot-oil" not in s.cautions] == []
    assert "60 °C" in LIBRARY.shop.cautions["hot-oil"].text


def test_nobody_is_told_to_tow_it_on_two_wheels() -> None:
    """By the heat of slip, and common practice: with one axle lifted it stays where it is."""
    ways = [step for step in LIBRARY.procedures["move-vehicle"].steps.values() if isinstance(step, Ask)]
    lifted = [answer for step in ways for answer in step.answers if "one axle" in answer.say]

    assert len(lifted) == 2
    assert {answer.then for answer in lifted} == {"stays"}


@pytest.mark.parametrize("document", DOCUMENTS.values(), ids=lambda document: document.name)
def test_every_limit_has_a_source(document: Document) -> None:
    """A measuring step names its source, and so does every value of a sheet."""
    bare = [
        step.name
        for step in document.steps.values()
        if hasattr(step, "bands") and not (step.source or all(band.source for band in step.bands))
    ]

    assert bare == []
