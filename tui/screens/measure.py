"""A measuring step: fields, what they convert to while one types, a second look at odd readings."""

from collections.abc import Iterator, Sequence
from typing import ClassVar, Final

from textual import events, on
from textual.binding import Binding, BindingType
from textual.widget import Widget

from engine.errors import Refusal
from engine.interview.command import Read
from engine.interview.question import Blank, MeasurePrompt
from tui.keys import bindings
from tui.messages import Picked, Typed
from tui.screens.case import CaseScreen
from tui.widgets.column import Column
from tui.widgets.field import Field
from tui.widgets.instruction import instruction, reasons
from tui.widgets.labelled import Labelled
from tui.widgets.reading import plain_name
from tui.widgets.readings import Readings
from tui.widgets.row import Line
from tui.widgets.rows import Rows, numbered

_TAKE: Final = (Line("Enter", "Take it: this is what was read"),)
_DOUBTED: Final = (
    Line("1", "Correct what was typed"),
    Line("2", "It was read again and shows just that: take it"),
)
_ONCE_MORE: Final = "Read it once more, and type that behind it: 12; 12.5"
_AS_IT_STANDS: Final = "Take it as it stands"
_TYPED: Final = frozenset("0123456789.,-½¼¾;")


class MeasureScreen(CaseScreen):
    """Draws the readings. While the cursor is in a field, letters are letters; Esc makes them keys."""

    BINDINGS: ClassVar[list[BindingType]] = [
        *bindings("out"),
        Binding("enter", "entered", show=False, priority=True),
    ]
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
        return self.close or (refusal is not None and refusal.insist)

    @property
    def close(self) -> bool:
        """Whether what stands in the fields is too close to a limit to call; it is kept already."""
        return self.session.draft.waiting

    def text(self) -> Iterator[Widget]:
        """The instruction, then the fields."""
        yield Labelled(instruction(self.measuring))
        yield Readings(self.measuring, self.session.draft.typed)
        yield Labelled(reasons(self.measuring))

    def lines(self) -> Sequence[Line]:
        """Taking the reading; where it was doubted, correcting or confirming it."""
        if self.close:
            blanks = self.measuring.blanks
            each = [self._once_more(blank) for blank in blanks] if len(blanks) > 1 else [_ONCE_MORE]
            return numbered([*each, _AS_IT_STANDS])
        return _DOUBTED if self.doubted else _TAKE

    def _once_more(self, blank: Blank) -> str:
        wanted = ", as proposed" if blank.name in self.proposed else ""
        return f"Read {plain_name(blank.name).lower()} once more{wanted}"

    @property
    def proposed(self) -> tuple[str, ...]:
        """The readings that it is proposed to repeat, by name, the first of them first."""
        close = self.session.draft.close
        return close.again if close else ()

    def moment(self) -> tuple[str, ...]:
        """In a field few keys are left."""
        if isinstance(self.focused, Field):
            return ("pick", "move", "out")
        first = "answer" if self.doubted else "field"
        cannot = ("cannot",) if self.check_action("cannot", ()) else ()
        pick = () if cannot else ("pick",)
        return (first, *pick, "help", "back", *cannot, "trail", "note", "calculators", "pause")

    def start(self) -> None:
        """The cursor goes into the first empty field; what was typed before is understood again."""
        for readings in self.query(Readings):
            self._understood(readings)
            self._beside(readings)
            readings.start()
        if self.close:
            self.mark()  # a digit chooses what becomes of the reading, and is no reading

    def mark(self) -> None:
        """Mark the reading that is to be repeated first, where there are several; else the first line."""
        names = [blank.name for blank in self.measuring.blanks]
        for rows in self.query(Rows):
            rows.mark(names.index(self.proposed[0]) if self.close and self.proposed else 0)

    def laid_out(self) -> None:
        """Where the text does not fit, what is typed into or was refused is what must be seen."""
        super().laid_out()
        for column in self.query(Column):
            laid = (column.size, column.has_class("-tight"), self.session.draft.refusal)
            if laid != self._laid:
                self._laid = laid
                self.call_after_refresh(self._reveal)

    def _reveal(self) -> None:
        for readings in self.query(Readings):
            readings.reveal()

    # -- typing

    @on(Typed)
    def _typed(self, event: Typed) -> None:
        event.stop()
        if self.turn != self.session.turn:
            return
        doubted = self.doubted
        for readings in self.query(Readings):
            self._gather(readings)
            self._beside(readings)
            self._understood(readings)
        if doubted != self.doubted:
            self.run_worker(self._offer(mark=False))  # the cursor stays where somebody types

    def missed(self, key: str) -> None:
        """A reading without its first digit is another reading: say what is missing in the field."""
        if isinstance(self.focused, Field) and key in _TYPED:
            self.tell(
                "Not typed", f"The {key} came so soon after the answer that it was taken for the same key."
            )

    def _beside(self, readings: Readings) -> None:
        """Beside the readings: why they were not taken, or why they do not decide."""
        draft = self.session.draft
        if draft.close is not None and draft.waiting:
            readings.refused(draft.close.told, "Not decided")
        else:
            readings.refused(str(draft.refusal or ""))

    def _gather(self, readings: Readings) -> None:
        """What stands in the fields now is what counts, however late it is told that it changed."""
        for name, text in readings.values().items():
            self.session.type(name, text)

    def _understood(self, readings: Readings) -> None:
        for blank in self.measuring.blanks:
            seen = self.session.preview(blank)
            readings.field(blank.name).converted(seen.text, ok=seen.ok)
        readings.figured(self.session.figure(), self.session.working())

    def on_key(self, event: events.Key) -> None:
        """A digit typed while no field has the cursor is meant for the fields."""
        if event.character in _TYPED and not isinstance(self.focused, Field) and not self.doubted:
            event.stop()
            self._type(event.character or "")

    def _type(self, character: str) -> None:
        for readings in self.query(Readings):
            readings.start()
        field = self.focused
        if isinstance(field, Field):
            field.insert_text_at_cursor(character)

    # -- sending

    async def action_entered(self) -> None:
        """Enter in a field: to the next that is empty, or take what was read.

        Keys may come faster than they are drawn, from a gauge that types by itself. So the field first takes
        in all that was typed before, and the next key finds the next field.
        """
        field = self.focused
        if isinstance(field, Field) and self.turn == self.session.turn:
            await field.settled()
            for readings in self.query(Readings):
                self._gather(readings)
                if not readings.advance(field):
                    self._take(insist=False, settle=False)

    @on(Picked)
    def _picked(self, event: Picked) -> None:
        event.stop()
        if event.turn != self.session.turn:
            return
        if self.close and event.line < len(self.measuring.blanks):
            self._repeat(self.measuring.blanks[event.line])
        elif self.doubted and not self.close and event.line == 0:
            for readings in self.query(Readings):
                readings.start()
        else:
            self._take(insist=self.doubted, settle=self.close)

    def _repeat(self, blank: Blank) -> None:
        """Let one reading be read once more, behind what was read of it before."""
        for readings in self.query(Readings):
            readings.field(blank.name).more()

    def _take(self, *, insist: bool, settle: bool) -> None:
        # what was believed although it is odd may be too close to call as well, which has yet to be said
        self.send(Read(dict(self.session.draft.typed), insist=insist, settle=settle))

    def refused(self, refusal: Refusal) -> None:
        """Say it beside the field; where it may be insisted on, offer that, with correcting marked."""
        if self.session.draft.refusal is not refusal:
            super().refused(refusal)
            return
        for readings in self.query(Readings):
            self._beside(readings)
        self.run_worker(self._offer(mark=True))

    async def _offer(self, *, mark: bool) -> None:
        for rows in self.query(Rows):
            await rows.show(self.lines())
            if mark and self.doubted:
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
            self.mark()

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Enter is the field's while the cursor is in one, and the marked line's elsewhere."""
        if action == "entered":
            return isinstance(self.focused, Field)
        return super().check_action(action, parameters)

    def on_descendant_focus(self) -> None:
        """Other keys mean something inside a field than outside."""
        self.key_line()

    on_descendant_blur = on_descendant_focus
