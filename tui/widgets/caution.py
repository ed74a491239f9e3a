"""A caution: it takes the place of the step until it has been read."""

from textual.app import ComposeResult
from textual.containers import Vertical

from engine.interview.question import CautionPrompt
from tui.widgets.banner import Banner
from tui.widgets.labelled import Labelled
from tui.widgets.words import Words


class Caution(Vertical):
    """The caution's words, and which step stands behind it."""

    DEFAULT_CSS = """
    Caution { height: auto; border: heavy $warning; background: $surface; padding: 0 1; }
    Caution Words { margin: 0 0 1 0; }
    Caution #caution { background: $warning; color: $background; text-style: bold; padding: 0 1; }
    Caution #title { text-style: bold; }
    Caution #coming { color: $text-muted; padding: 0; margin: 0; }
    Caution #more { color: $text-muted; }
    Caution:nocolor { border: heavy $foreground; }
    Caution:nocolor #caution { text-style: bold reverse; }
    """

    def __init__(self, prompt: CautionPrompt) -> None:
        super().__init__()
        self.prompt = prompt

    def compose(self) -> ComposeResult:
        """The word first, so that it is read first."""
        prompt = self.prompt
        yield Words("CAUTION", id="caution")
        yield Words(prompt.caution.title, id="title")
        yield Words(prompt.caution.text, id="text")
        for reminder in prompt.where.reminders:
            yield Banner("Mind", reminder)
        if prompt.left:
            yield Words(more_words(prompt.left), id="more")
        yield Labelled("Comes next", prompt.coming, id="coming")


def more_words(left: int) -> str:
    """How many cautions of the same step are still to come.

    >>> more_words(1), more_words(2)
    ('One more caution comes after this one.', '2 more cautions come after this one.')
    """
    if left == 1:
        return "One more caution comes after this one."
    return f"{left} more cautions come after this one."
