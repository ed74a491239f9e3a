"""Text on the screen, always as data: no markup is read from it, no control character obeyed."""

from textual.content import Content
from textual.widgets import Static

from engine.plain import clean

#: A run of text and how it looks; the look is one of this package's own names or a text style.
Part = tuple[str, str]


def words(*parts: str | Part) -> Content:
    r"""The parts one after the other, each made harmless.

    >>> words("read [bold]12[/]", ("\x1b[31m", "bold")).plain
    'read [bold]12[/]␛[31m'
    """
    made = ((part, "") if isinstance(part, str) else part for part in parts)
    return Content.assemble(*((clean(text), look) for text, look in made))


class Words(Static):
    """A text that wraps, and is never read as markup."""

    def __init__(self, *parts: str | Part, id: str | None = None, classes: str | None = None) -> None:  # noqa: A002  reason: the toolkit's own name
        super().__init__(words(*parts), markup=False, id=id, classes=classes)

    def say(self, *parts: str | Part) -> None:
        """Show other words in the same place; nothing hides the place."""
        self.update(words(*parts))
        self.display = any(part if isinstance(part, str) else part[0] for part in parts)
