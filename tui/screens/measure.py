"""A measuring step: fields, what they convert to while one types, a second look at odd readings."""

from collections.abc import Iterator, Sequence
from typing import ClassVar, Final

from textual import events, on
from textual.binding import BindingType
from textual.widget import Widget

from engine.errors import Refusal
from engine.interview.command import Read
from engine.interview.question import MeasurePrompt
from tui.keys import bindings
from tui.messages import Picked, Sent, Typed
from tui.screens.case import CaseScreen
from tui.widgets.column import Column
from tui.widgets.field import Field
from tui.widgets.instruction import instruction, reasons
from tui.widgets.labelled import Labelled
from tui.widgets.readings import Readings
from tui.widgets.row import Line
from tui.widgets.rows import Rows

_TAKE: Final = (Line("Enter", "Take it: this is what was read"),)
_DOUBTED: Final = (
    Line("1", "Correct what was typed"),
    Line("2", "It was read again and shows just that: take it"),
)
_TYPED: Final = frozenset("0123456789.,-½¼¾")


class MeasureScreen(CaseScreen):
    """Draws the readings. While the cursor is in a field, letters are letters; Esc makes them keys."""

    BINDINGS: ClassVar[list[BindingType]] = [*bindings("out")]
    #: What the last layout depended on; the same again moves nothing under the reader's eyes.
    _laid: object = None

    @property
    def measuring(self) -> MeasurePrompt:
        """What is asked here is always a measurement."""
        assert isinstance(self.asked, MeasurePrompt)
        return self.asked

    @property
    def doubted(self) -> bool:
        """Whether what stands in the fields was doubted, and would be taken if confirmed."""
        refusal = self.session.draft.refusal
        return refusal is not None and refusal.insist

    def text(self) -> Iterator[Widget]:
        """The instruction, then the fields."""
        yield Labelled(instruction(self.measuring))
        yield Readings(self.measuring, self.session.draft.typed, self.session.turn)
        yield Labelled(reasons(self.measuring))

    def lines(self) -> Sequence[Line]:
        """Taking the reading; where it was doubted, correcting or confirming it."""
        return _DOUBTED if self.doubted else _TAKE

    def moment(self) -> tuple[str, ...]:
        """In a field few keys are left."""
        if isinstance(self.focused, Field):
            return ("pick", "move", "out")
        first = ("answer", "pick") if self.doubted else ("field", "pick")
        cannot = ("cannot",) if self.check_action("cannot", ()) else ()
        return (*first, "help", "back", *cannot, "trail", "note", "pause")

    def start(self) -> None:
        """The cursor goes into the first empty field; what was typed before is understood again."""
        refusal = self.session.draft.refusal
        self._understood()
        if refusal is not None:
            self.query_one(Readings).refused(str(refusal))
        self.query_one(Readings).start()

    def laid_out(self) -> None:
        """Where the text does not fit, what is typed into or was refused is what must be seen."""
        super().laid_out()
        column = self.query_one(Column)
        laid = (column.size, column.has_class("-tight"), self.session.draft.refusal)
        if laid != self._laid:
            self._laid = laid
            self.call_after_refresh(self.query_one(Readings).reveal)

    # -- typing

    @on(Typed)
    def _typed(self, event: Typed) -> None:
        event.stop()
        doubted = self.doubted
        self.session.type(event.name, event.text)
        if self.session.draft.refusal is None:
            self.query_one(Readings).refused("")
        self._understood()
        if doubted and not self.doubted:
            self.run_worker(self.query_one(Rows).show(self.lines()))

    def _understood(self) -> None:
        readings = self.query_one(Readings)
        for blank in self.measuring.blanks:
            seen = self.session.preview(blank)
            readings.field(blank.name).converted(seen.text, ok=seen.ok)
        readings.figured(self.session.figure())

    def on_key(self, event: events.Key) -> None:
        """A digit typed while no field has the cursor is meant for the fields."""
        if event.character in _TYPED and not isinstance(self.focused, Field) and not self.doubted:
            event.stop()
            self._type(event.character or "")

    def _type(self, character: str) -> None:
        readings = self.query_one(Readings)
        readings.start()
        field = self.focused
        if isinstance(field, Field):
            field.insert_text_at_cursor(character)

    # -- sending

    @on(Sent)
    def _sent(self, event: Sent) -> None:
        event.stop()
        if event.turn == self.session.turn:
            self._take(insist=False)

    @on(Picked)
    def _picked(self, event: Picked) -> None:
        event.stop()
        if event.turn != self.session.turn:
            return
        if self.doubted and event.line == 0:
            self.query_one(Readings).start()
        else:
            self._take(insist=self.doubted)

    def _take(self, *, insist: bool) -> None:
        self.send(Read(dict(self.session.draft.typed), insist=insist))

    def refused(self, refusal: Refusal) -> None:
        """Say it beside the field; where it may be insisted on, offer that, with correcting marked."""
        if self.session.draft.refusal is not refusal:
            super().refused(refusal)
            return
        self.query_one(Readings).refused(str(refusal))
        self.run_worker(self._offer())

    async def _offer(self) -> None:
        rows = self.query_one(Rows)
        await rows.show(self.lines())
        if self.doubted:
            rows.mark()

    # -- keys

    def action_answer(self, number: int) -> None:
        """Digits choose only while a reading is doubted; else they are the reading."""
        if self.doubted:
            super().action_answer(number)
        else:
            self._type(str(number))

    def action_out(self) -> None:
        """Leave the field, so that letters are keys."""
        if isinstance(self.focused, Field):
            self.query_one(Rows).mark()

    def on_descendant_focus(self) -> None:
        """Other keys mean something inside a field than outside."""
        self.key_line()

    on_descendant_blur = on_descendant_focus
