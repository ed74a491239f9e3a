"""Texts with their labels beside them, or above them where the screen is narrow."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import ClassVar, Final

from textual.content import Content
from textual.geometry import Size
from textual.widget import Widget

from tui.widgets.room import SLIM
from tui.widgets.words import words

#: Columns that the labels take.
COLUMN: Final = 13


@dataclass(frozen=True, slots=True)
class Text:
    """One text with its label; `main` stands out, `close` has no blank line below it."""

    label: str
    text: str
    main: bool = False
    close: bool = False


class Labelled(Widget):
    """The labels keep their own column, so that the eye finds each kind of text at the same place."""

    DEFAULT_CSS = """
    Labelled {
        width: 1fr; height: auto; padding: 0 1;
        & .labelled--label { color: $text-muted; }
        & .labelled--main { text-style: bold; }
    }
    """
    COMPONENT_CLASSES: ClassVar[set[str]] = {"labelled--label", "labelled--main"}

    def __init__(self, texts: Iterable[Text], *, id: str | None = None) -> None:  # noqa: A002  reason: the toolkit's own name
        super().__init__(id=id)
        self.texts = _said(texts)

    def say(self, texts: Iterable[Text]) -> None:
        """Show other texts."""
        if (said := _said(texts)) != self.texts:
            self.texts = said
            self.refresh(layout=True)

    def render(self) -> Content:
        """The texts as they fit the width."""
        return Content("\n").join(self._lines(self.size.width))

    def get_content_height(self, container: Size, viewport: Size, width: int) -> int:  # noqa: ARG002  reason: the toolkit's signature
        """As many lines as the texts take at this width."""
        return len(self._lines(width))

    def _lines(self, width: int) -> list[Content]:
        return [line for text in self.texts for line in self._one(text, width)]

    def _one(self, text: Text, width: int) -> list[Content]:
        beside = self.app.size.width >= SLIM
        label = words(text.label).stylize(self.get_visual_style("labelled--label", partial=True))
        room = max(4, width - COLUMN if beside else width)
        lines = words(text.text).wrap(room)
        if text.main:
            look = self.get_visual_style("labelled--main", partial=True)
            lines = [line.stylize(look) for line in lines]
        if beside:
            head = label.pad_right(COLUMN - label.cell_length)
            lines = [(Content(" " * COLUMN) if number else head) + line for number, line in enumerate(lines)]
        else:
            lines = [label, *lines]
        return lines if text.close else [*lines, Content("")]


def _said(texts: Iterable[Text]) -> Sequence[Text]:
    return tuple(text for text in texts if text.text)
