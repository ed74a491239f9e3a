"""How a case ended, and its signs in another version of its tree."""

from dataclasses import replace

import pytest

from engine import api
from engine.belief.confirmed import carried, ended
from engine.interview.command import Accept, Choose, Command, Settle, StepBack
from engine.records.event import Entry
from tests.engine.belief.counted import TREE
from tests.engine.interview.given import library, tree


def walked(*commands: Command) -> tuple[Entry, ...]:
    """The entries that these commands make, after the opening."""
    store = api.open_store("memory:")
    job = api.open_job(store, library(TREE), "bench", "wagon", case="one", label="HP-1")
    for command in commands:
        after = api.act(store, job, command)
        assert isinstance(after, api.Job), after
        job = after
    return job.entries


def test_a_case_tells_how_it_ended() -> None:
    """The one suspect whose repair helped is the cause, unless another is named."""
    found = ended(walked(Choose(0), Accept(), Settle(fixed=True)))
    assert found is not None
    assert (found.step, found.convicted, found.fixed, found.cause) == ("shaft", ("shaft",), True, "shaft")
    assert found.signs == (("first", 0),)


@pytest.mark.parametrize(
    ("last", "fixed", "cause"),
    [
        (Settle(fixed=False), False, ""),
        (Settle(fixed=False, cause="bearing"), False, "bearing"),
        (Settle(fixed=True, cause="elsewhere"), True, "elsewhere"),
    ],
    ids=["not fixed", "another", "something else"],
)
def test_the_last_word_counts(last: Settle, fixed: bool, cause: str) -> None:  # noqa: FBT001  reason: a row of a table
    """It may be said again when more is known."""
    found = ended(walked(Choose(0), Accept(), Settle(fixed=True), last))
    assert found is not None
    assert (found.fixed, found.cause) == (fixed, cause)


def test_what_was_stepped_back_over_does_not_count() -> None:
    """Neither the answer nor the verdict."""
    entries = walked(Choose(0), Accept(), StepBack(2), Choose(1), Accept())
    found = ended(entries)
    assert found is not None
    assert (found.step, found.signs) == ("dead", (("first", 1),))
    assert ended(walked(Choose(0), Accept(), StepBack(2))) is None
    assert ended(()) is None


def test_what_was_said_of_a_verdict_that_was_stepped_back_over_does_not_count() -> None:
    """The verdict that stands was not confirmed."""
    found = ended(walked(Choose(0), Accept(), Settle(fixed=True), StepBack(2), Choose(1), Accept()))

    assert found is not None
    assert (found.step, found.fixed, found.cause) == ("dead", None, "")


def test_the_times_and_the_grade_are_those_of_the_records() -> None:
    """Opened and concluded with an offset; what is no time is none."""
    entries = walked(Choose(0), Accept())
    found = ended(
        (replace(entries[0], at="2026-03-01T08:00:00"), *entries[1:-1], replace(entries[-1], at="noon"))
    )

    assert found is not None
    assert found.grade == "repair"
    assert found.opened is not None
    assert found.opened.utcoffset() is not None
    assert found.concluded is None


STEP = """
    first:
      measure: How far?
      reading: {name: x, gauge: rule, unit: mm, plausible: [0, 9]}
      bands: [{upto: %s, then: ended}, {over: %s, then: ended}]
    """
ASKED = """
    first: {ask: Which?, answers: [{say: A, then: ended}, {say: B, then: ended}, {say: C, then: ended}]}
    """
SWAPPED = """
    first: {ask: Which one?, answers: [{say: C, then: ended}, {say: D, then: ended}, {say: A, then: ended}]}
    """


@pytest.mark.parametrize(
    ("then", "now", "numbers"),
    [
        (ASKED, ASKED, [0, 1, 2]),
        (ASKED, SWAPPED, [2, 0]),
        (STEP % (5, 5), STEP % (5, 5), [0, 1]),
        (STEP % (5, 5), STEP % (6, 6), []),
        (STEP % (5, 5), ASKED, []),
        (ASKED, ASKED.replace("first:", "second:"), []),
    ],
    ids=["same", "answers moved", "same bands", "a limit moved", "another kind", "step gone"],
)
def test_signs_are_known_again_in_another_version(then: str, now: str, numbers: list[int]) -> None:
    """Answers by their words, bands only where nothing about them has changed."""
    start = "second" if "second:" in now else "first"
    before, after = library(tree(then)).trees["bench"], library(tree(now, start=start)).trees["bench"]
    signs = [("first", 0), ("first", 1), ("first", 2)][: 3 if "ask" in then else 2]

    assert list(carried(signs, before, after)) == [("first", number) for number in numbers]


def test_a_sign_that_the_tree_never_had_is_left_out() -> None:
    """A record from elsewhere breaks nothing."""
    held = library(tree(ASKED)).trees["bench"]

    assert list(carried([("first", 9), ("nowhere", 0)], held, held)) == []
