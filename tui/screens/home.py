"""The jobs of the workshop: open ones to resume, finished ones to look at, and the way to a new one."""

import asyncio
from collections.abc import Sequence
from datetime import datetime
from typing import ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import BindingType

from engine.errors import Failure
from tui.keys import bindings
from tui.messages import Opened, Picked
from tui.screens.calculators import CalculatorsScreen
from tui.screens.failure import FailureScreen
from tui.screens.new_job import NewJobScreen
from tui.screens.page import Page
from tui.session import JobLine, Session
from tui.widgets.banner import Banner
from tui.widgets.column import Listing
from tui.widgets.keyline import Keyline
from tui.widgets.row import Line
from tui.widgets.rows import PAGE, Rows, part
from tui.widgets.words import Words


class HomeScreen(Page[None]):
    """Nine jobs at a time, the one touched last first."""

    DEFAULT_CSS = """
    HomeScreen > Words { padding: 0 1; }
    HomeScreen #title { background: $panel; text-style: bold; }
    HomeScreen #count { margin: 1 0; }
    """
    BINDINGS: ClassVar[list[BindingType]] = [*bindings("new", "standing", "calculators", "quit")]

    def __init__(self, session: Session) -> None:
        super().__init__()
        self.session = session
        self.reading = True
        self.finished = False
        self.page = 0
        #: Grows whenever the list is drawn anew: a line of an earlier list was another job.
        self.turn = 0
        self.listed: Sequence[JobLine] = ()
        self.jobs: tuple[JobLine, ...] = ()
        self.failures: tuple[str, ...] = ()

    def parts(self) -> ComposeResult:
        """The title, what cannot be read, the jobs, the keys."""
        self.turn += 1
        self.listed = part(self.shown, self.page)
        yield Words("WITNESSMARK   Jobs", id="title")
        for failure in self.failures:
            yield Banner("Cannot be read", failure)
        count = count_words(len(self.shown), self.page, finished=self.finished)
        yield Words("Reading the jobs …" if self.reading else count, id="count")
        with Listing():
            yield Rows([_line(number, job) for number, job in enumerate(self.listed, 1)], self.turn)
        some = ("answer", "pick") if self.shown else ()
        pages = ("page",) if len(self.shown) > PAGE else ()
        keys = ("new", *some, "help", "standing", "calculators", *pages, "look", "quit")
        yield Keyline(*keys, answers=len(self.listed))

    @property
    def shown(self) -> tuple[JobLine, ...]:
        """The jobs of the kind that is looked at."""
        wanted = "concluded" if self.finished else "open"
        return tuple(job for job in self.jobs if job.standing == wanted)

    def on_screen_resume(self) -> None:
        """Paint first; then read the store and the library, while keys are heeded."""
        self.run_worker(self.read(), exclusive=True)

    async def read(self) -> None:
        """Read the jobs again, and say what cannot be read."""
        self.jobs, self.failures = await asyncio.to_thread(self._found)
        self.reading = False
        await self.redraw()

    def _found(self) -> tuple[tuple[JobLine, ...], tuple[str, ...]]:
        jobs: tuple[JobLine, ...] = ()
        failures: list[str] = []
        try:
            jobs = self.session.jobs()
        except Failure as failure:
            failures.append(str(failure))
        try:
            failures += problems_words(self.session.problems())
        except Failure as failure:
            failures.append(str(failure))
        return jobs, tuple(failures)

    async def redraw(self) -> None:
        """Show what was read."""
        await self.recompose()
        self.mark()

    @on(Picked)
    def _picked(self, event: Picked) -> None:
        event.stop()
        if event.turn != self.turn:
            return
        try:
            self.session.resume(self.listed[event.line].case)
        except Failure as failure:
            self.app.push_screen(FailureScreen(failure, again=False))
        else:
            self.post_message(Opened())

    def action_new(self) -> None:
        """Open a job."""
        asked = NewJobScreen(self.session)
        try:
            asked.prepare()
        except Failure as failure:
            self.app.push_screen(FailureScreen(failure, again=False))
        else:
            self.app.push_screen(asked)

    async def action_standing(self) -> None:
        """Look at the other kind of jobs."""
        self.finished = not self.finished
        self.page = 0
        await self.redraw()

    async def action_scroll_on(self, pages: int) -> None:
        """The next nine, or the nine before."""
        self.page = max(0, min(self.page + pages, (len(self.shown) - 1) // PAGE))
        await self.redraw()

    def action_calculators(self) -> None:
        """Work something out."""
        self.app.push_screen(CalculatorsScreen(self.session))

    def action_quit(self) -> None:
        """End the program."""
        self.app.exit(0)


def count_words(count: int, page: int, *, finished: bool) -> str:
    """What the list holds.

    >>> count_words(0, 0, finished=False)
    'No open job. Press n to open one.'
    >>> count_words(12, 1, finished=True)
    'Finished jobs: 10 to 12 of 12'
    """
    if not count:
        return "No finished job." if finished else "No open job. Press n to open one."
    first = page * PAGE + 1
    kind = "Finished" if finished else "Open"
    return f"{kind} jobs: {first} to {min(first + PAGE - 1, count)} of {count}"


def problems_words(problems: Sequence[str]) -> tuple[str, ...]:
    """The first problem of the documents, and how many more there are."""
    if not problems:
        return ()
    more = f" ({len(problems) - 1} more; `witnessmark lint` lists them)" if len(problems) > 1 else ""
    return (problems[0] + more,)


def _line(number: int, job: JobLine) -> Line:
    name = " · ".join(part for part in (job.label or "no label", job.title) if part)
    waits = " · a reading is too close to call" if job.waits else ""
    stands = f" · {job.verdict}" if job.verdict else waits
    return Line(str(number), name, f"{job.vehicle} · {when_words(job.last)}{stands}")


def when_words(at: str) -> str:
    """A time as people write it; what is no time stays as it is.

    >>> when_words("2026-11-25T14:02:11+01:00"), when_words("yesterday")
    ('2026-11-25 14:02', 'yesterday')
    """
    try:
        return datetime.fromisoformat(at).strftime("%Y-%m-%d %H:%M")
    except ValueError:
        return at
