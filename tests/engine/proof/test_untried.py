"""Limits that no passing rehearsal tries from a side, though readings come to the bands of both."""

from engine.proof.rehearse import Rehearsed, rehearse_all
from engine.proof.untried import Untried, untried
from tests.engine.interview.given import tree
from tests.engine.proof.scripts import LOOK, TREE, gathered, rehearsed, script

LOOKED = "at: look/first, unsure: dark"
#: Another vehicle, which needs less: 3 N·m in place of 30 lbf·ft (40.67 N·m).
ESTATE = """\
vehicle: estate
format: 1
revision: 1
title: Brennick test estate
facts: {gearbox: manual, axle: limited}
sources: {ours: {kind: invented}}
limits: {flange: {holding: {min: {is: 3, unit: N·m, source: ours}}}}
"""


def tyres(left: str) -> str:
    """The walk of the bench tree to its tyres, where the right one has 2000 mm."""
    return f"at: second, say: All four\nat: third, read: {{left: {left}, right: 2000}}"


def play(read: str) -> str:
    """The walk of the bench tree to its last reading."""
    return f"{tyres('2006')}\nat: fourth, read: {read}"


def left(*results: Rehearsed) -> tuple[str, ...]:
    """The sides of limits that these rehearsals of the bench tree leave."""
    return untried(gathered(TREE, LOOK), "bench", results).open


def test_a_band_that_nobody_visits_is_told_as_that() -> None:
    """Its limits are not told once more."""
    assert left() == ()


def test_readings_beside_a_limit_try_it() -> None:
    """6 and 6.5 mm of spread, 1 and 1.5 mm of play, on a rule of half millimetres."""
    results = [
        rehearsed(tyres("2006.5"), "referred"),
        rehearsed(play("1"), "fine"),
        rehearsed(f"{play('1.5')}\n{LOOKED}", "referred"),
    ]

    assert [result.message for result in results] == ["", "", ""]
    assert left(*results) == ()


def test_a_reading_moved_away_from_its_limit_tries_it_no_more() -> None:
    """It comes to the same band and the same verdict, and the side of the limit is told."""
    near, away = rehearsed(play("1"), "fine"), rehearsed(play("0.5"), "fine")

    assert (left(near), left(away)) == ((), ("fourth: 1 mm, from below",))


def test_a_figure_moved_away_from_its_limit_tries_it_no_more() -> None:
    """The spread of two tyres is 6.5 mm, then 9 mm."""
    near, away = (rehearsed(tyres(read), "referred") for read in ("2006.5", "2009"))

    assert (left(near), left(away)) == ((), ("third: 6 mm, from above",))


def test_a_rehearsal_that_fails_tries_nothing() -> None:
    """It came to the band; whether the tree or the script is wrong there, nobody knows."""
    assert left(rehearsed(tyres("2006.5"), "fine")) == ("third: 6 mm, from above",)


def test_what_was_stepped_back_over_was_tried() -> None:
    """The reading stood beside the limit, and was then taken back."""
    back = f"{play('1')}\nat: fourth, back: true\nat: fourth, read: 0.5"

    assert left(rehearsed(back, "fine")) == ()


def torque(plausible: str, limit: str, *read: str) -> Untried:
    """What is left of a tree after rehearsals, each a vehicle and a reading, from which 100 N·m are taken."""
    text = tree(f"""
        first:
          measure: What torque turns both, and what torque one?
          readings: {{gauge: wrench, unit: N·m, plausible: {plausible}, each: [both, one]}}
          figure: bearing-torque
          given: {{reading: both, others: one}}
          gives: torque
          bands: [{{below: {limit}, then: ended}}, {{from: {limit}, then: ended}}]
          unsure: ended
        """)
    scripts = []
    for number, (vehicle, both) in enumerate(map(str.split, read)):
        line = f"at: first, read: {{both: {both}, one: 100}}, insist: true"
        scripts.append(script(line, "ended", vehicle=vehicle).replace(": try", f": try-{number}", 1))
    library = gathered(text, ESTATE, *scripts)
    results = tuple(rehearse_all(library, library.rehearsals.values()))
    assert [result.message for result in results] == [""] * len(read)
    return untried(library, "bench", results)


SHEET = "sheet.flange.holding.min"


def test_each_side_of_a_sheets_limit_is_tried_on_one_vehicle() -> None:
    """The wagon's flange holds 40.67 N·m and the estate's 3; each is read on one side of its own limit."""
    assert torque("[80, 200]", SHEET, "wagon 140", "estate 103") == ((), ())


def test_the_limit_of_another_vehicle_is_not_tried() -> None:
    """2 N·m stand beside the estate's limit and far from the wagon's, on which they are read."""
    told = f"first: {SHEET}, from below"

    assert torque("[80, 200]", SHEET, "wagon 102", "estate 103") == ((told,), ())


def test_a_side_that_no_believed_reading_tries_is_out_of_reach() -> None:
    """Between 100 and 105 N·m lie no 6; whoever insists on 9 comes to the band and not beside its limit."""
    told = "first: 6 N·m, from above"

    assert torque("[100, 105]", "6", "wagon 105", "wagon 109") == ((), (told,))


def test_the_last_believed_reading_is_in_reach() -> None:
    """5 N·m are believed, and one mark more would be on the limit."""
    assert torque("[100, 105]", "6", "wagon 103") == (("first: 6 N·m, from below",), ())


def test_what_another_vehicle_can_try_is_in_reach() -> None:
    """Of 20 N·m at most none is beside the wagon's limit, and 2 and 3 are beside the estate's."""
    told = (f"first: {SHEET}, from below", f"first: {SHEET}, from above")

    assert torque("[100, 120]", SHEET, "wagon 150", "estate 100") == (told, ())
