"""One input of a calculator: what it is, a field or a choice, and what may stand there."""

from textual import on
from textual.app import ComposeResult
from textual.containers import Horizontal
from textual.events import Click
from textual.widgets import Input as Typing

from engine.trade.inputs import ANY, TEXT, WORD, Input
from engine.trade.taking import bounds
from tui.messages import Typed
from tui.widgets.choice import Choice
from tui.widgets.field import Field
from tui.widgets.words import Words

LONGEST = 200


class Entry(Horizontal):
    """A field with its facts beside it; a click anywhere on it goes into the field."""

    DEFAULT_CSS = """
    Entry { height: auto; padding: 0 1; }
    Entry .name { width: 5fr; padding: 0 1 0 0; }
    Entry .facts { width: 4fr; padding: 0 0 0 1; color: $text-muted; }
    Entry Field, Entry Field:focus, Entry Choice { max-width: 24; width: 24; }
    """

    def __init__(self, wanted: Input, typed: str) -> None:
        super().__init__()
        self.wanted = wanted
        self.typed = typed

    def compose(self) -> ComposeResult:
        """Title, field, facts."""
        yield Words(self.wanted.title, classes="name")
        if self.wanted.choices:
            yield Choice(self.wanted.name, self.wanted.choices, self.typed)
        else:
            field = Field(self.wanted.name, self.typed, longest=LONGEST)
            field.placeholder = self.wanted.default
            yield field
        yield Words(facts_words(self.wanted), classes="facts")

    def fill(self, text: str) -> None:
        """Put other text into the field."""
        for field in self.query(Field):
            field.value = text
        for choice in self.query(Choice):
            choice.value = text
            choice.refresh()

    def into(self) -> None:
        """Put the cursor into the field."""
        for part in (*self.query(Field), *self.query(Choice)):
            self.screen.set_focus(part)

    def on_click(self, event: Click) -> None:
        """The whole line is the target."""
        event.stop()
        self.into()

    @on(Typing.Changed)
    def _changed(self, event: Typing.Changed) -> None:
        event.stop()
        self.post_message(Typed(self.wanted.name, event.value))


def facts_words(wanted: Input) -> str:
    """Unit, bounds, how many, and whether it may stay empty.

    >>> facts_words(Input("tread", "t", "Tread depth", "mm", least=0, most=20, many=4))
    '0 mm to 20 mm; 4 or more: a, b, c'
    """
    unit = {ANY: "any unit", TEXT: "", WORD: "", "": "a number"}.get(wanted.unit, wanted.unit)
    within = bounds(wanted)
    what = f"{unit}, {within}" if within and unit and unit not in within else within or unit
    many = f"{wanted.many} or more: a, b, c" if wanted.many else ""
    return "; ".join(filter(None, (what, many, "may stay empty" if wanted.optional else "")))
