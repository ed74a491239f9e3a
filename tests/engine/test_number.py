"""The short way to a number that is typed plainly is the long one, only shorter."""

from unittest.mock import patch

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from engine.number import plainly, read

#: Numbers as people type them, and slips near them.
TYPED = st.from_regex(
    r"\A[ −+-]?[0-9]{0,16}[.,/ e-]?[0-9]{0,3} {0,2}(mm|in|°C|e3|E|\"|½|1/2 in|newton {1,2}metres|x\ty)?\Z"
)


@given(TYPED | st.text(max_size=12))
@example("1e3")
@example("1 e3")
@example("1 2/3 in")
@example("5-1/2 in")
@example("000000000000001.5 mm")
def test_a_plain_number_is_read_as_it_would_be_the_long_way(text: str) -> None:
    """The value, the unit and what is refused are the same."""
    short = read(text, "mm")

    with patch("engine.number.plainly", return_value=None):
        assert read(text, "mm") == short


@pytest.mark.parametrize("text", ["30", "1.6", "-40 °C", "24.88 in", "30N·m", ".5", "5."])
def test_what_most_people_type_is_plain(text: str) -> None:
    """With or without a sign, a point, and a unit."""
    assert plainly(text) is not None


@pytest.mark.parametrize("text", ["", "-", ".", "+5", "--5", "1.2.3", "3-1/2 in", "²", "١٢", "1" * 16])
def test_what_takes_a_second_look_is_not_plain(text: str) -> None:
    """No digits, another sign than minus, more than one sign or point, other digits, and too many."""
    assert plainly(text) is None
