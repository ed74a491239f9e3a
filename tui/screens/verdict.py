"""The verdict: cause, grade, correction; accepting it, the procedures that follow, and the report."""

from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import ClassVar

from textual import on
from textual.binding import BindingType
from textual.widget import Widget

from engine.errors import Failure
from engine.interview.command import Accept, Follow, Settle
from engine.interview.question import VerdictPrompt
from tui.keys import bindings
from tui.messages import Picked
from tui.screens.aftermath import AftermathScreen
from tui.screens.case import CaseScreen
from tui.screens.failure import FailureScreen
from tui.widgets.conclusion import Conclusion
from tui.widgets.row import Line


class VerdictScreen(CaseScreen):
    """Draws a verdict, accepted or not."""

    BINDINGS: ClassVar[list[BindingType]] = [*bindings("accept", "fixed", "report")]

    @property
    def reached(self) -> VerdictPrompt:
        """What is asked here is always a verdict."""
        assert isinstance(self.asked, VerdictPrompt)
        return self.asked

    def text(self) -> Iterator[Widget]:
        """The trade's three."""
        yield Conclusion(self.reached)

    def lines(self) -> Sequence[Line]:
        """Accepting comes first; then the procedures that the verdict names, and pausing."""
        if not self.reached.accepted:
            return [Line("a", "Accept this verdict")]
        follow = [
            Line(str(n), f"Start: {title}", f"Done before: {ended}" if ended else "")
            for n, (_, title, ended) in enumerate(self.reached.follow, 1)
        ]
        told = "Is the complaint gone? Say it again" if self.reached.told else "Is the complaint gone?"
        after = [Line("f", told), Line("r", "Write the report"), Line("p", "Put the job aside")]
        return [*follow, *after]

    def moment(self) -> tuple[str, ...]:
        """Following is possible once accepted."""
        first = "accept" if not self.reached.accepted else "answer" if self.reached.follow else "pick"
        fixed = ("fixed",) if self.reached.accepted else ()
        return (
            *dict.fromkeys(
                (first, "help", *fixed, "report", "back", "trail", "note", "calculators", "pause")
            ),
        )

    @on(Picked)
    def _picked(self, event: Picked) -> None:
        event.stop()
        if event.turn != self.session.turn:
            return
        follow = self.reached.follow
        if not self.reached.accepted:
            self.action_accept()
        elif event.line < len(follow):
            self.send(Follow(follow[event.line][0]))
        elif event.line == len(follow):
            self.action_fixed()
        elif event.line == len(follow) + 1:
            self.action_report()
        else:
            self.action_pause()

    def action_accept(self) -> None:
        """Accept the verdict."""
        if not self.reached.accepted:
            self.send(Accept())

    def action_fixed(self) -> None:
        """Say what became of the repair."""
        if self.reached.accepted:
            self.app.push_screen(AftermathScreen(self.reached), self._settle)

    def _settle(self, command: Settle | None) -> None:
        if command is not None:
            self.send(command)

    def action_report(self) -> None:
        """Write the report beside where the program was started, and say where that is."""
        try:
            path = self.session.write_report(Path.cwd())
        except Failure as failure:
            self.app.push_screen(FailureScreen(failure, again=True), self._report_again)
        else:
            self.tell("Done", f"the report was written to {path}")

    def _report_again(self, again: bool | None) -> None:  # noqa: FBT001  reason: what the failure screen gives back
        if again:
            self.action_report()
