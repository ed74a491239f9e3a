"""One tree that has everything, drawn as it was reviewed: with a vehicle, findings and a trail."""

import os
from collections.abc import Callable
from pathlib import Path

import pytest

from engine.lint.finding import Finding
from engine.model.tree import Answer, Ask, Do, Run, Sort, Verdict
from engine.report.drawing.chart import Chart
from engine.report.drawing.dot import dot
from engine.report.drawing.graph import Subject, chart
from engine.report.drawing.layout import picture
from engine.report.drawing.mermaid import mermaid
from engine.report.drawing.svg import svg
from engine.report.drawing.trail import Visit
from tests.engine.report.drawing.test_chart import SHEET
from tests.engine.report.drawing.trees import library, measure, place, tree

HERE = Path(__file__).parent
WRITERS: dict[str, Callable[[Chart], str]] = {
    "whole.svg": lambda chart: svg(picture(chart)),
    "whole.mmd": mermaid,
    "whole.dot": dot,
}


def whole() -> Chart:
    """Every kind of step and every grade, a finding of each severity, a caution, and a case half way."""
    answers = tuple(
        Answer(say, then, {}, place(1)) for say, then in (("<All> & four", "box"), ("前輪だけ", "play"))
    )
    steps = (
        Do(
            name="s0", place=place(10), text="Chock a wheel.", then="look", cautions=("hot",), why="It rolls."
        ),
        Ask(name="look", place=place(20), text="What turns?", answers=answers, unsure="refer"),
        Sort(name="box", place=place(30), fact="box", cases={"manual": "run", "automatic": "adjust"}),
        measure({"name": "play", "place": place(40)}, "no-fault", "repair", unsure="refer", say="good"),
        Run(name="run", place=place(50), procedure="warm-up", outcomes={"warm": "play", "cold": "gone"}),
        *(
            Verdict(
                name=grade, place=place(60), text=f"So: {grade}", suspects=(), grade=grade, correction="C."
            )
            for grade in ("repair", "adjust", "no-fault", "refer")
        ),
    )
    findings = (
        Finding("tree.yaml", 2, 1, "no-source", "warning", "Nothing says where it comes from.", ""),
        Finding("tree.yaml", 45, 1, "band-gap", "error", "Between the bands is a gap.", ""),
    )
    trail = (Visit("s0", 0), Visit("look", 0), Visit("box", 0), Visit("run"))
    drawn = tree({step.name: step for step in steps})
    return chart(Subject(library(), drawn, SHEET, findings, trail, "2026-03-05-hxk4d"))


@pytest.mark.parametrize("name", sorted(WRITERS))
def test_the_picture_is_the_kept_one(name: str) -> None:
    """Letter by letter; WITNESSMARK_REFRESH=1 writes it anew for review."""
    text = WRITERS[name](whole())
    if os.environ.get("WITNESSMARK_REFRESH"):
        (HERE / name).write_text(text, encoding="utf-8", newline="\n")

    assert text == (HERE / name).read_text(encoding="utf-8")
