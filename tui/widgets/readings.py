"""The readings of a measuring step, with the figure they make and the bands they are held against."""

from collections.abc import Mapping, Sequence

from textual.app import ComposeResult
from textual.containers import Vertical

from engine.interview.question import MeasurePrompt
from tui.widgets.banner import Banner
from tui.widgets.field import Field
from tui.widgets.labelled import Labelled, Text
from tui.widgets.reading import Reading, gauges_words


class Readings(Vertical):
    """One field a reading, and below them what they are held against."""

    DEFAULT_CSS = """
    Readings { height: auto; }
    Readings.-many > Labelled { margin: 1 0 0 0; }
    """

    def __init__(self, prompt: MeasurePrompt, typed: Mapping[str, str]) -> None:
        super().__init__(classes="-many" if len(prompt.blanks) > 1 else "")
        self.prompt = prompt
        self.typed = typed

    def compose(self) -> ComposeResult:
        """The fields, then what they are compared with."""
        blanks = self.prompt.blanks
        for blank in blanks:
            yield Reading(blank, self.typed.get(blank.name, ""), alone=len(blanks) == 1)
        yield Labelled(self._facts("", ()))

    def _facts(self, figure: str, working: Sequence[str]) -> tuple[Text, ...]:
        return (
            Text("So far", figure, close=True),
            Text("Gauge", gauges_words(self.prompt.blanks), close=True),
            Text("Bands", "\n".join(self._scales())),
            Text("Sum", "\n".join(working)),
        )

    def _scales(self) -> list[str]:
        title = f"{self.prompt.figure} " if self.prompt.figure else ""
        return [
            f"{title}{scale.limits}" + (f": {scale.say}" if scale.say else "") for scale in self.prompt.scales
        ]

    def field(self, name: str) -> Reading:
        """The reading of this name."""
        return next(reading for reading in self.query(Reading) if reading.blank.name == name)

    def start(self) -> None:
        """Put the cursor into the first field that is empty, or else into the first."""
        fields = [*self.query(Field)]
        self.screen.set_focus(next((field for field in fields if not field.value), fields[0]))

    def figured(self, text: str, working: Sequence[str]) -> None:
        """Show the figure that is made of what is typed so far, its band, and how it comes about."""
        self.query_one(Labelled).say(self._facts(text, working))

    def refused(self, text: str, word: str = "Not taken") -> None:
        """Show a refusal beside the reading that it names, or else beside the first."""
        names = [reading.blank.name for reading in self.query(Reading) if reading.blank.name in text]
        at = max(names, key=len, default=self.prompt.blanks[0].name)
        for reading in self.query(Reading):
            reading.refused(text if reading.blank.name == at else "", word)

    def reveal(self) -> None:
        """Bring into sight what was refused, or else the field that is typed into."""
        refused = [banner for banner in self.query(Banner) if banner.display]
        focused = [field for field in self.query(Field) if field.has_focus]
        for widget in (refused or focused)[:1]:
            widget.scroll_visible(animate=False)

    def values(self) -> dict[str, str]:
        """What stands in the fields, by the reading's name."""
        return {field.name or "": field.value for field in self.query(Field)}

    def advance(self, field: Field) -> bool:
        """From a field that is filled in go to the first empty one; false where there is none."""
        empty = [other for other in self.query(Field) if not other.value.strip()]
        if not empty or not field.value.strip():
            return False
        self.screen.set_focus(empty[0])
        return True
