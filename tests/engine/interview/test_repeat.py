"""Readings that are too close to call, one of them repeated: the others keep what was typed for them."""

from collections.abc import Mapping
from typing import Final

import pytest

from engine.errors import Refusal
from engine.interview.command import Read, Repeat
from engine.interview.decide import decide
from engine.interview.evolve import evolve
from engine.interview.prompt import prompt
from engine.interview.question import Close, MeasurePrompt
from engine.interview.state import State
from engine.records.event import Measured, Undecided
from tests.engine.interview.given import entry, made, refused, tree, walk

STEPS: Final = """
    first:
      measure: How far apart?
      readings: {gauge: rule, unit: mm, plausible: [50, 300], each: [a, b, c]}
      figure: spread
      bands: [{upto: 10, then: ended}, {over: 10, then: ended}]
      unsure: ended
    """


def left(*, insist: bool = False, **read: str) -> State:
    """A walk that stands at three readings with the rule whose spread is too close to 10 mm."""
    state = walk(tree(STEPS))
    decision = decide(state, Read({"a": "100", "b": "105", "c": "109.3", **read}, insist))
    assert not isinstance(decision, Refusal)
    assert isinstance(decision[0], Undecided)
    return evolve(state, entry(state, decision[0]))


def repeated(state: State, typed: Mapping[str, str], *, insist: bool = False) -> Measured | Undecided:
    """What further readings make."""
    (event,) = made(state, Repeat(typed, insist))
    assert isinstance(event, Measured | Undecided)
    return event


def close(state: State) -> Close:
    """What is asked about the readings."""
    asks = prompt(state)
    assert isinstance(asks, MeasurePrompt)
    assert asks.close is not None
    return asks.close


def test_only_what_is_repeated_is_typed() -> None:
    """It goes behind what was read of the same before; the two others stay as they are."""
    assert repeated(left(), {"c": "109.2"}).typed == {"a": "100", "b": "105", "c": "109.3; 109.2"}


def test_a_repeat_that_decides_is_measured() -> None:
    """The mean of the repeated one, 109 mm, makes a spread of 9 mm."""
    event = repeated(left(), {"c": "108.7"})

    assert isinstance(event, Measured)
    assert (event.values["c"], event.figure, event.close) == ("109", "9", False)


def test_a_repeat_that_decides_nothing_is_kept() -> None:
    """Nearer to the limit than before: 9.4 mm."""
    state = left()
    event = repeated(state, {"c": "109.5"})

    assert isinstance(event, Undecided)
    assert close(evolve(state, entry(state, event))).typed["c"] == "109.3; 109.5"


def test_several_are_repeated_at_once() -> None:
    """And one of them more than once."""
    typed = repeated(left(), {"a": "100; 100.5 mm;", "c": "109"}).typed

    assert typed == {"a": "100; 100; 100.5 mm", "b": "105", "c": "109.3; 109"}


def test_each_reading_has_its_own_mean() -> None:
    """Repeats of one change nothing of another."""
    assert repeated(left(), {"a": "100.5; 100.9"}).values == {"a": "1507/15", "b": "105", "c": "1093/10"}


def test_each_reading_has_its_own_spread() -> None:
    """103 mm beside 100 mm, with a rule that scatters by 0.3 mm: that one was misread, and no other."""
    state = left(c="109.4")
    state = evolve(state, entry(state, repeated(state, {"a": "103"})))

    assert "Read a once more, as the readings lie too far apart and one was misread" in close(state).told
    assert close(state).again == ("a",)


def test_the_third_reading_outvotes_the_misread_one() -> None:
    """The median of 100, 103 and 100 mm."""
    state = left(c="109.4")
    state = evolve(state, entry(state, repeated(state, {"a": "103"})))

    assert repeated(state, {"a": "100"}).values["a"] == "100"


@pytest.mark.parametrize(
    ("read", "again"),
    [
        ({}, ("a", "c")),
        ({"a": "100; 100", "c": "109.5"}, ("c", "a")),
        ({"a": "100;100", "c": "109.35"}, ("c",)),
        ({"c": "110"}, ()),
    ],
    ids=["either", "that which was read less often first", "one", "none"],
)
def test_what_is_proposed_is_named(read: Mapping[str, str], again: tuple[str, ...]) -> None:
    """For whoever shows the choice; b lies between the ends and adds nothing."""
    assert close(left(insist=False, **read)).again == again


@pytest.mark.parametrize(
    ("typed", "kind", "told"),
    [
        ({}, "missing", "Nothing was read once more."),
        ({"c": " ; "}, "missing", "`c` is missing."),
        ({"d": "100"}, "not-there", "no reading `d`"),
        ({"c": "far"}, "no-number", "c: "),
        ({"c": "10.9"}, "implausible", "c = 10.9 mm lies outside"),
    ],
)
def test_what_is_no_repeat_is_refused(typed: Mapping[str, str], kind: str, told: str) -> None:
    """Nothing is changed, and what was read before still waits."""
    refusal = refused(left(), Repeat(typed))

    assert refusal.kind == kind
    assert told in refusal.message


def test_an_odd_repeat_is_taken_once_it_was_confirmed() -> None:
    """The record says so."""
    assert repeated(left(), {"c": "10.9"}, insist=True).insisted


def test_what_was_confirmed_before_is_not_doubted_again() -> None:
    """45 mm lies outside; it was confirmed with the first readings, and the record goes on saying that."""
    state = left(insist=True, a="45", b="50", c="54.3")

    assert repeated(state, {"c": "54.2"}).insisted
    assert refused(state, Repeat({"a": "44"})).kind == "implausible"


def test_without_a_close_reading_nothing_can_be_repeated() -> None:
    """Every reading of the step is wanted first."""
    assert refused(walk(tree(STEPS)), Repeat({"a": "100"})).kind == "not-now"


def test_it_is_taken_by_no_other_step() -> None:
    """Nothing waits at a question."""
    answers = '[{say: "Yes", then: ended}, {say: "No", then: ended}]'
    state = walk(tree(f"first: {{ask: Worn?, answers: {answers}}}\n"))

    assert refused(state, Repeat({"a": "100"})).kind == "not-now"
