"""The picture: nothing overlaps, nothing is lost, and no text is more than text."""

from itertools import combinations
from xml.etree import ElementTree as ET

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.model.tree import Tree, Verdict
from engine.report.drawing.graph import Subject, chart
from engine.report.drawing.layout import picture
from engine.report.drawing.picture import Box, Picture, Tag
from engine.report.drawing.svg import svg
from engine.report.drawing.wrap import width, wrap
from tests.engine.report.drawing.trees import HOSTILE, library, place, tree, trees

SVG = "{http://www.w3.org/2000/svg}"
ELEMENTS = {"svg", "title", "desc", "style", "rect", "g", "path", "circle", "text"}


def drawn(given_tree: Tree) -> Picture:
    """The picture of a tree."""
    return picture(chart(Subject(library(), given_tree)))


def apart(one: Box | Tag, other: Box | Tag) -> bool:
    """Whether two boxes have no point in common."""
    return (
        one.x + one.width <= other.x
        or other.x + other.width <= one.x
        or one.y + one.height <= other.y
        or other.y + other.height <= one.y
    )


@settings(max_examples=60)
@given(trees())
def test_boxes_never_overlap(given_tree: Tree) -> None:
    """No card and no tag covers another, and all of them lie in the picture below its head."""
    made = drawn(given_tree)
    every: list[Box | Tag] = [*made.boxes, *made.tags]
    foot = max(key.y for key in made.legend)

    assert [pair for pair in combinations(every, 2) if not apart(*pair)] == []
    assert all(box.x >= 0 and box.y > foot and box.x + box.width <= made.width for box in every)
    assert all(box.y + box.height <= made.height for box in every)


@settings(max_examples=60)
@given(trees())
def test_words_stay_in_their_boxes(given_tree: Tree) -> None:
    """Every line stands in its card or on its tag, below the one before it."""
    made = drawn(given_tree)
    for box in made.boxes:
        feet = [line.y for line in box.lines]

        assert feet == sorted(feet)
        assert 0 < feet[0] < feet[-1] < box.height
    assert all(19 + 15.5 * (len(tag.lines) - 1) < tag.height for tag in made.tags)


@settings(max_examples=60)
@given(trees())
def test_every_way_is_drawn_once(given_tree: Tree) -> None:
    """Each way is one arrow or one line at the foot of its card, and never both."""
    made = drawn(given_tree)
    arrows = [wire.way for wire in made.wires if wire.arrives]
    told = [way for box in made.boxes for way in box.told]

    assert sorted([*arrows, *told]) == sorted(made.chart.ways)


@settings(max_examples=60)
@given(trees())
def test_wires_end_at_their_cards(given_tree: Tree) -> None:
    """The end of every arrow lies on the edge of the card that its way leads to."""
    made = drawn(given_tree)
    boxes = {box.card.name: box for box in made.boxes}
    for wire in made.wires:
        if wire.arrives:
            box, (x, y) = boxes[wire.way.then], wire.points[-1]

            assert box.x - 1 <= x <= box.x + box.width + 1
            assert box.y - 1 <= y <= box.y + box.height + 1


@settings(max_examples=60)
@given(trees())
def test_it_is_xml_of_known_elements_and_the_same_every_time(given_tree: Tree) -> None:
    """Whatever the texts hold, the file parses, and they add no element."""
    text = svg(drawn(given_tree))

    assert {node.tag.removeprefix(SVG) for node in ET.fromstring(text.encode()).iter()} <= ELEMENTS
    assert svg(drawn(given_tree)) == text


@pytest.mark.parametrize("hostile", HOSTILE)
def test_a_hostile_text_shows_as_it_is(hostile: str) -> None:
    """The lines of a card hold the text, word for word, once what cannot be shown is made visible."""
    step = Verdict(name="s0", place=place(9), text=hostile, suspects=(), grade="refer", correction="c")
    root = ET.fromstring(svg(drawn(tree({"s0": step}))).encode())
    shown = "".join(node.text or "" for node in root.iter(f"{SVG}text") if node.get("class") == "text")
    wanted = "".join("".join(wrap(hostile, 10_000_000, 1)).split())

    assert "".join(shown.split()) == wanted.translate({0xFFFE: "\ufffd", 0xFFFF: "\ufffd"})


@settings(max_examples=200)
@given(st.text(max_size=200), st.floats(30, 300))
def test_lines_fit_and_lose_nothing(text: str, room: float) -> None:
    """Every line fits the room, and joined the lines are the text."""
    lines = wrap(text, room, 12)

    assert all(width(line, 12) <= room + 1e-6 for line in lines)
    assert "".join("".join(lines).split()) == "".join("".join(wrap(text, 10_000_000, 12)).split())
