"""Any text at all, rendered from the page, reads letter by letter and is nothing but text."""

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st
from markdown_it import MarkdownIt

from engine.plain import clean
from engine.report.literal import code, plain

#: Texts made of what means something to Markdown, more often than chance would.
marked = st.lists(
    st.sampled_from(
        [*"\\`*_{}[]<>#|~&$!-+=.():;/\"'@ \t\n1aé", "&lt;", "&#60;", "<b>", "](", "http://a.b", "1. ", "- "]
    ),
    max_size=12,
).map("".join)
FRAMES = {
    "paragraph": "{}",
    "item": "- {}",
    "numbered": "1. {}",
    "nested": "1. a\n   - {}",
    "strong": "- a **{}** b",
    "cell": "| a | b |\n|---|---|\n| x | {} |",
    "heading": "# {}",
    "before": "- {} (at `b`)",
}


def texts(page: str) -> tuple[list[str], set[str]]:
    """The texts of a page, inline by inline, and the kinds of token that they are made of."""
    contents, kinds = [], set()
    for token in MarkdownIt("commonmark", {"html": True}).enable(["table", "strikethrough"]).parse(page):
        kinds.add(token.type)
        if token.type == "inline":
            kinds.update(child.type for child in token.children or ())
            contents.append("".join(child.content for child in token.children or ()))
    return contents, kinds


@pytest.mark.parametrize("frame", FRAMES)
@settings(max_examples=80)
@given(marked | st.text(max_size=20))
@example("1. a list")
@example("12) a list")
@example("---")
@example("===")
@example("# no heading #")
@example("a\\")
@example("&amp;")
@example("    code")
@example("[a]: b")
def test_a_text_shows_letter_by_letter(frame: str, text: str) -> None:
    """Wherever the page puts it, what is shown is the cleaned text, and the page keeps its own shape."""
    wanted = clean(text, lines=False).strip()
    if not wanted:
        return
    contents, kinds = texts(FRAMES[frame].format(plain(text)))
    _, shape = texts(FRAMES[frame].format("word"))

    assert any(wanted in content for content in contents)
    assert kinds == shape


@settings(max_examples=80)
@given(marked.filter(str.strip))
def test_a_name_shows_letter_by_letter(text: str) -> None:
    """A name set apart as code holds nothing but itself, even one that holds the mark of code."""
    contents, kinds = texts(f"- at {code(text)} b")

    assert clean(text, lines=False).strip() in contents[0]
    assert kinds <= {
        "bullet_list_open",
        "list_item_open",
        "paragraph_open",
        "inline",
        "text",
        "code_inline",
        "paragraph_close",
        "list_item_close",
        "bullet_list_close",
    }


@pytest.mark.parametrize(
    ("text", "written"),
    [
        ("2026-03-05-hxk4d", "2026-03-05-hxk4d"),
        ("12.5 mm", "12.5 mm"),
        ("Bearing, 50 % worn (left)", "Bearing, 50 % worn (left)"),
        ("red\x1b[31m", "red␛\\[31m"),
        ("a\u202eb", "a�b"),
    ],
)
def test_the_page_stays_readable(text: str, written: str) -> None:
    """What means nothing to Markdown is not escaped; what would command a terminal is shown."""
    assert plain(text) == written
