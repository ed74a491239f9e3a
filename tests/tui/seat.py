"""A seat in front of the app: a screen of any size, keys, and what the eye sees, as plain text."""

import asyncio
import functools
from collections.abc import AsyncIterator, Awaitable, Callable
from contextlib import asynccontextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Final, ParamSpec

from textual import events
from textual.pilot import Pilot

from engine import api
from engine.interview.command import Accept, Acknowledge, Choose, Command, Confirm, Read
from engine.loading.folders import below
from engine.loading.library import Library, gather
from engine.records.memory import MemoryStore
from tui.app import Start, WitnessmarkApp
from tui.session import Session

HERE: Final = Path(__file__).parent
SMALL: Final = (40, 12)
USUAL: Final = (80, 24)
WIDE: Final = (160, 48)
#: What the small tree is walked on.
SQUEAL: Final = Start(tree="squeal", vehicle="fell", label="HP-204")
Case = ParamSpec("Case")


@functools.cache
def library() -> Library:
    """A small library of our own, so that a revised tree of the shop changes no picture here."""
    return gather(below([HERE / "library"]))


class Bench(Session):
    """The real session on a store of one's choice, with the small library and a clock that stands."""

    def __init__(self, store: api.Store | None = None) -> None:
        super().__init__(at=lambda: f"2026-11-25T14:{self.minute:02}:11+01:00")
        self.minute = 2
        self._store = store or MemoryStore()

    @property
    def library(self) -> Library:
        """The small library."""
        return library()


class Ticks:
    """A clock on which every press comes a second after the one before, unless it is told otherwise."""

    def __init__(self) -> None:
        self.step = 1.0
        self.now = 0.0

    def __call__(self) -> float:
        """The time, which goes on by being asked."""
        self.now += self.step
        return self.now


@dataclass(frozen=True)
class Seat:
    """Somebody at the keyboard."""

    app: WitnessmarkApp
    pilot: Pilot[int]
    clock: Ticks

    @property
    def session(self) -> Session:
        """What the app works on."""
        return self.app.session

    async def press(self, *keys: str) -> str:
        """Press keys one after the other, each once the screen has settled; gives what is seen then."""
        for key in keys:
            await self.pilot.press(key)
            await self.settle()
        return self.text()

    async def write(self, text: str) -> str:
        """Put a text into the field, all at once."""
        self.app.post_message(events.Paste(text))
        await self.pilot.pause()
        return self.text()

    async def settle(self) -> None:
        """Wait until nothing is on its way any more, and two looks see the same."""
        before = ""
        while (seen := self.text()) != before:
            before = seen
            await self.app.workers.wait_for_complete()
            await self.pilot.pause()

    def text(self) -> str:
        """The screen as lines of text, without the blanks at their ends."""
        return grid(self.app)

    @property
    def shown(self) -> str:
        """The kind of screen that is on top."""
        return type(self.app.screen).__name__


def grid(app: WitnessmarkApp) -> str:
    """What stands on the screen, cell by cell."""
    strips = app.screen._compositor.render_strips()
    return "\n".join("".join(segment.text for segment in strip).rstrip() for strip in strips).rstrip() + "\n"


@asynccontextmanager
async def seat(
    session: Session | None = None, size: tuple[int, int] = USUAL, start: Start | None = None
) -> AsyncIterator[Seat]:
    """Sit down in front of a screen of this size; a session that has a job at hand shows it."""
    clock = Ticks()
    bench = session or Bench()
    app = WitnessmarkApp(bench, start or (RESUMED if bench.busy else None), clock)
    async with app.run_test(size=size) as pilot:
        taken = Seat(app, pilot, clock)
        await taken.settle()
        yield taken


def driven(test: Callable[Case, Awaitable[None]]) -> Callable[Case, None]:
    """A test that presses keys, as one that pytest can run."""

    @functools.wraps(test)
    def run(*args: Case.args, **kwargs: Case.kwargs) -> None:
        asyncio.run(_whole(test(*args, **kwargs)))

    return run


async def _whole(test: Awaitable[None]) -> None:
    await test


def at(*commands: Command, store: api.Store | None = None) -> Bench:
    """A session whose case has come this far; a command of the small tree is one of those below."""
    bench = Bench(store)
    bench.open("squeal", "fell", "HP-204", case="the-case")
    for command in commands:
        refusal = bench.act(command)
        assert refusal is None, refusal
    return bench


#: The case that `at` opened.
RESUMED: Final = Start(case="the-case")
TO_PARK: Final = (Acknowledge("hot-brakes"), Acknowledge("rolling"))
TO_LIFT: Final = (*TO_PARK, Confirm(), Acknowledge("below-raised"))
TO_LISTEN: Final = (*TO_LIFT, Confirm())
TO_PAD: Final = (*TO_LISTEN, Choose(0))
TO_ROLL: Final = (*TO_LISTEN, Choose(2), Acknowledge("below-raised"), Confirm())
TO_VERDICT: Final = (*TO_PAD, Read({"pad": "2.5"}), Acknowledge("below-raised"), Confirm())
TO_ACCEPTED: Final = (*TO_VERDICT, Accept())
