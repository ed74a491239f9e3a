"""One reading to take: its field, its unit, what it converts to, and beneath it what was wrong with it."""

from collections.abc import Sequence
from typing import Final

from textual import on
from textual.app import ComposeResult
from textual.containers import Horizontal, Vertical
from textual.widgets import Input

from engine.interview.question import Blank, gauges
from tui.messages import Typed
from tui.widgets.banner import Banner
from tui.widgets.field import Field
from tui.widgets.words import Words

#: Room for as many repeats of one reading as are ever asked for.
LONGEST: Final = 200


class Reading(Vertical):
    """A field with its facts beside it."""

    DEFAULT_CSS = """
    Reading { height: auto; }
    Reading Horizontal { height: auto; padding: 0 1; margin: 0 0 1 0; }
    Reading .name { width: 13; color: $text-muted; }
    Reading Field { max-width: 18; }
    Reading .unit { width: auto; padding: 0 2 0 1; text-style: bold; }
    Reading .preview { width: 1fr; }
    Reading.-bad .preview { text-style: bold; }
    Reading.-many Horizontal { margin: 0; }
    """

    def __init__(self, blank: Blank, typed: str, *, alone: bool) -> None:
        super().__init__(classes="" if alone else "-many")
        self.blank = blank
        self.typed = typed
        self.alone = alone

    def compose(self) -> ComposeResult:
        """Name (where there are several), field, unit, conversion."""
        with Horizontal():
            yield Words("Reading" if self.alone else plain_name(self.blank.name), classes="name")
            yield Field(self.blank.name, self.typed, longest=LONGEST)
            yield Words(self.blank.unit, classes="unit")
            yield Words("", classes="preview")
        yield Banner()

    def converted(self, text: str, *, ok: bool) -> None:
        """Show what the typed text is understood as."""
        self.query_one(".preview", Words).say(text)
        self.set_class(not ok and bool(text), "-bad")

    def refused(self, text: str, word: str) -> None:
        """Show why the reading was not taken or decides nothing; an empty text takes that away."""
        self.query_one(Banner).tell(word, text)

    def more(self) -> None:
        """Put the cursor behind what was read, ready for a further reading of the same."""
        for field in self.query(Field):
            field.value = f"{field.value.rstrip('; ')}; "
            field.cursor_position = len(field.value)
            self.screen.set_focus(field)

    @on(Input.Changed)
    def _changed(self, event: Input.Changed) -> None:
        event.stop()
        self.post_message(Typed(self.blank.name, event.value))


def plain_name(name: str) -> str:
    """A reading's name as words.

    >>> plain_name("left-front")
    'Left front'
    """
    return name.replace("-", " ").capitalize()


def gauges_words(blanks: Sequence[Blank]) -> str:
    """Each gauge with the range that would be believed; with what it reads, where there are several."""
    return "\n".join(
        (f"{names}: ".replace("-", " ").capitalize() if names else "")
        + f"{blank.gauge}, to {blank.resolution}. Believed: {blank.plausible}."
        for names, blank in gauges(blanks)
    )
