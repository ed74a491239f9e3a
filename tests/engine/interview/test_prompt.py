"""What every prompt tells: where the walk is, how long it may still take, who is still suspected."""

from fractions import Fraction

import pytest

from engine.interview.command import Choose, Command, Confirm
from engine.interview.prompt import prompt
from tests.engine.interview.given import after, procedure, tree, walk

TREE = tree("""
    first:
      ask: Which wheels turn?
      minutes: 3
      answers: [{say: All, then: rolls}, {say: Front, then: lift}]
    rolls: {do: Roll it., minutes: 2, then: fine, unsure: coupled}
    lift: {run: lift, minutes: 1, outcomes: {up: look, cannot: referred}}
    look: {sort: gearbox, cases: {manual: sheared, automatic: coupled}}
    fine: {verdict: Fine, suspects: [], grade: no-fault, correction: None., minutes: 1}
    sheared: {verdict: Sheared, suspects: [shaft], grade: repair, correction: Renew it.}
    coupled: {verdict: Dead, suspects: [coupling, bearing], grade: repair, correction: C., minutes: 0.5}
    referred: {verdict: Not told, suspects: [], grade: refer, correction: Elsewhere.}
    """)
LIFT = procedure(
    "lift", "up: Up, cannot: Not up", "first: {do: Lift., minutes: 10, then: up, unsure: cannot}\n"
)


@pytest.mark.parametrize(
    ("commands", "step", "fewest", "most"),
    [
        ((), "first", "11/2", "14"),
        ((Choose(0),), "rolls", "5/2", "3"),
        ((Choose(1),), "lift/first", "10", "10"),
        ((Choose(1), Confirm()), "sheared", "0", "0"),
        ((Choose(0), Confirm()), "fine", "1", "1"),
    ],
)
def test_spare_minutes_by_the_quickest_and_the_longest_path(
    commands: tuple[Command, ...], step: str, fewest: str, most: str
) -> None:
    """From each step the minutes of every step still ahead are counted, that step's own included."""
    where = prompt(after(walk(TREE, LIFT), *commands)).where

    assert (where.step, where.spare.fewest, where.spare.most) == (step, Fraction(fewest), Fraction(most))


@pytest.mark.parametrize(
    ("commands", "suspects"),
    [
        ((), ("Shaft sheared", "Coupling dead", "Bearing worn")),
        ((Choose(0),), ("Coupling dead", "Bearing worn")),
        ((Choose(1),), ("Shaft sheared",)),
        ((Choose(0), Confirm()), ()),
    ],
)
def test_suspects_that_a_verdict_may_still_convict(
    commands: tuple[Command, ...], suspects: tuple[str, ...]
) -> None:
    """Only those whom a verdict within reach of this vehicle convicts remain, the heaviest first."""
    assert prompt(after(walk(TREE, LIFT), *commands)).where.suspects == suspects


def test_tree_and_vehicle_stand_above_everything() -> None:
    """Every prompt tells the title of the tree and of the sheet."""
    where = prompt(walk(TREE, LIFT)).where

    assert (where.title, where.vehicle, where.inside) == (
        "The bench tree",
        "Brennick test wagon",
        ("The bench tree",),
    )
