"""A caution: it takes the place of the step until it has been read."""

from textual.app import ComposeResult
from textual.containers import Vertical

from engine.interview.question import CautionPrompt
from tui.widgets.labelled import Labelled, Text
from tui.widgets.words import Words


class Caution(Vertical):
    """The word first, so that it is read first; then the caution, and which step stands behind it."""

    DEFAULT_CSS = """
    Caution { height: auto; border: heavy $warning; background: $surface; padding: 0 1; }
    Caution #caution { background: $warning; color: $background; text-style: bold; padding: 0 1; }
    Caution #told { margin: 1 0; }
    Caution Labelled { padding: 0; color: $text-muted; }
    Caution:nocolor { border: heavy $foreground; }
    Caution:nocolor #caution { text-style: bold reverse; }
    """

    def __init__(self, prompt: CautionPrompt) -> None:
        super().__init__()
        self.prompt = prompt

    def compose(self) -> ComposeResult:
        """The word, the caution, what comes after it."""
        prompt = self.prompt
        yield Words("CAUTION", id="caution")
        yield Words((prompt.caution.title, "bold"), "\n\n", prompt.caution.text, id="told")
        yield Labelled(
            (
                *(Text("Mind", reminder) for reminder in prompt.where.reminders),
                Text("Comes next", more_words(prompt.left), close=True),
                Text("Then" if prompt.left else "Comes next", prompt.coming, close=True),
            )
        )


def more_words(left: int) -> str:
    """How many cautions of the same step are still to come.

    >>> more_words(0), more_words(1), more_words(2)
    ('', 'One more caution.', '2 more cautions.')
    """
    match left:
        case 0:
            return ""
        case 1:
            return "One more caution."
        case _:
            return f"{left} more cautions."
