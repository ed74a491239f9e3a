"""Drafts of rehearsals: they pass, they leave nothing out, and they stand on both sides of each limit."""

from functools import cache

import pytest

from engine.interview.evolve import begun
from engine.interview.state import Frame
from engine.lint.rule import suits
from engine.loading import folders
from engine.loading.library import Library, gather
from engine.model.place import Place
from engine.model.rehearsal import Line, Rehearsal
from engine.model.tree import Measure
from engine.proof.drafts.drafting import Draft, drafted
from engine.proof.drafts.limits import beside_limits
from engine.proof.drafts.standings import Goal, standings
from engine.proof.rehearse import Rehearsed, rehearse_all
from engine.proof.untried import done, untried
from engine.proof.unvisited import unvisited
from tests.engine.interview import given

PLACE = Place("drafted.yaml", 1, 1)
#: Trees with sums, limits of the sheet, follow-ups and facts to sort by.
TREES = ("shakes-at-speed", "no-drive-automatic", "coupling-weak")


@cache
def shipped() -> Library:
    """The shipped documents without their rehearsals."""
    return gather(file for file in folders.shipped() if not file.path.startswith("rehearsals/"))


@cache
def drafts(tree: str) -> tuple[Draft, ...]:
    """All that is drafted for a tree that nobody has rehearsed."""
    fitting = [name for name, sheet in shipped().sheets.items() if not suits(shipped().trees[tree], sheet)]
    return tuple(drafted(shipped(), tree, fitting, frozenset()))


def script(number: int, tree: str, draft: Draft) -> Rehearsal:
    """The rehearsal that is made of it."""
    lines = tuple(
        Line(said.at, said.say or None, said.read, done=False, unsure=said.unsure or None, back=False,
             follow=said.follow, insist=False, place=PLACE)
        for said in draft.walk.lines
    )  # fmt: skip
    return Rehearsal(f"draft-{number}", PLACE, "Draft", tree, draft.vehicle, lines, draft.walk.verdict)


@cache
def walked(tree: str) -> tuple[Rehearsed, ...]:
    """Every draft, rehearsed."""
    return tuple(rehearse_all(shipped(), (script(k, tree, each) for k, each in enumerate(drafts(tree)))))


@pytest.mark.parametrize("tree", TREES)
def test_a_draft_passes(tree: str) -> None:
    """Rehearsed like one that somebody wrote, it ends in the verdict that it says."""
    assert [each.message for each in walked(tree) if not each.passed] == []


@pytest.mark.parametrize("tree", TREES)
def test_drafts_leave_nothing_out(tree: str) -> None:
    """Every verdict, answer, band and way round is visited, in the tree and in every procedure."""
    assert unvisited(shipped(), tree, walked(tree)) == ()


@pytest.mark.parametrize("tree", TREES)
def test_drafts_try_every_limit_from_both_sides(tree: str) -> None:
    """Also where a figure is made of several readings, and in every procedure."""
    assert untried(shipped(), tree, walked(tree)) == ((), ())


@pytest.mark.parametrize("tree", TREES)
def test_every_draft_goes_where_it_was_meant_to(tree: str) -> None:
    """It visits what it was made for; but for the ends of a band, no draft before it went there."""
    before = set[tuple[str, str, str]]()
    for draft, each in zip(drafts(tree), walked(tree), strict=True):
        assert draft.meant in each.visited
        assert draft.meant not in before or draft.meant[2].startswith("band ")
        before |= each.visited


def test_the_vehicles_share_the_work() -> None:
    """None has two drafts more than another while there is something left for both."""
    counts = {name: sum(d.vehicle == name for d in drafts("coupling-weak")) for name in shipped().sheets}
    walking = sorted(count for count in counts.values() if count)

    assert walking[-1] - walking[0] <= 1


def test_what_is_visited_is_not_drafted_again() -> None:
    """Where one way is left, one draft goes it."""
    goals = done(shipped(), "shakes-at-speed", walked("shakes-at-speed"))
    left = ("", "coast", "cannot do or tell")

    (draft,) = drafted(shipped(), "shakes-at-speed", ["skerry"], goals - {(left, None)})

    assert draft.meant == left


def test_a_side_that_nothing_tries_is_drafted() -> None:
    """Where both bands are visited and one side of one limit is left, one draft tries it."""
    goals = done(shipped(), "shakes-at-speed", walked("shakes-at-speed"))
    left: Goal = (("", "wheel-run-out", "band 2"), "low")

    (draft,) = drafted(shipped(), "shakes-at-speed", ["skerry"], goals - {left})

    assert draft.meant == left[0]


def test_what_has_been_tried_is_not_drafted() -> None:
    """Where every limit is tried and every way visited, nothing is drafted."""
    goals = done(shipped(), "shakes-at-speed", walked("shakes-at-speed"))

    assert list(drafted(shipped(), "shakes-at-speed", ["skerry"], goals)) == []


def found(procedure: str, step: str) -> list[tuple[int, list[str]]]:
    """The readings found for a step of a procedure on the wagon: the band, and what is typed."""
    frames = (Frame("", "x"), Frame(procedure, step))
    state = begun(shipped(), "smells-hot", "fellside")._replace(frames=frames)
    assert isinstance(state.step, Measure)
    return [(each.band, list(each.typed.values())) for each in beside_limits(state, state.step)]


def test_readings_stand_on_both_sides_of_a_limit() -> None:
    """12.7 mm are borne at 20 °C, where 800 mL stand on 150 cm²: 1.5 mm more at 60 °C, by 7.0e-4 per kelvin.

    So 11.2 mm are the limit at 55 to 60 °C, on a rule of half millimetres 11 and 11.5.
    """
    (_, (low, warmth)), (_, (high, same)) = found("judge-axle-oil", "level")

    assert (low, high, warmth) == ("11", "11.5", same)


def test_readings_of_four_tyres_stand_on_both_sides() -> None:
    """8 mm of spread are borne on this wagon, so one tyre may stand 8 mm from three alike, and not 9."""
    assert found("measure-tyres", "roll") == [
        (0, ["1867", "1875", "1875", "1875"]),
        (1, ["1866", "1875", "1875", "1875"]),
    ]


def test_limits_that_lie_close_together_are_told_apart() -> None:
    """A coil of 2.2 to 3.0 ohms is sound, on a meter of tenths believed up to 1000; both limits are found."""
    state = begun(shipped(), "rear-drive-stays-off", "ghyll")._replace(frames=(Frame("", "coil"),))
    assert isinstance(state.step, Measure)
    near = [(each.band, *each.typed.values()) for each in beside_limits(state, state.step)]

    assert near == [(0, "2.1"), (1, "2.2"), (1, "3"), (2, "3.1")]


def test_one_draft_goes_several_ways_that_are_left() -> None:
    """Two questions with two answers each, by way of two steps, take two walks and not four."""
    library = given.library(
        given.tree("""
            first: {ask: Which axle?, answers: [{say: Front, then: front}, {say: Rear, then: rear}]}
            front: {do: Look at the front., then: last}
            rear: {do: Look at the rear., then: last}
            last: {ask: How is it?, answers: [{say: Whole, then: ended}, {say: Broken, then: ended}]}
            """)
    )

    assert len(list(drafted(library, "bench", ["wagon"], frozenset()))) == 2


def test_no_draft_makes_a_detour() -> None:
    """What lies behind one of two procedures that follow a verdict is gone to without the other."""
    asked = "first: {ask: Gone?, answers: [{say: a, then: gone}, {say: b, then: gone}]}\n"
    library = given.library(
        given.tree("""
            first: {ask: Gone?, answers: [{say: Gone, then: ended}, {say: Still there, then: there}]}
            there: {verdict: There, suspects: [shaft], grade: repair, correction: C., follow: [one, two]}
            """),
        *(given.procedure(name, "gone: Gone", asked) for name in ("one", "two")),
    )
    left: Goal = ("two", "first", "answer `b`"), None
    goals = {goal for found in standings(library, "bench", "wagon").onward.values()
             for edge in found for goal in edge.goals}  # fmt: skip
    ends: set[Goal] = {(("", name, ""), None) for name in ("ended", "there")}

    (draft,) = drafted(library, "bench", ["wagon"], frozenset((goals | ends) - {left}))

    assert [said.follow for said in draft.walk.lines if said.follow] == ["two"]
