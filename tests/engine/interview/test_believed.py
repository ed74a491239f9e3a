"""What a walk believes of its suspects, and what each answer, reading and outcome makes of that.

The suspects are shaft, coupling and bearing with the weights 5, 3 and 1; something else weighs 1.
"""

from collections.abc import Mapping
from typing import Final

import pytest

from engine.interview.believed import signs
from engine.interview.command import Accept, CannotTell, Choose, Command, Follow, Read, StepBack
from engine.interview.prompt import prompt
from engine.interview.question import VerdictPrompt
from engine.interview.state import State
from tests.engine.interview.given import after, measuring, procedure, tree, walk

Shares = Mapping[str, float]

#: `first` speaks for the shaft; `second` says nothing of anybody.
ASK: Final = tree("""
    first:
      ask: What is seen?
      answers:
        - {say: Play, then: second, fits: {shaft: 0.8, coupling: 0.2, bearing: 0.5}}
        - {say: Nothing, then: second, fits: {shaft: 0.2, coupling: 0.8}}
      unsure: second
    second: {ask: Loud?, answers: [{say: Loud, then: worn}, {say: Not, then: ended}]}
    worn: {verdict: Shaft, suspects: [shaft], grade: repair, correction: C., follow: [look]}
    """)
LOOK: Final = procedure(
    "look",
    "seen: Seen, unseen: Not seen, cannot: Cannot",
    """
    first:
      ask: Seen?
      answers:
        - {say: Seen, then: seen}
        - {say: Not, then: unseen}
      unsure: cannot
    """,
)
#: By hand: 0.5 x 0.8 = 0.4, 0.3 x 0.2 = 0.06, 0.1 x 0.5 and 0.1 x 0.5 = 0.05 each; 0.56 in all.
PLAY: Final = {"shaft": 0.4 / 0.56, "coupling": 0.06 / 0.56, "bearing": 0.05 / 0.56, "elsewhere": 0.05 / 0.56}
WEIGHTS: Final = {"shaft": 0.5, "coupling": 0.3, "bearing": 0.1, "elsewhere": 0.1}


def shares(state: State) -> Shares:
    """The belief by name."""
    return dict(zip(state.belief.suspects, state.belief.shares, strict=True))


def running(fits: str) -> State:
    """A walk inside of `look`, run by a step with these fits."""
    outcomes = "outcomes: {seen: ended, unseen: ended, cannot: ended}"
    return walk(tree(f"first: {{run: look, {outcomes}{fits}}}\n"), LOOK)


@pytest.mark.parametrize(
    ("commands", "believed"),
    [
        ((), WEIGHTS),
        ((Choose(0),), PLAY),
        ((CannotTell(""),), WEIGHTS),
        ((Choose(0), Choose(0)), PLAY),
        ((Choose(0), Choose(0), Accept(), Follow("look"), Choose(0)), PLAY),
    ],
    ids=["weights", "an answer", "no answer", "an answer that tells nothing", "what follows the verdict"],
)
def test_answers_move_the_suspects(commands: tuple[Command, ...], believed: Shares) -> None:
    """By Bayes' rule and nothing else: what could not be told, or comes after the verdict, is no sign."""
    assert shares(after(walk(ASK, LOOK), *commands)) == pytest.approx(believed, abs=1e-15)


def test_a_step_back_takes_the_sign_back_exactly() -> None:
    """The belief is the very one of before, and the other answer moves it as if it had been the first."""
    before, other = walk(ASK, LOOK), after(walk(ASK, LOOK), Choose(1))
    once = after(before, Choose(0))
    back = after(once, StepBack(once.past[0].line.sequence))

    assert back.belief == before.belief
    assert after(back, Choose(1)).belief == other.belief


@pytest.mark.parametrize(
    ("read", "shaft"),
    [("20", 1), ("0", 0), ("10", 0.625), ("10.4", 0.928)],
)
def test_a_reading_near_its_limit_speaks_for_both_bands(read: str, shaft: float) -> None:
    """As far as the true value may lie in each.

    Shaft and coupling are told apart by the band alone. The rule has 0.3 mm and half a step of 0.5 mm, which
    together are 0.333 mm (0.3 and 0.144 as squares); 0.4 mm are 1.2 of that, which leaves 0.885 for the band
    (normal distribution). With weights of 5 and 3 that makes 0.885 x 5 / (0.885 x 5 + 0.115 x 3) = 0.928 of
    the two; half and half leaves the weights as they are.
    """
    bands = "{upto: 10, then: ended, fits: {shaft: 0, coupling: 1}}"
    state = measuring(f"{bands}, {{over: 10, then: ended, fits: {{shaft: 1, coupling: 0}}}}")
    found = shares(after(state, Read({"x": read})))
    both = found["shaft"] + found["coupling"]

    assert found["shaft"] / both == pytest.approx(shaft, abs=5e-4)


@pytest.mark.parametrize(
    ("fits", "command", "odds"),
    [
        ("", Choose(0), 1),
        (", fits: {seen: {shaft: 0.6, coupling: 0.2}}", Choose(0), 3),
        (", fits: {seen: {shaft: 0.6, coupling: 0.2}}", Choose(1), 0.5),
        (", fits: {seen: {shaft: 1, coupling: 1}, unseen: {shaft: 0, coupling: 0}}", CannotTell(""), 1),
        (", fits: {seen: {bearing: 0.6}}", Choose(0), 1),
    ],
    ids=["nothing said", "said", "the rest", "cannot", "of another"],
)
def test_how_a_procedure_was_left(fits: str, command: Command, odds: float) -> None:
    """It counts where the step that runs it says so.

    What only `cannot` leads to is none of the outcomes that the rest is shared by.
    """
    found = shares(after(running(fits), command))

    assert found["shaft"] / found["coupling"] == pytest.approx(odds * 5 / 3)


def test_what_contradicts_itself_is_said() -> None:
    """No suspect is left: something else is certain, nothing is divided by zero, and it is told plainly."""
    steps = "first: {ask: A?, answers: [{say: Yes, then: ended, fits: %s}, {say: No, then: ended}]}\n"
    state = after(walk(tree(steps % "{shaft: 0, coupling: 0, bearing: 0}")), Choose(0))
    told = prompt(state).where.suspicion

    assert shares(state) == {"shaft": 0, "coupling": 0, "bearing": 0, "elsewhere": 1}
    assert told.moved == (
        "No suspect of this tree explains all that was seen: something else is to blame, or an answer or a"
        " reading misled. Look at the trail again."
    )


def test_the_prompt_says_what_moved_whom() -> None:
    """The most probable first, each with what it was before the last sign, and that sign."""
    told = prompt(after(walk(ASK, LOOK), Choose(0))).where.suspicion

    assert [*told.told] == [
        "Shaft sheared: likely, 71 % (was 50 %)",
        "Coupling dead: unlikely, 11 % (was 30 %); no verdict from here convicts it",
        "Bearing worn: very unlikely, 9 % (was 10 %); no verdict from here convicts it",
        "Something else, not in this tree: very unlikely, 9 % (was 10 %)",
        "Moved last by: What is seen? Play",
    ]


@pytest.mark.parametrize(
    ("commands", "fresh"), [((), False), ((Choose(0),), True), ((Choose(0), Choose(0)), False)]
)
def test_only_the_last_answer_is_fresh(commands: tuple[Command, ...], fresh: object) -> None:
    """Once another step was settled, what moved the suspects is no news."""
    assert prompt(after(walk(ASK, LOOK), *commands)).where.suspicion.fresh is fresh


def test_each_sign_is_kept_with_the_belief_after_it() -> None:
    """What moved nobody is no sign."""
    state = after(walk(ASK, LOOK), Choose(0), Choose(0))

    assert [(past.line.answer, belief) for past, belief in signs(state)] == [("Play", state.belief)]


@pytest.mark.parametrize(
    ("first", "told"),
    [
        (0, "Likely, 71 %. Too weak to condemn: this tree wants 80 % before parts are replaced."),
        (1, "Unlikely, 23 %. Too weak to condemn: this tree wants 80 % before parts are replaced."),
    ],
)
def test_a_verdict_says_how_sure_it_is(first: int, told: str) -> None:
    """Nothing, 0.5 x 0.2 = 0.1, 0.3 x 0.8 = 0.24, 0.05 and 0.05: the shaft has 0.1 of 0.44."""
    asked = prompt(after(walk(ASK, LOOK), Choose(first), Choose(0)))

    assert isinstance(asked, VerdictPrompt)
    assert asked.sure
    assert asked.sure.told == told


def test_the_tree_sets_what_is_too_weak() -> None:
    """At 71 % of a tree that wants 70 % nothing more is said."""
    asked = prompt(after(walk(ASK.replace("start:", "condemn: 0.7\nstart:"), LOOK), Choose(0), Choose(0)))

    assert isinstance(asked, VerdictPrompt)
    assert asked.sure
    assert asked.sure.told == "Likely, 71 %."


def test_a_verdict_that_convicts_nobody_is_of_nobody() -> None:
    """There is nothing to be sure of."""
    asked = prompt(after(walk(ASK, LOOK), Choose(0), Choose(1)))

    assert isinstance(asked, VerdictPrompt)
    assert asked.sure is None
