"""The trail of a case: every step of its tree that it came to, and the way taken out of each."""

import pytest

from engine import api
from engine.cli.scripted import scripted
from engine.graph.exits import exits
from engine.interview.command import (
    Acknowledge,
    CannotTell,
    Choose,
    Command,
    Confirm,
    Read,
    Repeat,
    StepBack,
)
from engine.loading import folders
from engine.loading.library import Library, gather
from engine.records.memory import MemoryStore
from engine.report.drawing.graph import Subject, chart
from engine.report.drawing.trail import Visit, trail
from tests.engine.report.case import walked, whole

BEGUN: tuple[Command, ...] = (Acknowledge("hot"), Confirm())
SHORT = {"right": "1900", "left": "1902"}


def visits(*commands: Command) -> tuple[Visit, ...]:
    """The trail after these commands."""
    job = walked(MemoryStore(), *commands)
    return trail(job.entries, job.state)


def test_a_new_case_stands_at_its_start() -> None:
    """Nothing was taken yet."""
    assert visits() == (Visit("first"),)


def test_each_way_is_the_one_that_was_taken() -> None:
    """Two answers that lead to the same step are told apart."""
    assert visits(*BEGUN, Choose(1)) == (Visit("first", 0), Visit("second", 1), Visit("third"))


def test_what_was_stepped_back_over_is_gone() -> None:
    """After a step back the other way counts, and only that."""
    back = (*BEGUN, Choose(1), StepBack(4), CannotTell("dark"))

    assert visits(*back) == (Visit("first", 0), Visit("second", 2), Visit("referred"))


def test_a_procedure_that_waits_for_its_caution_is_where_the_case_stands() -> None:
    """The step that runs it is visited before it is entered."""
    assert visits(*BEGUN, Choose(0), Read(SHORT))[-1] == Visit("fourth")


def test_a_procedure_is_one_visit_left_by_its_outcome() -> None:
    """What is done inside is no part of the picture; the way out is."""
    inside = (*BEGUN, Choose(0), Read(SHORT), Acknowledge("turning"), Acknowledge("hot"), CannotTell("dark"))

    assert visits(*inside)[-2:] == (Visit("fourth", 1), Visit("referred"))


def test_what_follows_the_verdict_is_no_part_of_it() -> None:
    """A case whose verdict was followed by a procedure ends at the verdict."""
    job = whole()

    assert trail(job.entries, job.state)[-2:] == (Visit("fourth", 0), Visit("worn"))


CLOSE: tuple[Command, ...] = (*BEGUN, Choose(0), Read({"right": "1900", "left": "1905.8"}))


def test_a_close_reading_leads_nowhere_yet() -> None:
    """The case stands at the step that measures."""
    assert visits(*CLOSE)[-1] == Visit("third")


def test_a_close_reading_leads_on_once_it_was_decided() -> None:
    """By its band, as if it had been clear at once."""
    assert visits(*CLOSE, Repeat({"left": "1902; 1902; 1902"}))[-2:] == (Visit("third", 0), Visit("fourth"))


def test_the_picture_numbers_the_visits() -> None:
    """Cards carry the number of their visit, ways that of the visit that left by them."""
    job = walked(MemoryStore(), *BEGUN, Choose(1))
    state = job.state
    made = chart(Subject(state.library, state.tree, state.sheet, trail=trail(job.entries, state), case="one"))

    assert {card.name: card.visits for card in made.cards if card.visits} == {
        "first": (1,), "second": (2,), "third": (3,),
    }  # fmt: skip
    assert [(way.text, way.taken) for way in made.ways if way.taken] == [("", (1,)), ("Front_only_", (2,))]


@pytest.fixture(scope="module")
def shipped() -> Library:
    """The shipped library, rehearsals and all."""
    return gather(folders.shipped())


def test_the_trails_of_rehearsals_hang_together(shipped: Library) -> None:
    """Each visit but the last left by a way that leads to the next one; the first is the start."""
    for name, script in sorted(shipped.rehearsals.items())[::30]:
        store = MemoryStore()
        job = api.open_job(store, shipped, script.tree, script.vehicle, case=name)
        scripted(store, job, script, lambda line: None)  # noqa: ARG005  reason: nobody listens
        job = api.resume(store, name)
        way = trail(job.entries, job.state)
        steps = job.state.tree.steps
        led = [list(exits(steps[visit.step]))[visit.way or 0].then for visit in way[:-1]]

        assert [job.state.tree.start, *led] == [visit.step for visit in way], name
        assert all(visit.way is not None for visit in way[:-1])
