"""The one place of the app that calls the engine: the store, the library, the job at hand.

Whatever a screen shows comes from here, and whatever a person does goes through here; a command is in
the store before the next question is asked.
"""

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import cached_property
from pathlib import Path
from threading import Lock
from typing import Final

from engine import api
from engine.api import JobLine
from engine.cli.whole import write
from engine.errors import Failure, Refusal
from engine.interview.command import Command, Read
from engine.interview.question import Blank, Close, MeasurePrompt, Prompt, TrailLine
from engine.model.tree import Tree

__all__ = ["Draft", "JobLine", "Offer", "Session"]

#: Places of a curve; between them it is drawn straight.
_PLACES: Final = 41


@dataclass(frozen=True, slots=True)
class Draft:
    """What stands in the fields of one step, not sent yet."""

    step: str = ""
    typed: dict[str, str] = field(default_factory=dict)
    #: Why it was not taken when it was sent.
    refusal: Refusal | None = None
    #: What was read at this step before and has yet to be decided.
    close: Close | None = None

    @property
    def waiting(self) -> bool:
        """Whether just what is too close to call stands in the fields."""
        return self.close is not None and {n: t.strip() for n, t in self.typed.items()} == self.close.typed


@dataclass(frozen=True, slots=True)
class Offer:
    """A document that can be chosen, or the reasons why it cannot."""

    name: str
    title: str
    about: str
    reasons: tuple[str, ...] = ()


class Session:
    """The store, the library and the job at hand; no picture of them is kept anywhere else."""

    def __init__(
        self,
        url: str | None = None,
        folders: Sequence[Path] = (),
        at: Callable[[], str | None] = lambda: None,
    ) -> None:
        self._url = url
        self._folders = tuple(folders)
        self._at = at
        # the list of jobs is read beside what is drawn
        self._lock = Lock()
        self._store: api.Store | None = None
        self._library: api.Library | None = None
        self._job: api.Job | None = None
        #: Grows whenever something else is to be asked; an answer to an earlier question is late.
        self.turn = 0
        self.draft = Draft()
        #: A note or reason that was written and not sent.
        self.written = ""
        #: Who opened the last job here: the next is most likely theirs too.
        self.by = ""
        #: Whether the trail is shown beside the step where there is room.
        self.beside = True
        #: What stands in the fields of each calculator that was looked at, by its name.
        self._reckoned: dict[str, dict[str, str]] = {}

    # -- the store and the library

    @property
    def store(self) -> api.Store:
        """The store, opened on first use. Raises what keeps it from being opened."""
        with self._lock:
            if self._store is None:
                self._store = api.open_store(self._url)
            return self._store

    @property
    def library(self) -> api.Library:
        """The library, read on first use. Raises Failure for a folder that is not there."""
        with self._lock:
            if self._library is None:
                self._library = api.library(self._folders)
            return self._library

    def problems(self) -> tuple[str, ...]:
        """What is wrong with the documents, a sentence each."""
        return tuple(str(problem) for problem in self.library.problems)

    def jobs(self) -> tuple[JobLine, ...]:
        """Every case of the store, the one touched last first."""
        return api.jobs(self.store)

    def close(self) -> None:
        """Let go of the store. Nothing is saved here: everything already is."""
        if self._store is not None:
            self._store.close()
            self._store = None

    # -- what a job can be opened with

    def vehicles(self, tree: str = "") -> tuple[Offer, ...]:
        """Every vehicle sheet, by title; those that a tree chosen before is not for last, with the reasons.

        Raises Failure where there is no such tree.
        """
        asked = self._tree(tree) if tree else None
        offers = (
            Offer(sheet.name, sheet.title, "", tuple(api.suits(asked, sheet)) if asked else ())
            for sheet in self.library.sheets.values()
        )
        return _sorted(offers)

    def complaints(self, vehicle: str) -> tuple[Offer, ...]:
        """Every tree, by title; those that are not for the vehicle last, with the reasons.

        Raises Failure where there is no such vehicle.
        """
        sheet = self.library.sheets.get(vehicle)
        if sheet is None:
            raise self._missing("vehicle", vehicle, self.library.sheets)
        offers = (
            Offer(tree.name, tree.title, tree.complaint, tuple(api.suits(tree, sheet)))
            for tree in self.library.trees.values()
        )
        return _sorted(offers)

    def _tree(self, name: str) -> Tree:
        found = self.library.trees.get(name)
        if found is None:
            raise self._missing("tree", name, self.library.trees)
        return found

    def _missing(self, kind: str, name: str, there: Iterable[str]) -> Failure:
        if f"{kind} {name}" in self.library.broken:
            return Failure(f"The {kind} `{name}` has mistakes.", "`witnessmark lint` lists them.")
        return Failure(f"There is no {kind} `{name}`.", f"There are: {', '.join(sorted(there))}.")

    # -- the job at hand

    @property
    def job(self) -> api.Job:
        """The job at hand; there must be one."""
        assert self._job is not None
        return self._job

    @property
    def busy(self) -> bool:
        """Whether a job is at hand."""
        return self._job is not None

    def open(self, tree: str, vehicle: str, label: str = "", case: str | None = None) -> None:
        """Open a new job and write it down. Raises Failure where it cannot be."""
        job = api.open_job(
            self.store, self.library, tree, vehicle, label=label, by=self.by, case=case, at=self._at()
        )
        self._take(job)

    def known(self, case: str) -> bool:
        """Whether the store has this case."""
        return case in self.store.heads()

    def resume(self, case: str) -> None:
        """Take up a job again. Raises Failure where there is none, or it cannot be read."""
        self._take(api.resume(self.store, case))

    def leave(self) -> None:
        """Put the job aside."""
        self._job = None
        self.draft = Draft()
        self.turn += 1

    def prompt(self) -> Prompt:
        """What the job at hand asks now."""
        return api.prompt(self.job)

    def advice(self) -> tuple[str, ...]:
        """What to do next by the numbers, a sentence each."""
        return api.advice(self.job)

    def act(self, command: Command) -> Refusal | None:
        """Write what the command makes, then move on; or say why it cannot be taken.

        Raises the store's failures with the job, and what was typed, left as they were.
        """
        after = api.act(self.store, self.job, command, self._at())
        if isinstance(after, Refusal):
            if isinstance(command, Read):
                self.draft = replace(self.draft, typed=dict(command.typed), refusal=after)
            return after
        self._take(after)
        return None

    def poll(self) -> tuple[TrailLine, ...] | None:
        """What another window added to the case since; None where it stands as we know it."""
        if self.store.heads().get(self.job.case) == self.job.entries[-1].sequence:
            return None
        return self.refresh()

    def refresh(self) -> tuple[TrailLine, ...]:
        """Take over what another window added, and say which lines of the trail are new."""
        known = {entry.sequence for entry in self.job.entries}
        self._take(api.refresh(self.store, self.job))
        return tuple(line for line in self.prompt().where.trail if line.sequence not in known)

    def _take(self, job: api.Job) -> None:
        """Have this job at hand. What was typed stays where the step has stayed the same.

        What was read and is too close to call stands in the fields again, as it was typed.
        """
        self._job = job
        self.turn += 1
        asked = self.prompt()
        step = f"{job.case} {asked.where.step}"
        close = asked.close if isinstance(asked, MeasurePrompt) else None
        if step != self.draft.step or close != self.draft.close:
            typed = close.typed if close else self.draft.typed if step == self.draft.step else {}
            self.draft = Draft(step, dict(typed), close=close)

    # -- what is typed

    def type(self, name: str, text: str) -> None:
        """Keep what stands in a field; a refusal of what stood there before is over."""
        if self.draft.typed.get(name, "") != text:
            self.draft = replace(self.draft, typed={**self.draft.typed, name: text}, refusal=None)

    def preview(self, blank: Blank) -> api.Preview:
        """What a field's text is understood as."""
        return api.preview(blank, self.draft.typed.get(blank.name, ""))

    def figure(self) -> str:
        """The figure and band of what is typed so far, in words."""
        return api.figure(self.job, self.draft.typed)

    def working(self) -> tuple[str, ...]:
        """The sum of what is typed so far, line by line."""
        return api.working(self.job, self.draft.typed)

    # -- the trade's arithmetic

    @cached_property
    def calculators(self) -> tuple[api.Calculator, ...]:
        """All of them, family by family."""
        return api.calculators()

    def given(self, calculator: api.Calculator) -> dict[str, str]:
        """What stands in its fields; what is usual, to begin with."""
        usual = {wanted.name: wanted.default for wanted in calculator.inputs}
        return self._reckoned.setdefault(calculator.name, usual)

    def reckon(self, calculator: api.Calculator) -> api.Sum | Refusal:
        """The sum of what stands in its fields, or why there is none."""
        return api.compute(calculator, _typed(self.given(calculator)))

    def curve(self, calculator: api.Calculator, plot: api.Plot) -> api.Curve | None:
        """The curve of what stands in its fields, if it can be drawn."""
        return api.curve(calculator, plot, _typed(self.given(calculator)), _PLACES)

    # -- the report

    def write_report(self, folder: Path) -> Path:
        """Write the report of the job into a folder, whole or not at all; gives its path.

        An earlier report of the same case is replaced. Raises Failure where it cannot be written.
        """
        path = (folder / f"report-{_file_name(self.job.case)}.md").absolute()
        write(path, api.report(self.job), "Start the program in a folder with room that you may write to.")
        return path


def _typed(fields: Mapping[str, str]) -> Mapping[str, str]:
    """The fields with something in them."""
    return {name: text for name, text in fields.items() if text.strip()}


def _sorted(offers: Iterable[Offer]) -> tuple[Offer, ...]:
    return tuple(sorted(offers, key=lambda offer: (bool(offer.reasons), offer.title)))


def _file_name(case: str) -> str:
    """A case's name with nothing in it that a file name may not have.

    >>> _file_name("2026-11-25-k7qdx"), _file_name("../etc/pass wd")
    ('2026-11-25-k7qdx', '---etc-pass-wd')
    """
    return "".join(c if c.isalnum() or c in "-_" else "-" for c in case)
