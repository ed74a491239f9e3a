"""A verdict: the cause, whom it convicts, how it is put right, and what the sheet says to that."""

from collections.abc import Mapping
from typing import Final

from textual.app import ComposeResult
from textual.containers import Vertical

from engine.interview.question import VerdictPrompt
from tui.widgets.banner import Banner
from tui.widgets.labelled import Labelled
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
        """From the verdict to the sheet's values."""
        prompt = self.prompt
        for reminder in prompt.where.reminders:
            yield Banner("Mind", reminder)
        standing = "VERDICT, accepted" if prompt.accepted else "VERDICT"
        yield Words((standing + "\n", ""), (prompt.verdict, "bold"), id="verdict")
        yield Labelled("Complaint", prompt.where.title, id="complaint")
        yield Labelled("Cause", _convicts(prompt), main=True, id="convicts")
        yield Labelled("Grade", GRADES.get(prompt.grade, prompt.grade), id="grade")
        if prompt.correction:
            yield Labelled("Correction", prompt.correction, main=True, id="correction")
        if prompt.show:
            yield Labelled("Sheet", "\n".join(prompt.show), id="sheet")
        if prompt.why:
            yield Labelled("Why", prompt.why, id="why")


def _convicts(prompt: VerdictPrompt) -> str:
    return ", ".join(prompt.convicts) or "no suspect is convicted"
