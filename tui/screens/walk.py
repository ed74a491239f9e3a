"""One step of the walk that takes one key: a caution, something to do, a question."""

from collections.abc import Iterator, Sequence
from typing import ClassVar, Final

from textual import on
from textual.binding import Binding, BindingType
from textual.widget import Widget

from engine.interview.command import Acknowledge, Choose, Confirm
from engine.interview.question import AskPrompt, CautionPrompt, DoPrompt
from tui.keys import bindings
from tui.messages import Picked
from tui.screens.case import CaseScreen
from tui.widgets.caution import Caution
from tui.widgets.column import Body
from tui.widgets.instruction import instruction, reasons
from tui.widgets.labelled import Labelled
from tui.widgets.row import Line
from tui.widgets.rows import numbered

_UNDERSTOOD: Final = Line("u", "Understood: I have read it", enter=False)
#: Seconds in which nobody can have read a caution, however short.
_READING: Final = 0.5
_HINT: Final = "Read the caution, then press u. Enter does not pass it."
_MORE: Final = "It goes on below. Read to the end, then press u."


class WalkScreen(CaseScreen):
    """Draws cautions, things to do and questions."""

    BINDINGS: ClassVar[list[BindingType]] = [
        *bindings("understood"),
        Binding("enter", "hint", show=False),
    ]

    @property
    def pause(self) -> float:
        """A key that was on its way before the caution appeared does not pass it."""
        return _READING if isinstance(self.asked, CautionPrompt) else 0.0

    def text(self) -> Iterator[Widget]:
        """The caution fills the place of the step that it stands before."""
        match self.asked:
            case CautionPrompt() as prompt:
                yield Caution(prompt)
            case DoPrompt() | AskPrompt() as prompt:
                yield Labelled((*instruction(prompt), *reasons(prompt)))

    def lines(self) -> Sequence[Line]:
        """One line an answer."""
        match self.asked:
            case DoPrompt():
                return numbered(["Done"])
            case AskPrompt(choices=choices):
                return numbered([choice.say for choice in choices])
            case _:
                return [_UNDERSTOOD]

    def moment(self) -> tuple[str, ...]:
        """A caution has a key of its own."""
        match self.asked:
            case CautionPrompt():
                return ("understood", "help", "back", "trail", "note", "calculators", "pause")
            case _:
                cannot = ("cannot",) if self.check_action("cannot", ()) else ()
                pick = () if cannot else ("pick",)  # one line of keys leaves the room to what is asked
                return ("answer", *pick, "help", "back", *cannot, "trail", "note", "calculators", "pause")

    @on(Picked)
    async def _picked(self, event: Picked) -> None:
        event.stop()
        if event.turn != self.session.turn:
            return
        match self.asked:
            case CautionPrompt():
                await self.action_understood()
            case DoPrompt():
                self.send(Confirm())
            case AskPrompt():
                self.send(Choose(event.line))

    async def action_understood(self) -> None:
        """Acknowledge the caution, once its end has been on the screen."""
        if not isinstance(self.asked, CautionPrompt) or not self.seen:
            return
        if any(body.scroll_offset.y < body.max_scroll_y for body in self.query(Body)):
            await self.action_scroll_on(1)
            self.tell("Not yet", _MORE)
        else:
            self.send(Acknowledge(self.asked.caution.name))

    def action_hint(self) -> None:
        """Enter where nothing is marked: only a caution is like that."""
        if isinstance(self.asked, CautionPrompt):
            self.tell("Not yet", _HINT)
