"""Notes: written at any time, kept whatever is stepped back over, told where they were written."""

import pytest

from engine.interview.aftermath import LONGEST_NOTE
from engine.interview.command import Accept, Acknowledge, Confirm, Follow, Note, StepBack
from engine.interview.prompt import prompt
from engine.records.event import Noted
from tests.engine.interview.given import after, made, procedure, refused, tree, walk

TREE = tree("""
    first: {do: Look., cautions: [hot], then: second}
    second: {run: touch, outcomes: {felt: third}}
    third: {run: touch, outcomes: {felt: fourth}}
    fourth: {verdict: V, suspects: [shaft], grade: repair, correction: C., follow: [touch]}
    """)
TOUCH = procedure("touch", "felt: Felt it", "first: {do: Touch it., then: felt}\n")


def test_a_note_is_kept_with_its_step() -> None:
    """A remark is written down at the step that stands open, without blanks around it."""
    assert made(walk(TREE, TOUCH), Note("  smells burnt \n")) == (Noted("first", "smells burnt"),)


@pytest.mark.parametrize("text", ["", " \n\t "])
def test_an_empty_note_is_refused(text: str) -> None:
    """Nothing is no remark."""
    assert refused(walk(TREE, TOUCH), Note(text)).kind == "empty"


@pytest.mark.parametrize(("length", "taken"), [(LONGEST_NOTE, True), (LONGEST_NOTE + 1, False)])
def test_a_note_has_a_longest_length(length: int, *, taken: bool) -> None:
    """The longest note is taken, one character more is refused with the length that may be had."""
    if taken:
        assert made(walk(TREE, TOUCH), Note("x" * length)) == (Noted("first", "x" * length),)
    else:
        assert (
            str(refused(walk(TREE, TOUCH), Note("x" * length)))
            == "The note has 2001 characters. Keep it to 2000."
        )


def test_a_note_needs_no_caution_read() -> None:
    """What is seen while a caution stands can be written down; the caution still stands."""
    state = after(walk(TREE, TOUCH), Note("drips"))

    assert (state.notes, state.pending) == ((("first", "drips"),), ("hot",))


def test_a_note_stands_beside_the_settled_step() -> None:
    """The line of the trail names the notes of its step."""
    state = after(walk(TREE, TOUCH), Note("drips"), Acknowledge("hot"), Note("smells"), Confirm())

    assert state.past[0].line.remarks == ("Caution acknowledged: Hot parts", "Note: drips", "Note: smells")


def test_a_note_survives_a_step_back() -> None:
    """What was seen stays seen: stepping back keeps every note, and its step is told with it again."""
    state = after(walk(TREE, TOUCH), Acknowledge("hot"), Note("drips"), Confirm(), Note("whines"))
    back = after(state, StepBack(state.past[0].line.sequence))

    assert prompt(back).where.notes == ("drips", "whines")
    assert "Note: drips" in after(back, Acknowledge("hot"), Confirm()).past[0].line.remarks


def test_a_note_belongs_to_the_time_it_was_written() -> None:
    """A step that is met again in a second run does not carry the note of the first."""
    state = after(walk(TREE, TOUCH), Acknowledge("hot"), Confirm(), Note("warm"), Confirm(), Confirm())

    assert [past.line.remarks for past in state.past[1:]] == [("Note: warm",), ()]


def test_a_note_may_be_written_after_the_verdict() -> None:
    """The accepted verdict takes a note, and so does a procedure that follows it."""
    state = after(walk(TREE, TOUCH), Acknowledge("hot"), Confirm(), Confirm(), Confirm(), Accept(), Note("a"))
    later = after(state, Follow("touch"), Note("b"))

    assert later.notes == (("fourth", "a"), ("touch/first", "b"))
