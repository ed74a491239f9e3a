"""Words on the screen are data, whatever is in them."""

import unicodedata

from hypothesis import given
from hypothesis import strategies as st

from tui.widgets.words import words


@given(st.text(st.characters(codec=None)))
def test_nothing_that_a_terminal_obeys_is_left(text: str) -> None:
    """No control character but the end of a line, no lone surrogate, no change of direction."""
    shown = words(text).plain

    assert not [c for c in shown if unicodedata.category(c) in ("Cc", "Cs") and c != "\n"]
    assert not set(shown) & set("\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069")


@given(st.text(st.characters(categories=("L", "N", "P", "S", "Zs"))))
def test_what_is_harmless_is_shown_as_it_was_written(text: str) -> None:
    """Brackets, dollar signs and backslashes mean nothing."""
    assert words(text).plain == text


@given(st.text(), st.text())
def test_a_look_changes_no_letter(first: str, second: str) -> None:
    """Bold or not, the text is the same."""
    assert words(first, (second, "bold")).plain == words(first, second).plain
