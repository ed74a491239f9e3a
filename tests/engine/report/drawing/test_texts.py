"""DOT and Mermaid: whole, and no text is ever more than a text."""

import re

import pydot
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.model.tree import Tree, Verdict
from engine.plain import clean
from engine.report.drawing.chart import Chart
from engine.report.drawing.dot import dot, quoted
from engine.report.drawing.graph import Subject, chart
from engine.report.drawing.mermaid import literal, mermaid
from engine.report.drawing.words import told, words
from tests.engine.report.drawing.trees import HOSTILE, library, place, tree, trees

#: Every line that a flowchart of ours may have; a label holds no quotation mark, and of HTML only breaks.
_LABEL = r'"(?:[^"<>`\n]|<br/>)*"'
_LINES = (
    r"flowchart TD",
    r"  %% [^{}]*",
    r'  begin\(\("START"\)\) --> n\d+',
    rf"  n\d+[\[({{>/\\]+{_LABEL}[\])}}/\\]+",
    rf"  n\d+ (?:-->|-\.->|==>)(?:\|{_LABEL}\|)? n\d+",
    r"  classDef [a-z]+ [a-z0-9: ,-]+",
    r"  class n\d+ [a-z]+",
)


def charted(given_tree: Tree) -> Chart:
    """The chart of a tree."""
    return chart(Subject(library(), given_tree))


def spoken(label: str) -> str:
    """A quoted label as a reader of DOT shows it."""
    return label[1:-1].replace("\\\\", "\0").replace("\\n", "\n").replace('\\"', '"').replace("\0", "\\")


@pytest.mark.filterwarnings("ignore::pyparsing.warnings.PyparsingWarning")  # pydot's own grammar
@settings(max_examples=40)
@given(trees())
def test_dot_is_read_back_as_it_was_meant(given_tree: Tree) -> None:
    """A parser of DOT finds each card and each way once, with its words."""
    made = charted(given_tree)
    graphs = pydot.graph_from_dot_data(dot(made))
    assert graphs is not None
    nodes = {
        node.get_name(): node for node in graphs[0].get_nodes() if re.fullmatch(r"n\d+", node.get_name())
    }
    edges = [edge for edge in graphs[0].get_edges() if edge.get_source() != "begin"]

    assert [spoken(str(nodes[f"n{k}"].get("label"))) for k in range(1, len(made.cards) + 1)] == [
        "\n".join(words(card)) for card in made.cards
    ]
    names = [card.name for card in made.cards]
    got = [
        (
            names[int(str(e.get_source())[1:]) - 1],
            names[int(str(e.get_destination())[1:]) - 1],
            spoken(str(e.get("label"))),
        )
        for e in edges
    ]
    assert sorted(got) == sorted((way.source, way.then, "\n".join(told(way))) for way in made.ways)


@pytest.mark.filterwarnings("ignore::pyparsing.warnings.PyparsingWarning")  # pydot's own grammar
@pytest.mark.parametrize("hostile", HOSTILE)
def test_a_hostile_text_is_one_label_of_dot(hostile: str) -> None:
    """A parser of DOT reads back the very text, once what cannot be shown is made visible."""
    graphs = pydot.graph_from_dot_data(f"digraph g {{ n1 [label={quoted([hostile])}]; }}")
    assert graphs is not None

    assert spoken(str(graphs[0].get_nodes()[0].get("label"))) == clean(hostile, lines=False)


@settings(max_examples=60)
@given(trees())
def test_mermaid_has_only_lines_of_its_own(given_tree: Tree) -> None:
    """Each line is one that we write: no text opens a label, a link, a directive or a line."""
    made = charted(given_tree)
    lines = mermaid(made).split("\n")[:-1]

    assert [line for line in lines if not any(re.fullmatch(known, line) for known in _LINES)] == []
    assert sum(re.match(rf"  n\d+[^ ]*{_LABEL}", line) is not None for line in lines) == len(made.cards)
    assert sum(re.match(r"  n\d+ [-=]", line) is not None for line in lines) == len(made.ways)


@given(st.sampled_from(HOSTILE) | st.text(max_size=80))
def test_a_literal_is_read_back(text: str) -> None:
    """With its numbers read as signs, a label is the text that it was made of."""
    back = re.sub(r"#(\d+);", lambda found: chr(int(found.group(1))), literal(text))

    assert back == clean(text, lines=False)


@pytest.mark.parametrize("text", ["1. one", "12. two", "- three"])
def test_no_line_becomes_a_list(text: str) -> None:
    """What Markdown would take for a list is spelt by its number."""
    assert not re.match(r"\d+\.|-", literal(text))


def test_a_card_says_what_it_is() -> None:
    """Number, kind, grade, name, caution and text are all words."""
    step = Verdict(
        name="s0", place=place(9), text="Worn", suspects=(), grade="repair", correction="c", cautions=("hot",)
    )
    made = charted(tree({"s0": step}))

    assert words(made.cards[0]) == (
        "1 VERDICT: REPAIR: s0",
        "! Caution: Hot <parts>",
        "Worn",
        "Convicts: nobody",
    )
