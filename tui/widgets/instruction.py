"""What a step asks or tells to do, why, and the sheet's values that go with it: as labelled texts."""

from collections.abc import Iterator

from engine.interview.question import AskPrompt, DoPrompt, MeasurePrompt
from tui.widgets.heading import minutes_words
from tui.widgets.labelled import Text

Step = DoPrompt | AskPrompt | MeasurePrompt


def instruction(step: Step) -> Iterator[Text]:
    """The words of the step. Reminders first: the vehicle may not be as the step takes it to be."""
    yield from (Text("Mind", reminder, main=True) for reminder in step.where.reminders)
    yield Text(_kind(step), step.text, main=True)


def reasons(step: Step) -> Iterator[Text]:
    """What goes with the step, from the most needed to the least."""
    yield Text("Sheet", "\n".join(step.show))
    yield Text("Picture", step.picture)
    yield Text("Why", step.why)
    yield Text("Takes", minutes_words(step.minutes))


def _kind(step: Step) -> str:
    match step:
        case DoPrompt():
            return "Do"
        case AskPrompt():
            return "Question"
        case MeasurePrompt():
            return "Measure"
