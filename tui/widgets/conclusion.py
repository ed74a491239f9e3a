"""A verdict: the cause, whom it convicts, how it is put right, and what the sheet says to that."""

from collections.abc import Iterator, Mapping
from typing import Final

from textual.app import ComposeResult
from textual.containers import Vertical

from engine.interview.question import VerdictPrompt
from tui.widgets.labelled import Labelled, Text
from tui.widgets.words import Words

GRADES: Final[Mapping[str, str]] = {
    "repair": "Repair: a part has failed and must be put right.",
    "adjust": "Adjust: nothing is broken, something is set or filled wrongly.",
    "no-fault": "No fault: the vehicle does what it was built to do.",
    "refer": "Refer: this cannot be decided here; pass it on with this record.",
}


class Conclusion(Vertical):
    """The trade's three: complaint, cause, correction."""

    DEFAULT_CSS = """
    Conclusion { height: auto; }
    Conclusion #verdict { border: heavy $success; background: $surface; padding: 0 1; margin: 0 0 1 0; }
    Conclusion:nocolor #verdict { border: heavy $foreground; }
    """

    def __init__(self, prompt: VerdictPrompt) -> None:
        super().__init__()
        self.prompt = prompt

    def compose(self) -> ComposeResult:
        """The verdict, then what it rests on."""
        standing = "VERDICT, accepted" if self.prompt.accepted else "VERDICT"
        yield Words(standing + "\n", (self.prompt.verdict, "bold"), id="verdict")
        yield Labelled(_texts(self.prompt))


def _texts(prompt: VerdictPrompt) -> Iterator[Text]:
    yield from (Text("Mind", reminder, main=True) for reminder in prompt.where.reminders)
    yield Text("Complaint", prompt.where.title, close=True)
    yield Text("Cause", _convicts(prompt), main=True, close=True)
    yield Text("How sure", prompt.sure.told if prompt.sure else "", main=weak(prompt), close=True)
    yield Text("Repair", prompt.told, main=True)
    yield Text("Grade", GRADES.get(prompt.grade, prompt.grade))
    yield Text("Correction", prompt.correction, main=True)
    yield Text("Sheet", "\n".join(prompt.show))
    yield Text("Picture", prompt.picture)
    yield Text("Why", prompt.why)


def weak(prompt: VerdictPrompt) -> bool:
    """Whether the verdict is too weak to condemn: that must not be read over."""
    return prompt.sure is not None and prompt.sure.weak


def _convicts(prompt: VerdictPrompt) -> str:
    return ", ".join(prompt.convicts) or "no suspect is convicted"
