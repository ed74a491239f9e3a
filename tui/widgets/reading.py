"""One reading to take: its field, its unit, what it converts to, and beneath it what was wrong with it."""

from typing import Final

from textual import on
from textual.app import ComposeResult
from textual.containers import Horizontal, Vertical
from textual.widgets import Input

from engine.interview.question import Blank
from tui.messages import Typed
from tui.widgets.banner import Banner
from tui.widgets.field import Field
from tui.widgets.words import Words

LONGEST: Final = 40


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

    def refused(self, text: str) -> None:
        """Show why the reading was not taken; an empty text takes that away."""
        self.query_one(Banner).tell("Not taken", text)

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


def facts_words(blank: Blank) -> str:
    """The gauge, and the range that would be believed."""
    return f"{blank.gauge}, to {blank.resolution}. Believed: {blank.plausible}."
