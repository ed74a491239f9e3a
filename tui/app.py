"""The terminal app: which screen is due, the looks, and what ends it."""

import asyncio
import os
import signal
import sys
import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import ClassVar, Final

from rich.console import RenderableType
from textual import events
from textual.app import App
from textual.binding import Binding, BindingType
from textual.screen import Screen

from engine.errors import Failure
from engine.interview.question import MeasurePrompt, Prompt, VerdictPrompt
from tui.keys import bindings
from tui.messages import Drawn, Left, Opened, Turned
from tui.screens.case import CaseScreen
from tui.screens.failure import FailureScreen
from tui.screens.help import HelpScreen
from tui.screens.home import HomeScreen
from tui.screens.measure import MeasureScreen
from tui.screens.new_job import NewJobScreen
from tui.screens.page import Page
from tui.screens.verdict import VerdictScreen
from tui.screens.walk import WalkScreen
from tui.session import Session
from tui.widgets.guard import MOUSE, Guard
from tui.widgets.themes import DARK, LIGHT, PLAIN


@dataclass(frozen=True, slots=True)
class Start:
    """What the app is opened with: a case to go on with, or what a new job is about; all may be missing."""

    case: str = ""
    tree: str = ""
    vehicle: str = ""
    label: str = ""


class WitnessmarkApp(App[int]):
    """Home at the bottom, the job at hand above it, and what is asked in passing above that."""

    TITLE = "Witnessmark"
    CSS_PATH = "app.tcss"
    ENABLE_COMMAND_PALETTE = False
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("ctrl+q", "quit", show=False, priority=True),
        Binding("ctrl+c", "help_quit", show=False, system=True),
        *bindings("look", "help"),
    ]

    def __init__(
        self, session: Session, start: Start | None = None, clock: Callable[[], float] = time.monotonic
    ) -> None:
        super().__init__(ansi_color="NO_COLOR" in os.environ or None)
        self.session = session
        self.start = start or Start()
        self.guard = Guard(clock)
        self.leaving = False
        self._face: object = None
        for theme in (DARK, LIGHT, PLAIN):
            self.register_theme(theme)
        self.theme = PLAIN.name if self.no_color else DARK.name

    def get_default_screen(self) -> Screen[None]:
        """The jobs."""
        return HomeScreen(self.session)

    async def on_mount(self) -> None:
        """Heed the signals that end a program, and go where the command line pointed."""
        if not self.is_headless:
            self._heed_signals()
        if self.start.case or self.start.tree or self.start.vehicle:
            self.call_after_refresh(self._begin)

    def _heed_signals(self) -> None:
        loop = asyncio.get_running_loop()
        for number in (signal.SIGTERM, signal.SIGHUP):
            loop.add_signal_handler(number, self._end, number)

    def _end(self, number: int) -> None:
        """End, and give the terminal back as it was; all that was answered is in the store already.

        A terminal that is gone may never take what is given back: then the alarm ends the process.
        """
        signal.alarm(2)
        self.exit(128 + number)

    async def _begin(self) -> None:
        start = self.start
        try:
            if start.case and not (start.tree and start.vehicle and not self.session.known(start.case)):
                self.session.resume(start.case)
            elif start.tree and start.vehicle:
                self.session.open(start.tree, start.vehicle, start.label, start.case or None)
            else:
                asked = NewJobScreen(
                    self.session, complaint=start.tree, vehicle=start.vehicle, label=start.label
                )
                asked.prepare()
                await self.push_screen(asked)
                return
        except Failure as failure:
            self.push_screen(FailureScreen(failure, again=False))
        else:
            await self.on_opened()

    # -- which screen is due

    async def on_opened(self, _: Opened | None = None) -> None:
        """A job is at hand: its screen stands right above the jobs."""
        if not self.session.busy:
            return
        while len(self.screen_stack) > 1:
            await self.pop_screen()
        await self.push_screen(_screen(self.session.prompt())(self.session))

    async def on_turned(self, _: Turned) -> None:
        """Another question: the same screen draws it, or another one takes its place."""
        if not self.session.busy:
            return  # the job was put aside meanwhile
        due = _screen(self.session.prompt())
        if isinstance(self.screen, due):
            # in the screen's own time, so that nothing else of it runs between two questions
            self.screen.call_later(self.screen.redraw)
        elif isinstance(self.screen, CaseScreen):
            await self.switch_screen(due(self.session))

    def on_drawn(self, event: Drawn) -> None:
        """A question stands on the screen: give it the time that it takes to be read."""
        self.guard.drawn(event.pause)

    async def on_left(self, _: Left) -> None:
        """Back to the jobs."""
        while len(self.screen_stack) > 1:
            await self.pop_screen()
        self.session.leave()

    # -- keys

    async def on_event(self, event: events.Event) -> None:
        """Let a key (or the mouse button) pass unless it is still held from the question before."""
        if isinstance(event, events.Key | events.MouseDown | events.MouseUp) and not event.is_forwarded:
            key = event.key if isinstance(event, events.Key) else MOUSE
            face = self.screen.face if isinstance(self.screen, Page) else None
            if face != self._face:
                self._face = face
                self.guard.turned()
            if not self.guard.counts(key):
                return
            if self.guard.lost and isinstance(self.screen, Page):
                self.screen.missed(self.guard.lost)
        await super().on_event(event)

    def action_help(self) -> None:
        """Show the keys."""
        self.push_screen(HelpScreen())

    def action_look(self) -> None:
        """Dark or light; where no colours are wanted there is nothing to switch."""
        if not self.no_color:
            self.theme = LIGHT.name if self.theme == DARK.name else DARK.name

    def action_help_quit(self) -> None:
        """Ctrl+C is pressed by habit: it neither ends the program nor loses a word."""
        self.bell()

    def exit(
        self, result: int | None = None, return_code: int = 0, message: RenderableType | None = None
    ) -> None:
        """End the program; whatever goes wrong after that is of no matter to anybody."""
        self.leaving = True
        super().exit(result, return_code, message)

    @property
    def broken(self) -> Exception | None:
        """The mistake of the program that ended it, if one did."""
        return None if self.leaving else self._exception

    def _fatal_error(self) -> None:
        """End without a page of code on the terminal: one sentence is said once it has been given back."""
        self._close_messages_no_wait()


def _screen(prompt: Prompt) -> type[CaseScreen]:
    match prompt:
        case VerdictPrompt():
            return VerdictScreen
        case MeasurePrompt():
            return MeasureScreen
        case _:
            return WalkScreen


_NO_TERMINAL: Final = "The app needs a terminal with UTF-8. `witnessmark walk TREE --plain` works anywhere."


def run(  # noqa: PLR0913, PLR0917  reason: what the command line may say, each named
    store_url: str | None = None,
    folders: Sequence[Path] = (),
    case: str | None = None,
    tree: str | None = None,
    vehicle: str | None = None,
    label: str = "",
    mouse: bool = True,  # noqa: FBT001, FBT002  reason: always given by name
) -> int:
    """Run the app until it is left; returns the exit code.

    0: left by a person; 128 and the signal's number: ended by a signal; 2: could not run.
    """
    if not _able():
        sys.stderr.write(f"witnessmark: {_NO_TERMINAL}\n")
        return 2
    _ask_the_terminal()
    session = Session(store_url, folders)
    app = WitnessmarkApp(session, Start(case or "", tree or "", vehicle or "", label))
    try:
        code = app.run(mouse=mouse)
    finally:
        session.close()
    if app.broken is not None:
        sys.stderr.write(f"witnessmark: {_broken_words(app.broken)}\n")
        return 2
    return code or 0


def _able() -> bool:
    """Whether the terminal can carry the app: the toolkit reads one stream and draws on another."""
    streams = (sys.stdin, sys.stdout, sys.stderr)
    return all(stream.isatty() for stream in streams) and (sys.stderr.encoding or "").lower() in (
        "utf-8",
        "utf8",
    )


def _ask_the_terminal() -> None:
    """Let the terminal alone say how large it is.

    A program that started this one may have left behind the size that its own window had once (everything
    that edits lines with readline does), and what is drawn would keep it, however large the window is made.
    """
    for name in ("COLUMNS", "LINES"):
        os.environ.pop(name, None)


def _broken_words(error: BaseException) -> str:
    """What to say after a mistake of the program itself."""
    return (
        f"The app had to stop: {type(error).__name__}: {error}. "
        "Everything that was answered is in the store; start it again, or use `witnessmark walk --plain`."
    )
