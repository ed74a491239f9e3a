"""Labelled texts and rows: hanging indents, wide characters, no cell beyond the screen."""

import pytest
from rich.cells import cell_len
from textual.app import App, ComposeResult
from textual.widget import Widget

from tests.tui.seat import driven
from tui.widgets.labelled import COLUMN, Labelled, Text
from tui.widgets.row import Line, Row

LONG = "Turn each rear wheel by hand, one after the other, and listen at the disc."
WIDE = "後輪を手で一つずつ回して、ディスクの音を聞いてください。"
UNBROKEN = "x" * 300


class Stand(App[None]):
    """One widget, and nothing else."""

    def __init__(self, shown: Widget) -> None:
        super().__init__()
        self.shown = shown

    def compose(self) -> ComposeResult:
        """The widget."""
        yield self.shown


async def seen(widget: Widget, width: int) -> list[str]:
    """The widget's lines at this width, without the blanks at their ends."""
    app = Stand(widget)
    async with app.run_test(size=(width, 60)) as pilot:
        await pilot.pause()
        strips = app.screen._compositor.render_strips()
        lines = ["".join(segment.text for segment in strip).rstrip() for strip in strips]
        return lines[: widget.size.height]


@pytest.mark.parametrize("width", [20, 40, 80, 160])
@pytest.mark.parametrize("text", [LONG, WIDE, UNBROKEN, "[bold]a[/]\nb"])
@driven
async def test_no_line_is_wider_than_the_screen(text: str, width: int) -> None:
    """Whatever the text is made of, and none of it is lost."""
    lines = await seen(Labelled([Text("Why", text)]), width)
    joined = "".join(lines).replace(" ", "").removeprefix("Why")

    assert max(cell_len(line) for line in lines) <= width
    assert joined == text.replace(" ", "").replace("\n", "")


@driven
async def test_a_text_stands_beside_its_label() -> None:
    """And its second line below its first."""
    lines = await seen(Labelled([Text("Why", LONG)]), 60)

    assert lines[0].startswith(" " + "Why".ljust(COLUMN) + "Turn")
    assert lines[1].startswith(" " * (COLUMN + 1) + lines[1].strip()[:4])


@driven
async def test_a_label_stands_above_its_text_where_the_screen_is_narrow() -> None:
    """So that the text has the whole width."""
    lines = await seen(Labelled([Text("Why", LONG)]), 40)

    assert (lines[0], lines[1][:5]) == (" Why", " Turn")


@driven
async def test_a_text_that_says_nothing_takes_no_line() -> None:
    """Neither does its label."""
    assert await seen(Labelled([Text("Sheet", ""), Text("Why", "So.", close=True)]), 60) == [
        " " + "Why".ljust(COLUMN) + "So."
    ]


@pytest.mark.parametrize("width", [20, 40, 80])
@pytest.mark.parametrize("text", [LONG, WIDE, UNBROKEN, "[bold]a[/]"])
@driven
async def test_an_answer_has_a_hanging_indent(text: str, width: int) -> None:
    """Its second line begins below its text, not below its digit."""
    lines = await seen(Row(Line("1", text, "and a smaller text below it")), width)

    assert max(cell_len(line) for line in lines) <= width
    assert all(line.startswith(" " * 6) for line in lines[1:])
