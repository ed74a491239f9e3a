"""Cautions: they stand before their step, each is read, and nothing goes past them."""

import pytest

from engine.interview.command import (
    Accept,
    Acknowledge,
    CannotTell,
    Choose,
    Command,
    Confirm,
    Follow,
    Read,
    StepBack,
)
from engine.interview.prompt import prompt
from engine.interview.question import CautionPrompt, DoPrompt, VerdictPrompt
from engine.records.event import Cautioned
from tests.engine.interview.given import after, made, procedure, read, refused, tree, walk

TWO = tree("first: {do: Let it turn., cautions: [hot, turning], then: ended, unsure: ended}\n")
RUN = tree("first: {run: spin, cautions: [turning], outcomes: {spun: ended}}\n")
SPIN = procedure("spin", "spun: It spun", "first: {do: Spin it., cautions: [hot], then: spun}\n")
VERDICT = tree("""
    first: {verdict: Worn, suspects: [shaft], grade: repair, correction: C., cautions: [hot], follow: [spin]}
    """)


def test_a_caution_stands_before_its_step() -> None:
    """The first caution is put with its text, how many follow it, and what is coming."""
    asked = prompt(walk(TWO))

    assert isinstance(asked, CautionPrompt)
    assert (asked.caution.title, asked.caution.text) == ("Hot parts", "The exhaust burns.")
    assert (asked.left, asked.coming) == (1, "Let it turn.")


def test_each_caution_is_acknowledged_by_itself() -> None:
    """The second caution comes after the first, and the step after both."""
    once = after(walk(TWO), Acknowledge("hot"))
    second = prompt(once)

    assert isinstance(second, CautionPrompt)
    assert (second.caution.name, second.left) == ("turning", 0)
    assert isinstance(prompt(after(once, Acknowledge("turning"))), DoPrompt)


def test_cautions_may_be_acknowledged_in_any_order() -> None:
    """Whichever pending caution is read is kept as such."""
    assert made(walk(TWO), Acknowledge("turning")) == (Cautioned("first", "turning"),)


@pytest.mark.parametrize(
    "command", [Confirm(), Choose(0), Read({"x": "1"}), CannotTell("why"), Accept(), Follow("spin")]
)
def test_nothing_goes_past_a_caution(command: Command) -> None:
    """Every answer before the caution was read is refused, with the titles of what is to be read."""
    refusal = refused(after(walk(TWO), Acknowledge("hot")), command)

    assert (refusal.kind, refusal.message) == (
        "caution",
        "A caution stands before this step: Turning wheels.",
    )


@pytest.mark.parametrize("caution", ["hot", "nonsense"])
def test_only_a_pending_caution_can_be_acknowledged(caution: str) -> None:
    """A caution that was read already, or that does not stand here, is refused."""
    assert refused(after(walk(TWO), Acknowledge("hot")), Acknowledge(caution)).kind == "not-there"


def test_a_caution_stands_before_a_run() -> None:
    """A `run` step with a caution waits outside its procedure, whose title is what is coming."""
    state = walk(RUN, SPIN)
    asked = prompt(state)

    assert state.where == "first"
    assert isinstance(asked, CautionPrompt)
    assert (asked.caution.name, asked.coming) == ("turning", "The procedure spin")


def test_the_procedure_is_entered_behind_its_last_caution() -> None:
    """Once the caution before a `run` was read, the procedure's own caution stands next."""
    state = after(walk(RUN, SPIN), Acknowledge("turning"))

    assert (state.where, state.pending) == ("spin/first", ("hot",))


def test_cautions_are_read_again_after_a_step_back() -> None:
    """Whoever comes back to a step reads its cautions once more."""
    done = after(read(walk(TWO)), Confirm())

    assert after(done, StepBack(done.past[0].line.sequence)).pending == ("hot", "turning")


def test_a_step_that_is_met_again_is_cautioned_again() -> None:
    """A procedure that runs a second time has its cautions read a second time."""
    twice = tree(
        "first: {run: spin, outcomes: {spun: second}}\nsecond: {run: spin, outcomes: {spun: ended}}\n"
    )
    state = after(read(walk(twice, SPIN)), Confirm())

    assert (state.where, state.pending) == ("spin/first", ("hot",))


def test_the_trail_remembers_the_cautions_that_were_read() -> None:
    """The settled step's line names each caution by its title."""
    state = after(read(walk(TWO)), Confirm())

    assert state.past[0].line.remarks == (
        "Caution acknowledged: Hot parts",
        "Caution acknowledged: Turning wheels",
    )


def test_a_caution_before_a_verdict_is_read_before_it_is_accepted() -> None:
    """A verdict cannot be accepted past its caution."""
    assert refused(walk(VERDICT, SPIN), Accept()).kind == "caution"


def test_a_followed_procedure_shows_its_cautions() -> None:
    """Cautions stand before the steps of a procedure that follows the verdict as before any other."""
    state = after(read(walk(VERDICT, SPIN)), Accept(), Follow("spin"))
    asked = prompt(state)

    assert isinstance(asked, CautionPrompt)
    assert (asked.caution.name, asked.where.step) == ("hot", "spin/first")


def test_the_verdicts_caution_is_told_once() -> None:
    """The trail names it where the verdict was accepted, not again where a procedure was started."""
    state = after(read(walk(VERDICT, SPIN)), Accept(), Follow("spin"))

    assert [past.line.remarks for past in state.past] == [("Caution acknowledged: Hot parts",), ()]


def test_an_accepted_verdict_is_not_cautioned_again() -> None:
    """Back from the procedure that followed, the verdict stands open at once, and another may follow."""
    state = after(read(after(read(walk(VERDICT, SPIN)), Accept(), Follow("spin"))), Confirm())

    assert isinstance(prompt(state), VerdictPrompt)
    assert after(state, Follow("spin")).where == "spin/first"


def test_a_verdict_stepped_back_to_is_cautioned_again() -> None:
    """Whoever takes the acceptance back reads the verdict's caution once more."""
    state = after(read(walk(VERDICT, SPIN)), Accept())

    assert after(state, StepBack(state.past[-1].line.sequence)).pending == ("hot",)
