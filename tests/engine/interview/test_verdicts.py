"""After the verdict: accepted once, followed by procedures in the same case."""

from fractions import Fraction

import pytest

from engine.interview.command import Accept, Choose, Confirm, Follow
from engine.interview.prompt import prompt
from engine.interview.question import Spare, VerdictPrompt
from engine.records.event import Followed
from tests.engine.interview.given import after, made, procedure, refused, tree, walk

TREE = tree("""
    first:
      {verdict: Worn, suspects: [bearing], grade: repair, correction: C., follow: [renew, prove], minutes: 2}
    """)
RENEW = procedure(
    "renew",
    "renewed: Renewed, given-up: Not renewed",
    """
    first: {run: prove, outcomes: {gone: second, there: given-up}}
    second: {do: Fit it., minutes: 40, then: renewed}
    """,
)
PROVE = procedure(
    "prove",
    "gone: Gone, there: Still there",
    "first: {ask: Gone?, minutes: 5, answers: [{say: Gone, then: gone}, {say: There, then: there}]}\n",
)
DONE = (Accept(), Follow("renew"), Choose(0), Confirm())


def test_nothing_follows_before_the_verdict_is_accepted() -> None:
    """A procedure cannot be started from a verdict that was only reached."""
    assert str(refused(walk(TREE, RENEW, PROVE), Follow("renew"))) == (
        "No verdict has been accepted yet. Accept the verdict first."
    )


def test_a_verdict_is_accepted_once() -> None:
    """A second acceptance is refused."""
    assert refused(after(walk(TREE, RENEW, PROVE), Accept()), Accept()).kind == "not-now"


def test_a_procedure_follows_the_verdict() -> None:
    """Starting it is an event of its own, and the walk stands at its first step."""
    state = after(walk(TREE, RENEW, PROVE), Accept())

    assert made(state, Follow("renew")) == (Followed("renew"),)
    assert after(state, Follow("renew")).where == "prove/first"


def test_a_procedure_that_the_verdict_does_not_name_is_refused() -> None:
    """The refusal names those that may follow."""
    assert str(refused(after(walk(TREE, RENEW, PROVE), Accept()), Follow("paint"))) == (
        "The verdict does not name `paint`. It names: renew, prove."
    )


def test_no_second_procedure_starts_inside_the_first() -> None:
    """Under way, another procedure is refused, and the reason is not that no verdict was accepted."""
    state = after(walk(TREE, RENEW, PROVE), Accept(), Follow("renew"))

    assert str(refused(state, Follow("prove"))) == "A procedure is under way. Finish it first, or step back."


def test_the_verdict_tells_how_each_procedure_ended() -> None:
    """Back at the verdict, the procedure stands with the words of its outcome, the other one without."""
    asked = prompt(after(walk(TREE, RENEW, PROVE), *DONE))

    assert isinstance(asked, VerdictPrompt)
    assert asked.accepted
    assert asked.follow == (("renew", "The procedure renew", "Renewed"), ("prove", "The procedure prove", ""))


def test_a_run_inside_a_followed_procedure_is_no_end_of_its_own() -> None:
    """What the followed procedure runs has no outcome at the verdict."""
    assert after(walk(TREE, RENEW, PROVE), *DONE).followed == {"renew": "Renewed"}


def test_a_procedure_may_follow_twice() -> None:
    """Started again, its later outcome stands."""
    state = after(walk(TREE, RENEW, PROVE), Accept(), Follow("prove"), Choose(1), Follow("prove"), Choose(0))

    assert state.followed == {"prove": "Gone"}


def test_the_verdict_stays_while_a_procedure_follows() -> None:
    """Inside the procedure the case is concluded, and only the convicted is still suspected."""
    state = after(walk(TREE, RENEW, PROVE), Accept(), Follow("renew"))

    assert state.concluded
    assert prompt(state).where.suspects == ("Bearing worn",)


@pytest.mark.parametrize(
    ("commands", "fewest", "most"),
    [
        ((), 2, 2),
        ((Accept(),), 0, 0),
        ((Accept(), Follow("renew")), 5, 45),
        ((Accept(), Follow("renew"), Choose(0)), 40, 40),
    ],
)
def test_spare_minutes_of_what_follows(
    commands: tuple[Accept | Follow | Choose, ...], fewest: int, most: int
) -> None:
    """An accepted verdict leaves nothing to do; a procedure under way has its own minutes left."""
    spare = prompt(after(walk(TREE, RENEW, PROVE), *commands)).where.spare

    assert spare == Spare(Fraction(fewest), Fraction(most))


def test_the_trail_names_what_was_started() -> None:
    """Acceptance and start stand in the trail, so that they can be stepped back to."""
    state = after(walk(TREE, RENEW, PROVE), *DONE)

    assert [(line.question, line.answer) for line in prompt(state).where.trail] == [
        ("Verdict", "Worn"),
        ("Started: The procedure renew", ""),
        ("Gone?", "Gone"),
        ("Fit it.", "Done"),
    ]
