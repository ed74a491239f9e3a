"""Pictures of curves: dots, ticks, and how heights come to lines."""

from hypothesis import given
from hypothesis import strategies as st

from tui.widgets.dots import Dots, short, ticks

_NUMBERS = st.floats(-1e9, 1e9, allow_nan=False)


@given(low=_NUMBERS, wide=st.floats(1e-3, 1e9), most=st.integers(2, 20))
def test_ticks_lie_in_the_range_and_are_no_more_than_asked(low: float, wide: float, most: int) -> None:
    """Whatever the range."""
    made = ticks(low, low + wide, most)
    slack = 1e-6 * max(abs(low), wide)

    assert len(made) <= most
    assert all(low - slack <= mark <= low + wide + slack for mark in made)


def test_a_range_without_extent_has_one_tick() -> None:
    """A level line is no trouble."""
    assert ticks(5, 5, 4) == (5.0,)


def test_a_dot_outside_the_field_is_left_out() -> None:
    """The picture stays as large as it is."""
    field = Dots(1, 1)
    field.dot(2, 4)

    assert field.rows() == [" "]


def test_a_full_cell_has_eight_dots() -> None:
    """Two across and four down."""
    field = Dots(1, 1)
    for x in (0, 1):
        field.line(x, 0, x, 3)

    assert field.rows() == ["⣿"]


def test_thousands_are_short() -> None:
    """An axis has little room."""
    assert [short(value) for value in (9999, 10_000, 2.5e6)] == ["9999", "10k", "2.5M"]
