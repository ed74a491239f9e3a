"""A new job: which vehicle, which complaint, and what the workshop calls it."""

from collections.abc import Sequence
from typing import ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.widgets import Input

from engine.errors import Failure
from tui.keys import bindings
from tui.messages import Opened, Picked
from tui.screens.failure import FailureScreen
from tui.screens.page import Page
from tui.session import Offer, Session
from tui.widgets.column import Listing
from tui.widgets.field import Field
from tui.widgets.keyline import Keyline
from tui.widgets.row import Line
from tui.widgets.rows import PAGE, Rows, part
from tui.widgets.words import Words

_LONGEST = 60


class NewJobScreen(Page[None]):
    """Three questions, one after the other; Esc goes back one."""

    DEFAULT_CSS = """
    NewJobScreen > Words { padding: 0 1; }
    NewJobScreen #title { background: $panel; text-style: bold; }
    NewJobScreen #question { text-style: bold; margin: 1 0; }
    NewJobScreen Field { margin: 0 0 1 0; }
    """
    BINDINGS: ClassVar[list[BindingType]] = [*bindings("leave")]

    def __init__(self, session: Session, *, complaint: str = "", vehicle: str = "", label: str = "") -> None:
        super().__init__()
        self.session = session
        #: What was settled before this screen opened is not asked here.
        self.given = frozenset(name for name in (complaint, vehicle) if name)
        self.complaint = complaint
        self.vehicle = vehicle
        self.label = label
        self.page = 0
        #: Grows with every question: an answer to the one before is late.
        self.turn = 0
        self.listed: Sequence[Offer] = ()
        self.offers: Sequence[Offer] = ()

    @property
    def face(self) -> object:
        """Each question is another face."""
        return id(self), self.vehicle, self.complaint, self.page

    @property
    def naming(self) -> bool:
        """Whether all that is left is what the job is called."""
        return bool(self.vehicle and self.complaint)

    def prepare(self) -> None:
        """Find what can be chosen now; nothing where the label is to be typed.

        Raises Failure where the library cannot be read, or has not what was settled before.
        """
        if not self.vehicle:
            self.offers = self.session.vehicles(self.complaint)
        else:
            self.offers = () if self.complaint else self.session.complaints(self.vehicle)

    def parts(self) -> ComposeResult:
        """The question and its lines, or the two fields."""
        self.turn += 1
        yield Words("WITNESSMARK   New job", id="title")
        yield Words(self._question(), id="question")
        if self.naming:
            yield from self._fields()
            return
        self.listed = part(self.offers, self.page)
        with Listing():
            yield Rows([_line(number, offer) for number, offer in enumerate(self.listed, 1)], self.turn)
        pages = ("page",) if len(self.offers) > PAGE else ()
        yield Keyline(
            "answer",
            "pick",
            "help",
            "move",
            *pages,
            "look",
            "leave",
            answers=sum(not offer.reasons for offer in self.listed),
        )

    def _question(self) -> str:
        if not self.vehicle:
            return "1 of 3   Which vehicle is it?"
        return (
            "3 of 3   What is the job called?"
            if self.complaint
            else "2 of 3   What does the customer complain of?"
        )

    def _fields(self) -> ComposeResult:
        yield Words("Registration or order number (may stay empty)", classes="name")
        yield Field("label", self.label, longest=_LONGEST)
        yield Words("Who works on it (may stay empty)", classes="name")
        yield Field("by", self.session.by, longest=_LONGEST)
        with Listing():
            yield Rows([Line("Enter", "Open the job")], self.turn)
        yield Keyline("pick", "move", "leave")

    def on_mount(self) -> None:
        """Begin."""
        self.start()

    def start(self) -> None:
        """Mark the first line, or go into the first field."""
        if self.naming:
            self.set_focus(next(iter(self.query(Field)), None))
        else:
            self.mark()

    async def redraw(self) -> None:
        """Show the question that is next."""
        self.prepare()
        await self.recompose()
        self.start()

    @on(Picked)
    async def _picked(self, event: Picked) -> None:
        event.stop()
        if event.turn != self.turn:
            return
        if self.naming:
            self._open()
            return
        name = self.listed[event.line].name
        if self.vehicle:
            self.complaint = name
        else:
            self.vehicle = name
        self.page = 0
        await self.redraw()

    @on(Input.Changed)
    def _typed(self, event: Input.Changed) -> None:
        event.stop()
        if event.input.name == "by":
            self.session.by = event.value
        else:
            self.label = event.value

    @on(Input.Submitted)
    def _entered(self, event: Input.Submitted) -> None:
        event.stop()
        if event.input.name == "label":
            self.focus_next(Field)
        else:
            self._open()

    def _open(self) -> None:
        try:
            self.session.open(self.complaint, self.vehicle, self.label.strip())
        except Failure as failure:
            self.app.push_screen(FailureScreen(failure, again=True), self._again)
        else:
            self.post_message(Opened())

    def _again(self, again: bool | None) -> None:  # noqa: FBT001  reason: what the failure screen gives back
        if again:
            self._open()

    async def action_scroll_on(self, pages: int) -> None:
        """The next nine, or the nine before."""
        self.page = max(0, min(self.page + pages, (len(self.offers) - 1) // PAGE))
        await self.redraw()

    async def action_leave(self) -> None:
        """Back to the question before, or to the jobs."""
        if self.complaint and self.complaint not in self.given and self.vehicle:
            self.complaint = ""
        elif self.vehicle and self.vehicle not in self.given:
            self.vehicle = ""
        else:
            self.dismiss(None)
            return
        self.page = 0
        await self.redraw()


def _line(number: int, offer: Offer) -> Line:
    if offer.reasons:
        return Line(" ", offer.title, "Not for this one: " + "; ".join(offer.reasons) + ".", open=False)
    return Line(str(number), offer.title, offer.about)
