"""Advice at a moment of a walk: what lies ahead, counted by other code, and the sentences."""

from types import SimpleNamespace
from typing import Final, cast

import pytest

from engine.belief.update import prior
from engine.graph.onward import Onward
from engine.interview.ahead import Ahead
from engine.interview.command import Choose, Command, Confirm
from engine.interview.counsel import counsel
from engine.interview.state import Frame, State
from engine.loading.library import Library
from engine.model.tree import Run
from engine.model.vehicle import Sheet
from engine.proof.figures.chances import Chances
from tests.engine.interview.given import after, procedure, tree, walk
from tests.engine.proof.figures.small_trees import SUSPECTS, Small, small

FACTS: Final = {"box": "manual"}
#: Random trees whose procedures know no suspects, as lint wants it.
TREES: Final = [
    seed
    for seed in range(60)
    if not any(
        getattr(way, "fits", None)
        for p in small(seed).procedures.values()
        for step in p.steps.values()
        for way in (step, *getattr(step, "answers", ()), *getattr(step, "bands", ()))
    )
]


def standing(made: Small, *frames: Frame) -> State:
    """A walk that stands there and has seen nothing."""
    held = cast("Library", SimpleNamespace(procedures=made.procedures))
    sheet = cast("Sheet", SimpleNamespace(facts=FACTS))
    return State(held, made.tree, sheet, 1, frames, prior(dict.fromkeys(SUSPECTS, made.tree.confidence)))


@pytest.mark.parametrize("seed", TREES)
def test_minutes_to_a_verdict_are_those_of_the_figures(seed: int) -> None:
    """From the start and under each suspect: the exact mean, which is counted forward in whole numbers."""
    made = small(seed)
    chances = Chances(made.tree, made.procedures, Onward(made.procedures, FACTS))
    found = Ahead(standing(made, Frame("", "s0"))).minutes()

    assert found[:-1] == pytest.approx([float(chances.outlook(s).minutes) for s in SUSPECTS], abs=1e-9)


@pytest.mark.parametrize("seed", TREES)
def test_inside_a_procedure_as_much_lies_ahead_as_before_it(seed: int) -> None:
    """Standing at its first step, only the minutes of the step that runs it are over."""
    made = small(seed)
    for name, run in made.tree.steps.items():
        if isinstance(run, Run):
            inside = Frame(run.procedure, made.procedures[run.procedure].start)
            before = Ahead(standing(made, Frame("", name))).minutes()
            within = Ahead(standing(made, Frame("", name), inside)).minutes()
            assert within == pytest.approx([took - float(run.minutes) for took in before], abs=1e-9)


# The shaft is half, coupling 0.3, bearing and something else 0.1 each.
STEPS: Final = """
    first: {do: Go., minutes: 5, then: far}
    far:
      ask: Far?
      minutes: 10
      answers:
        - {say: Yes, then: near, fits: {shaft: 1, coupling: 0, bearing: 0, elsewhere: 0}}
        - {say: No, then: lift, fits: {shaft: 0, coupling: 1, bearing: 1, elsewhere: 1}}
    near: {ask: Near?, minutes: 2, answers: [{say: Yes, then: is-shaft}, {say: No, then: ended}]}
    lift:
      run: look
      outcomes: {seen: ended, unseen: ended, cannot: ended}
      fits: {seen: {shaft: 0.5, coupling: 0.9, bearing: 0.1, elsewhere: 0.5}}
    is-shaft: {verdict: Shaft, suspects: [shaft], grade: repair, correction: C.}
    """
LOOK: Final = procedure(
    "look",
    "seen: Seen, unseen: Not, cannot: Cannot",
    "first: {ask: A?, minutes: 4, answers: [{say: Y, then: seen}, {say: N, then: unseen}], unsure: cannot}\n",
)
BENCH: Final = tree(STEPS)
REPAIRS: Final = (
    BENCH.replace("weight: 1}", "weight: 1, repair: 20}")
    .replace("weight: 5}", "weight: 5, repair: 30}")
    .replace("weight: 3}", "weight: 3, repair: 90}")
)


@pytest.mark.parametrize(
    ("commands", "minutes"),
    [
        ((), 5 + 10 + 0.5 * 2 + 0.5 * 4),
        ((Confirm(),), 10 + 0.5 * 2 + 0.5 * 4),
        ((Confirm(), Choose(0)), 2),
        ((Confirm(), Choose(1)), 4),
    ],
)
def test_expected_minutes(commands: tuple[Command, ...], minutes: float) -> None:
    """By how likely each suspect is at that moment; by hand."""
    assert counsel(after(walk(BENCH, LOOK), *commands)).minutes == pytest.approx(minutes)


def test_tests_ahead_with_the_minutes_to_their_answer() -> None:
    """`far` is 15 minutes away and settles a whole bit of 1.685; `look` 19; `near` tells nothing."""
    far, look = counsel(walk(BENCH, LOOK)).tests

    assert (far.name, far.minutes, look.name, look.minutes) == ("Far?", 15, "The procedure look", 19)
    assert far.bits == pytest.approx(1)
    assert far.part == pytest.approx(1 / 1.685, abs=1e-3)


def test_a_procedure_that_is_under_way_is_still_a_test() -> None:
    """How it will be left has yet to be seen, four minutes from here."""
    (look,) = counsel(after(walk(BENCH, LOOK), Confirm(), Choose(1))).tests

    assert (look.name, look.minutes) == ("The procedure look", 4)


NOT_NOW: Final = (
    "Test on: repairing `Shaft sheared` now (50 %) would not pay, 9 min of tests saved on average against"
    " 15 min of work in vain."
)
IN_TURN: Final = (
    "If repairs were tried one after the other, cheapest first: Shaft sheared; Bearing worn; Coupling dead."
    " About 76 min on average, by probability over minutes; no other order costs less."
)


def test_advice_in_sentences() -> None:
    """Marked as advice, each with its reason; at 50 % the shaft is too dear to be repaired at once."""
    assert counsel(walk(REPAIRS, LOOK)).told == (
        "Advice by the numbers only; the tree leads, and its cautions stand.",
        "To a verdict by the tree: about 18 min on average, by how likely each suspect is now.",
        "Most worth its time, since it settles most a minute (59 % of what is open, 15 min from here): Far?",
        "After that (12 % of what is open, 19 min from here): The procedure look",
        NOT_NOW,
        IN_TURN,
    )


@pytest.mark.parametrize(
    ("condemn", "told"),
    [
        ("0.8", "Repair now rather than test on, for `Shaft sheared` (82 %): 14 min of tests saved"),
        ("0.9", "Test on: repairing `Shaft sheared` now would pay in minutes (14 min of tests saved"),
    ],
)
def test_repair_is_advised_only_where_the_tree_would_condemn(condemn: str, told: str) -> None:
    """At 45 of 55 against 6 minutes in vain; below what the tree wants it is no advice to repair."""
    text = REPAIRS.replace("start:", f"condemn: {condemn}\nstart:").replace("weight: 5", "weight: 45")
    text = text.replace("weight: 3", "weight: 8").replace("weight: 1,", "weight: 1, ")
    assert any(line.startswith(told) for line in counsel(walk(text, LOOK)).told)


def test_without_minutes_of_repair_nothing_is_said_of_it() -> None:
    """One suspect without them is enough."""
    found = counsel(walk(REPAIRS.replace(", repair: 20", ""), LOOK))

    assert (found.order, found.swap) == (None, None)
    assert found.told[-1].startswith("This tree does not say the minutes of each repair")


def test_at_a_verdict_there_is_no_advice() -> None:
    """Nothing is left to be tested."""
    state = after(walk(BENCH, LOOK), Confirm(), Choose(0), Choose(0))

    assert counsel(state).told[1:] == ("The tree has come to its verdict: there is no test left.",)


def test_suspects_with_the_same_correction_are_one_repair() -> None:
    """The longest of them counts: 30 min mend shaft and bearing; 60 % over 30 comes before 30 % over 90."""
    text = REPAIRS.replace("weight: 1,", "weight: 1, correction: Renew both.,")
    found = counsel(walk(text.replace("weight: 5,", "weight: 5, correction: Renew both.,"), LOOK))

    assert found.order is not None
    assert found.order.names == ("bearing", "coupling")
    assert found.order.cost == pytest.approx(30 + 0.4 * 90)


RAISED: Final = (
    REPAIRS.replace("first: {do: Go., minutes: 5,", "first: {do: Go., minutes: 5, sets: [raised],")
    .replace("repair: 20", "repair: 20, needs: [raised]")
    .replace("repair: 30", "repair: 30, needs: [raised]")
)


def test_repairs_share_their_set_up() -> None:
    """Shaft, bearing, coupling: the 5 min to raise it are paid once, by the first: 76 + 5."""
    before, now = counsel(walk(REPAIRS, LOOK)), counsel(walk(RAISED, LOOK))

    assert before.order
    assert now.order
    assert now.order.cost == pytest.approx(before.order.cost + 5)
    assert "by probability over minutes, each set-up counted once; no other" in now.told[-1]


def test_a_set_up_that_stands_costs_nothing() -> None:
    """Once the vehicle is raised, repairs cost what they cost without it."""
    bare, raised = (counsel(after(walk(text, LOOK), Confirm())) for text in (REPAIRS, RAISED))

    assert bare.order == raised.order
    assert bare.swap == raised.swap


def test_repairing_now_pays_for_its_set_up() -> None:
    """Where the shaft is not to blame, at 50 %, half of its 5 min more is lost."""
    before, now = counsel(walk(REPAIRS, LOOK)).swap, counsel(walk(RAISED, LOOK)).swap

    assert before
    assert now
    assert now.suspect == before.suspect
    assert now.lost == pytest.approx(before.lost + 2.5)
