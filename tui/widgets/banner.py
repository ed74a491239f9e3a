"""A line that stands out: news, a refusal, a reminder. It begins with a word that says which."""

from tui.widgets.words import Part, Words


class Banner(Words):
    """One kind of announcement; nothing is shown while it has nothing to say."""

    DEFAULT_CSS = """
    Banner { width: 1fr; height: auto; padding: 0 1; margin: 0 0 1 0;
             background: $warning-muted; color: $foreground; border-left: thick $warning; }
    Banner:nocolor { border-left: thick $foreground; text-style: bold; }
    """

    def __init__(self, word: str = "", text: str = "") -> None:
        super().__init__(*_parts(word, text))
        self.display = bool(text)

    def tell(self, word: str, text: str) -> None:
        """Say something else, or nothing."""
        self.say(*_parts(word, text))


def _parts(word: str, text: str) -> tuple[str | Part, ...]:
    return ((f"{word}: ", "bold"), text) if text else ("",)
