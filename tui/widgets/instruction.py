"""What a step asks or tells to do, why, and the sheet's values that go with it."""

from textual.app import ComposeResult
from textual.containers import Vertical

from engine.interview.question import AskPrompt, DoPrompt, MeasurePrompt
from tui.widgets.banner import Banner
from tui.widgets.heading import minutes_words
from tui.widgets.labelled import Labelled

Step = DoPrompt | AskPrompt | MeasurePrompt


class Instruction(Vertical):
    """The words of the step. Reminders first: the vehicle may not be as the step takes it to be."""

    DEFAULT_CSS = "Instruction { height: auto; }"

    def __init__(self, step: Step) -> None:
        super().__init__()
        self.step = step

    def compose(self) -> ComposeResult:
        """Reminders, then what is to be done."""
        for reminder in self.step.where.reminders:
            yield Banner("Mind", reminder)
        yield Labelled(_kind(self.step), self.step.text, main=True, id="text")


class Reasons(Vertical):
    """What goes with the step: values of the sheet, why it is done, how long it takes."""

    DEFAULT_CSS = "Reasons { height: auto; }"

    def __init__(self, step: Step) -> None:
        super().__init__()
        self.step = step

    def compose(self) -> ComposeResult:
        """From the most needed to the least; what is not said takes no line."""
        if self.step.show:
            yield Labelled("Sheet", "\n".join(self.step.show), id="sheet")
        if self.step.why:
            yield Labelled("Why", self.step.why, id="why")
        if self.step.minutes:
            yield Labelled("Takes", minutes_words(self.step.minutes), id="minutes")


def _kind(step: Step) -> str:
    match step:
        case DoPrompt():
            return "Do"
        case AskPrompt():
            return "Question"
        case MeasurePrompt():
            return "Measure"
