"""One whole case: every kind of event, and texts that would mean much to Markdown."""

from typing import Final

from engine import api
from engine.errors import Refusal
from engine.interview.command import (
    Accept,
    Acknowledge,
    CannotTell,
    Choose,
    Command,
    Confirm,
    Follow,
    Note,
    Read,
    StepBack,
)
from engine.records.codec import seal
from engine.records.event import Confirmed
from engine.records.memory import MemoryStore
from tests.engine.interview.given import library, procedure, tree

TREE: Final = (
    tree("""
    first: {do: Let it run & listen., cautions: [hot], then: second}
    second:
      ask: "Which wheels *really* turn?"
      answers: [{say: "<b>All</b> four", then: third}, {say: "Front_only_", then: third}]
      unsure: referred
    third:
      measure: Roll the tyres.
      readings: {gauge: rule, unit: mm, plausible: [1500, 2500], each: [right, left]}
      figure: spread
      bands: [{upto: 6, then: fourth}, {over: 6, then: referred}]
    fourth: {run: look, cautions: [turning], outcomes: {seen: worn, unseen: referred}}
    worn:
      verdict: "[Worn](out) | 1. bearing"
      suspects: [bearing]
      grade: repair
      correction: "- Renew it; 50 % of them `squeal` $x$"
      follow: [look]
    referred: {verdict: Referred, suspects: [], grade: refer, correction: C.}
    """)
    .replace("title: The bench tree", 'title: "Tree #1: wheels > axles"')
    .replace("It does not go.", "'1. \"It does not go\" & <i>whines</i>'")
)
LOOK: Final = procedure(
    "look",
    "seen: Seen, unseen: Not seen",
    "first: {do: Look at it., cautions: [hot], then: seen, unsure: unseen}\n",
)
COMMANDS: Final[tuple[Command, ...]] = (
    Acknowledge("hot"),
    Note("smells of *burnt* oil <script>alert(1)</script>"),
    Confirm(),
    Choose(0),
    Read({"right": "1900", "left": "74 7/8 in"}),
    StepBack(5),
    CannotTell("too _dark_"),
    StepBack(8),
    Choose(1),
    Read({"right": "1900", "left": "1905 mm"}),
    Acknowledge("turning"),
    Acknowledge("hot"),
    Confirm(),
    Accept(),
    Note("- told the customer\n- twice"),
    Follow("look"),
    Acknowledge("hot"),
    CannotTell("no light"),
)


def at(number: int) -> str:
    """The time of an event: one a minute."""
    return f"2026-03-05T08:{number:02}:00+01:00"


def walked(store: api.Store, *commands: Command, case: str = "2026-03-05-hxk4d") -> api.Job:
    """The case after these commands."""
    held = library(TREE, LOOK)
    job = api.open_job(
        store, held, "bench", "wagon", label="HP·118 | **urgent**", by="Bay #2", case=case, at=at(1)
    )
    for command in commands:
        after = api.act(store, job, command, at=at(len(job.entries) + 1))
        assert not isinstance(after, Refusal), (command, after)
        job = after
    return job


def whole() -> api.Job:
    """The whole case, read back from its store, confirmed after the repair."""
    store = MemoryStore()
    job = walked(store, *COMMANDS)
    last = job.entries[-1]
    event = Confirmed(fixed=True, cause="Bearing <worn>", remark="*Quiet* now.")
    store.append(seal(job.case, last.sequence + 1, at(last.sequence + 1), event, last.hash))
    return api.resume(store, job.case)
