"""A question whose answers go into a calculator: what it says is kept, told, and shown to what follows."""

from typing import Final

from engine.interview.command import Choose
from engine.interview.prompt import prompt
from engine.interview.state import State
from engine.records.event import Answered
from tests.engine.interview.given import after, made, tree, walk

CAN: Final = """
    first:
      ask: What stands on the can?
      figure: oil-substitution
      given: {asked: sheet.lubricants.transfer.service, offered: answer, unit: hypoid axle, yellow-metal: no}
      answers:
        - {say: GL-5, given: GL-5, gives: use, then: fill}
        - {say: GL-4, given: GL-4, gives: do not use, then: leave}
        - {say: Nothing, then: leave}
      unsure: ended
    fill: {do: Fill it., then: ended}
    leave: {do: Put it back., then: ended}
    """
WEAK: Final = (
    "Answer: do not use; "
    "Why: Hypoid teeth slide under load: GL-4 has too little additive and they would score."
)


def can() -> State:
    """A walk at the shelf, on a sheet that asks for GL-5."""
    return walk(tree(CAN))


def test_the_reason_is_kept() -> None:
    """The record says why, in words that need no table."""
    assert made(can(), Choose(1)) == (Answered("first", 1, "GL-4", WEAK),)


def test_an_answer_that_gives_nothing_is_kept_as_it_is() -> None:
    """Where nothing stands on the can nothing is worked out."""
    assert made(can(), Choose(2)) == (Answered("first", 2, "Nothing"),)


def test_the_reason_stands_in_the_trail() -> None:
    """Behind the answer, for whoever comes after."""
    assert after(can(), Choose(1)).past[0].line.answer == f"GL-4 ({WEAK})"


def test_the_next_step_shows_the_reason() -> None:
    """Whoever puts the can back reads why, and only there."""
    shown = [prompt(after(can(), Choose(answer))).show for answer in (1, 2)]  # type: ignore[union-attr]  # reason: something to do shows values

    assert shown == [(f"Worked out: {WEAK}",), ()]
