"""What the screens of a job share: sending a command, what may go wrong with it, and the other windows."""

from abc import abstractmethod
from collections.abc import Iterator, Mapping, Sequence
from typing import ClassVar, Final

from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import Horizontal
from textual.widget import Widget

from engine.errors import Conflict, Failure, Refusal
from engine.interview.command import CannotTell, Command, Note, Settle, StepBack
from engine.interview.question import Prompt, TrailLine, VerdictPrompt
from tui.keys import bindings
from tui.messages import Drawn, Left, Turned
from tui.screens.calculators import CalculatorsScreen
from tui.screens.failure import FailureScreen
from tui.screens.news import NewsScreen
from tui.screens.note import REASONS, NoteScreen
from tui.screens.page import Page
from tui.screens.past import PastScreen
from tui.screens.suspects import SuspectsScreen
from tui.session import Session
from tui.widgets.banner import Banner
from tui.widgets.column import Body, Column
from tui.widgets.heading import Heading
from tui.widgets.keyline import Keyline
from tui.widgets.row import Line
from tui.widgets.rows import Rows
from tui.widgets.trail import Trail

#: What was written down, where the question itself need not show it.
_DONE: Final[Mapping[type[Command], str]] = {
    Note: "the note was written down",
    Settle: "what became of the repair was written down",
}
#: Seconds between two looks at the store for what another window wrote.
_LOOK: Final = 1.0


class CaseScreen(Page[None]):
    """Draws itself wholly from what the job asks; keeps nothing of the case."""

    DEFAULT_CSS = """
    CaseScreen #middle { height: 1fr; }
    CaseScreen.-narrow Trail, CaseScreen.-slim Trail { display: none; }
    CaseScreen.-alone Trail { display: none; }
    """
    BINDINGS: ClassVar[list[BindingType]] = [
        *bindings("back", "trail", "who", "note", "cannot", "calculators", "pause")
    ]

    def __init__(self, session: Session) -> None:
        super().__init__(classes="" if session.beside else "-alone")
        self.session = session
        self.asked: Prompt = session.prompt()
        #: The turn that is drawn; whatever is said of an earlier one comes too late.
        self.turn = session.turn
        #: Whether the question has been laid out: before that nobody can have read it.
        self.seen = False
        #: How much air the lines had last: most often the next ones have the same, and need no second layout.
        self.air = ""
        #: The class that says whether the text had to scroll, likewise.
        self.tight = ""
        #: What was written down last, where the question itself does not show it.
        self.done = ""

    @property
    def face(self) -> object:
        """Another question is another face."""
        return id(self), self.session.turn

    def on_mount(self) -> None:
        """Look out for other windows, and be ready for an answer."""
        self.set_interval(_LOOK, self._look)
        self.start()
        self.post_message(Drawn(self.pause))

    async def redraw(self) -> None:
        """Show what the job asks now, and nothing of what it asked before."""
        if not self.session.busy:
            return
        self.asked = self.session.prompt()
        self.turn = self.session.turn
        self.seen = False
        with self.app.batch_update():
            await self.recompose()
            self.start()
        self.post_message(Drawn(self.pause))

    @property
    def pause(self) -> float:
        """Seconds before which nobody can have read what is asked."""
        return 0.0

    def start(self) -> None:
        """Put the focus where the answer will be given."""
        self.mark()

    def parts(self) -> ComposeResult:
        """Where we are, what is asked, the answers, the keys."""
        yield Heading(self.session.job.label, self.asked.where, beside=self.session.beside)
        with Horizontal(id="middle"):
            with Column(classes=self.tight):
                yield Banner("Done", self.done)
                with Body():
                    yield from self.text()
                yield Rows(self.lines(), self.session.turn, air=self.air)
            yield Trail(self.asked.where)
        yield Keyline(*self.keys(), answers=self.digits)

    def laid_out(self) -> None:
        """What is asked stands on the screen; reading on has a key of its own where the text does not fit."""
        for column in self.query(Column):
            self.tight = "-tight" if column.has_class("-tight") else ""
        for rows in self.query(Rows):
            self.seen = True
            self.air = rows.air
            self.key_line()

    def key_line(self) -> None:
        """Show the keys of the moment."""
        actions = self.keys()
        if any(body.max_scroll_y > 0 for body in self.query(Body)):
            spare = ("pick", "move") if "answer" in actions else ()
            actions = ("scroll", *(action for action in actions if action not in spare))
        for keyline in self.query(Keyline):
            keyline.say(*actions, answers=self.digits)

    def keys(self) -> tuple[str, ...]:
        """The keys of the moment; wherever the trail can be seen, so can who is suspected."""
        return tuple(key for one in self.moment() for key in (("trail", "who") if one == "trail" else (one,)))

    @property
    def digits(self) -> int:
        """How many lines are chosen by a digit."""
        return sum(line.cap.isdigit() for line in self.lines())

    @abstractmethod
    def text(self) -> Iterator[Widget]:
        """What is told or asked."""

    @abstractmethod
    def lines(self) -> Sequence[Line]:
        """What can be answered."""

    @abstractmethod
    def moment(self) -> tuple[str, ...]:
        """The keys that mean something now, the most needed first."""

    # -- commands

    def send(self, command: Command) -> None:
        """Give the command. It is in the store before anything else is drawn, or it is said why not."""
        if self.turn != self.session.turn:
            return
        try:
            refusal = self.session.act(command)
        except Conflict:
            self._overtaken()
        except Failure as failure:
            self.app.push_screen(
                FailureScreen(failure, again=True), lambda again: self._again(command, again)
            )
        else:
            self._answered(command, refusal)

    def _again(self, command: Command, again: bool | None) -> None:  # noqa: FBT001  reason: what the failure screen gives back
        if again:
            self.send(command)

    def _answered(self, command: Command, refusal: Refusal | None) -> None:
        if refusal is not None:
            self.refused(refusal)
            return
        if isinstance(command, Note | CannotTell):
            self.session.written = ""
        self.done = _DONE.get(type(command), "")
        self.post_message(Turned())

    def refused(self, refusal: Refusal) -> None:
        """Say why the command was not taken."""
        self.tell("Not taken", str(refusal))

    def tell(self, word: str, text: str) -> None:
        """Say something above the text; it stays until something else is to be said."""
        for banner in self.query("Column > Banner").results(Banner):
            banner.tell(word, text)

    # -- other windows

    def _look(self) -> None:
        if not self.is_current:
            return
        try:
            added = self.session.poll()
        except Failure as failure:
            self.tell("Not read", str(failure))
        else:
            if added is not None:
                self._tell(added, lost=False)

    def _overtaken(self) -> None:
        try:
            added = self.session.refresh()
        except Failure as failure:
            self.app.push_screen(FailureScreen(failure, again=False))
        else:
            self._tell(added, lost=True)

    def _tell(self, added: Sequence[TrailLine], *, lost: bool) -> None:
        self.app.push_screen(NewsScreen(added, lost=lost), self._told)

    def _told(self, _: None) -> None:
        self.post_message(Turned())

    # -- keys

    def action_back(self) -> None:
        """Choose the step to go back to."""
        self.app.push_screen(PastScreen(self.asked.where), self._step_back)

    def _step_back(self, to: int | None) -> None:
        if to is not None:
            self.send(StepBack(to))

    def action_trail(self) -> None:
        """Show or hide the trail beside the step; where there is no room, as a screen of its own."""
        if not self.has_class("-wide"):
            self.action_back()
            return
        self.session.beside = not self.session.beside
        self.set_class(not self.session.beside, "-alone")
        for heading in self.query(Heading):
            heading.beside = self.session.beside
            heading.refresh(layout=True)

    def action_who(self) -> None:
        """Say who is suspected, and advise where that is asked for."""
        self.app.push_screen(SuspectsScreen(self.asked.where.suspicion, self.session.advice()))

    def action_note(self) -> None:
        """Write a remark down."""
        self.app.push_screen(
            NoteScreen("Note", _asked(self.asked), self.session.written, self._keep), self._note
        )

    def _note(self, text: str | None) -> None:
        if text is not None:
            self.send(Note(text))

    def action_cannot(self) -> None:
        """Say why the step cannot be done or told here."""
        screen = NoteScreen(
            "Why can this not be done or told here?",
            _asked(self.asked),
            self.session.written,
            self._keep,
            REASONS,
        )
        self.app.push_screen(screen, self._cannot)

    def _cannot(self, reason: str | None) -> None:
        if reason is not None:
            self.send(CannotTell(reason))

    def _keep(self, text: str) -> None:
        self.session.written = text

    def action_calculators(self) -> None:
        """Work something out; the job stays as it is below it."""
        self.app.push_screen(CalculatorsScreen(self.session))

    def action_pause(self) -> None:
        """Put the job aside; all of it is in the store."""
        self.post_message(Left())

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """A key that means nothing at this step does nothing."""
        if action == "cannot":
            return bool(getattr(self.asked, "can_refuse", False))
        return super().check_action(action, parameters)


def _asked(prompt: Prompt) -> str:
    if isinstance(prompt, VerdictPrompt):
        return prompt.verdict
    return prompt.coming if hasattr(prompt, "coming") else prompt.text
