"""The public face of the engine: libraries, jobs, prompts, records. What cli and tui call."""

import secrets
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from typing import Final

from engine.belief.learned import Learned, learned
from engine.belief.returns import returns
from engine.errors import Damaged, Failure, Refusal, Unreadable
from engine.interview import evolve as walk
from engine.interview import reading
from engine.interview.aftermath import outcome
from engine.interview.command import Choose, Command
from engine.interview.counsel import counsel
from engine.interview.decide import decide
from engine.interview.lessons import Lessons, lessons
from engine.interview.pack import pack
from engine.interview.preview import Preview, preview
from engine.interview.prompt import prompt as _prompt
from engine.interview.question import Prompt
from engine.interview.state import State
from engine.lint.finding import Finding
from engine.lint.rule import suits
from engine.lint.runner import run as lint
from engine.lint.walkable import flaws
from engine.loading import folders as disk
from engine.loading.library import Library, gather
from engine.model.tree import Measure
from engine.nearest import meant
from engine.plain import clean
from engine.proof.rehearse import Rehearsed, rehearse
from engine.proof.unvisited import unvisited
from engine.records.chain import verify
from engine.records.codec import NOTHING_BEFORE, seal
from engine.records.event import Answered, Entry, Opened
from engine.records.export import export
from engine.records.opening import open_store
from engine.records.rescue import rescue
from engine.records.standing import confirmed, verdict, waits
from engine.records.store import Store
from engine.report.markdown import report as _report
from engine.trade.calculator import Calculator, Sum, compute
from engine.trade.curve import Curve, Plot, curve
from engine.trade.registry import calculators

__all__ = [
    "Calculator",
    "Curve",
    "Finding",
    "Job",
    "JobLine",
    "Library",
    "Plot",
    "Preview",
    "Rehearsed",
    "Store",
    "Sum",
    "act",
    "advice",
    "calculators",
    "compute",
    "curve",
    "export",
    "figure",
    "jobs",
    "learn",
    "lessons",
    "library",
    "lint",
    "moment",
    "open_job",
    "open_store",
    "preview",
    "prompt",
    "reckoned",
    "refresh",
    "rehearse",
    "report",
    "rescue",
    "resume",
    "returns",
    "suits",
    "told",
    "unvisited",
    "verify",
    "working",
]


#: Folders of the shipped library that a walk may enter.
_WALKED: Final = ("complaints/", "procedures/", "vehicles/", "shop/")


@dataclass(frozen=True, slots=True)
class Job:
    """A case at work: its entries so far, and the walk that they make."""

    case: str
    label: str
    entries: tuple[Entry, ...]
    state: State


@dataclass(frozen=True, slots=True)
class JobLine:
    """A case in a list: what it is about, and how it stands."""

    case: str
    label: str
    title: str
    vehicle: str
    opened: str
    last: str
    #: `open` (also where the case is damaged), or `concluded` once a verdict was accepted and not taken
    #: back since.
    standing: str
    verdict: str
    #: Whether a reading of the open step is too close to call and has yet to be decided.
    waits: bool = False
    #: What was told last after the repair: `fixed`, `not fixed`, or empty.
    confirmed: str = ""


def library(folders: Iterable[Path] = ()) -> Library:
    """The shipped library and the documents of these folders.

    Raises Failure for a folder that is not there.
    """
    named = tuple(folders)
    for folder in named:
        if not folder.exists():
            raise Failure(f"There is no folder {folder}.", "Check the path after `--library`.")
    # released documents were linted before they were shipped, and nobody walks a rehearsal by hand
    own = tuple(disk.below(named))
    shown = {file.shown for file in own}
    # a folder of the shipped library that is named itself is read once
    released = (f._replace(trusted=True) for f in disk.shipped(_WALKED) if f.shown not in shown)
    return gather((*released, *own))


def open_job(  # noqa: PLR0913  reason: what a case is opened with, each named
    store: Store,
    held: Library,
    tree: str,
    vehicle: str,
    *,
    label: str = "",
    by: str = "",
    case: str | None = None,
    at: str | None = None,
) -> Job:
    """Open a case and write its first entry.

    Raises Failure for a name that is not there or a tree that is not for the vehicle, Unreadable
    where a document of the walk has an error, and the store's own failures.
    """
    check(held, tree, vehicle)
    name = case or new_case(at)
    if store.read(name):
        raise Failure(f"There is a case {name} already.", "Give another name, or resume it.")
    event = pack(held, tree, vehicle, label, by)
    entry = seal(name, 1, at or now(), event, NOTHING_BEFORE)
    state = walk.evolve(None, entry)
    store.append(entry)
    # what was written is what counts: half a character of a name is spelt out there
    return Job(entry.case, _label(entry), (entry,), state)


def check(held: Library, tree: str, vehicle: str) -> None:
    """Raise unless the tree may be walked on the vehicle: both are there, suit, and are free of errors."""
    _named("tree", tree, held.trees, held)
    _named("vehicle", vehicle, held.sheets, held)
    reasons = suits(held.trees[tree], held.sheets[vehicle])
    if reasons:
        raise Failure(
            f"The tree `{tree}` is not for `{vehicle}`: {'; '.join(reasons)}.", "Choose another tree."
        )
    flawed = flaws(held, tree, vehicle)
    if flawed:
        raise Unreadable(flawed)


def _named(kind: str, name: str, there: Iterable[str], held: Library) -> None:
    if f"{kind} {name}" in held.broken:
        raise Unreadable(held.problems)
    if name not in there:
        raise Failure(f"There is no {kind} `{name}`.", meant(name, list(there)))


def resume(store: Store, case: str) -> Job:
    """The case as its entries have made it.

    Raises Failure where there is none, Damaged where it cannot be read.
    """
    entries = store.read(case)
    if not entries:
        raise Failure(f"There is no case {case} here.", "`witnessmark cases` lists those that are.")
    try:
        return Job(case, _label(entries[0]), entries, walk.replay(entries))
    except ValueError as error:
        told = f"Case {clean(case, lines=False)} cannot be walked again: {error}"
        raise Damaged(told, "`witnessmark cases export` still gives its events.") from error


def _label(first: Entry) -> str:
    return first.event.label if isinstance(first.event, Opened) else ""


def refresh(store: Store, job: Job) -> Job:
    """The job with whatever another window has added to its case."""
    return resume(store, job.case)


def prompt(job: Job) -> Prompt:
    """What the walk asks now."""
    return _prompt(job.state)


def act(store: Store, job: Job, command: Command, at: str | None = None) -> Job | Refusal:
    """Decide a command, write what it makes, and only then move on.

    When this returns a job, its events are in the store. Raises the store's failures, with the job
    left as it was; the same command may then be given again.
    """
    decision = decide(job.state, command)
    if isinstance(decision, Refusal):
        return decision
    for event in decision:
        last = job.entries[-1]
        entry = seal(job.case, last.sequence + 1, at or now(), event, last.hash)
        state = walk.evolve(job.state, entry)
        store.append(entry)
        job = Job(job.case, job.label, (*job.entries, entry), state)
    return job


def advice(job: Job) -> tuple[str, ...]:
    """What to do next by the numbers, a sentence each and marked as advice; the tree leads."""
    return counsel(job.state).told


def figure(job: Job, typed: dict[str, str]) -> str:
    """The figure of what is typed so far and the band it lies in, in words; empty while it cannot be told."""
    step = job.state.step
    return reading.sketch(job.state, step, typed) if isinstance(step, Measure) else ""


def reckoned(job: Job, command: Command) -> tuple[str, ...]:
    """What a calculator said of the answer that was just chosen; nothing where none did."""
    event = job.entries[-1].event if isinstance(command, Choose) and job.entries else None
    return (event.also,) if isinstance(event, Answered) and event.also else ()


def working(job: Job, typed: Mapping[str, str]) -> tuple[str, ...]:
    """The sum that is made of what is typed, line by line; nothing where none is, or not yet."""
    step = job.state.step
    return reading.working(job.state, step, typed) if isinstance(step, Measure) else ()


def told(job: Job) -> str:
    """What was told last after the repair, in words; empty where nothing was."""
    return outcome(job.state.tree, job.state.confirmed) if job.state.confirmed else ""


def learn(store: Store, held: Library, tree: str) -> tuple[Learned, Lessons]:
    """What the confirmed cases of a tree say of it, and those cases.

    Raises as `check` does where there is no such tree.
    """
    _named("tree", tree, held.trees, held)
    found = lessons(store, held.trees[tree])
    return learned(held.trees[tree], found.cases), found


def jobs(store: Store) -> tuple[JobLine, ...]:
    """Every case of the store, the one touched last first."""
    lines = [_told(store, case) for case in store.cases()]
    return tuple(sorted(lines, key=lambda line: _moment(line.last), reverse=True))


def _moment(at: str) -> float:
    """When that was, whatever the offset of the clock then; what is no time comes last."""
    try:
        return datetime.fromisoformat(at).timestamp()
    except ValueError:
        return 0.0


def _told(store: Store, case: str) -> JobLine:
    """The line of a case; one that is damaged must neither vanish nor hide the others."""
    try:
        return _line(case, store.read(case))
    except Damaged:
        return JobLine(case, "", "This case is damaged and cannot be read", "", "", "", "open", "")


def _line(case: str, entries: Sequence[Entry]) -> JobLine:
    opened = entries[0].event
    assert isinstance(opened, Opened)
    ended = verdict(entries)
    titles = opened.title, opened.vehicle_title
    moments = entries[0].at, entries[-1].at
    standing = "open" if ended is None else "concluded"
    after = confirmed(entries)
    told = "" if after is None else "fixed" if after.fixed else "not fixed"
    return JobLine(case, opened.label, *titles, *moments, standing, ended or "", waits(entries), told)


def report(job: Job) -> str:
    """The case as a Markdown page."""
    return _report(job.case, job.entries, job.state)


def now() -> str:
    """The time as records keep it."""
    return datetime.now(UTC).astimezone().isoformat(timespec="seconds")


def moment() -> datetime:
    """The time as one counts with it."""
    return datetime.now(UTC)


def new_case(at: str | None = None) -> str:
    """A name for a case: the day, and five letters and digits that are hard to misread."""
    letters = "23456789bcdfghjkmnpqrstvwxz"
    return f"{(at or now())[:10]}-{''.join(secrets.choice(letters) for _ in range(5))}"
