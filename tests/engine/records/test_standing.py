"""How a case stands: the same as its walk has it, told by the events alone."""

from typing import Final

import pytest

from engine import api
from engine.interview.command import CannotTell, Command, Note, Read, Repeat, StepBack
from engine.records.memory import MemoryStore
from engine.records.standing import waits
from tests.engine.interview.given import library, tree

TREE: Final = tree("""
    first:
      measure: How far?
      reading: {name: x, gauge: rule, unit: mm, plausible: [0, 9]}
      bands: [{upto: 5, then: ended}, {over: 5, then: ended}]
      unsure: ended
    """)
CLOSE: Final = Read({"x": "4.9"})


@pytest.mark.parametrize(
    ("commands", "waiting"),
    [
        ((), False),
        ((CLOSE,), True),
        ((CLOSE, Note("odd")), True),
        ((CLOSE, Read(CLOSE.typed, settle=True)), False),
        ((CLOSE, CannotTell("dark")), False),
        ((CLOSE, StepBack(2)), False),
        ((CLOSE, Repeat({"x": "4.9"}), StepBack(3)), True),
        ((CLOSE, CannotTell("dark"), StepBack(3)), True),
    ],
    ids=["new", "close", "noted", "taken", "given up", "taken back", "one taken back", "back to it"],
)
def test_a_case_that_stands_at_a_close_reading_waits(commands: tuple[Command, ...], *, waiting: bool) -> None:
    """As the walk itself has it, without a document being read."""
    store = MemoryStore()
    job = api.open_job(store, library(TREE), "bench", "wagon", case="one")
    for command in commands:
        after = api.act(store, job, command)
        assert isinstance(after, api.Job)
        job = after

    assert waits(job.entries) == waiting
    assert (job.state.undecided is not None) == waiting
    assert [line.waits for line in api.jobs(store)] == [waiting]
