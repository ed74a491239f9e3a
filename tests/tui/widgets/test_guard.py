"""The guard, with a clock of our own."""

from hypothesis import given
from hypothesis import strategies as st

from tui.widgets.guard import QUIET, Guard


class Clock:
    """A clock that is set by hand."""

    now = 100.0

    def __call__(self) -> float:
        """The time that was set."""
        return self.now


@given(st.lists(st.floats(0.001, QUIET * 0.99), min_size=1, max_size=40))
def test_a_key_that_repeats_faster_than_any_pause_never_counts(gaps: list[float]) -> None:
    """However long it is held."""
    clock = Clock()
    guard = Guard(clock)
    guard.counts("u")
    guard.turned()
    counted = []
    for gap in gaps:
        clock.now += gap
        counted.append(guard.counts("u"))

    assert not any(counted)


@given(st.lists(st.sampled_from("123ubx"), max_size=30))
def test_keys_count_as_long_as_nothing_turns(keys: list[str]) -> None:
    """Typing is typing."""
    guard = Guard(Clock())

    assert all(guard.counts(key) for key in keys)


def test_a_key_counts_again_after_a_pause() -> None:
    """At the length of the pause, not a moment before."""
    clock = Clock()
    guard = Guard(clock)
    guard.counts("1")
    guard.turned()
    clock.now += QUIET

    assert guard.counts("1")


def test_another_key_in_between_ends_the_deafness() -> None:
    """The first key has been let go, or the other could not have been pressed."""
    guard = Guard(Clock())
    guard.counts("1")
    guard.turned()

    assert (guard.counts("b"), guard.counts("1")) == (True, True)


def test_what_acknowledges_does_not_count_before_it_can_have_been_read() -> None:
    """Half a second after it was drawn it does; other keys at once."""
    clock = Clock()
    guard = Guard(clock)
    guard.drawn(0.5)
    early = guard.counts("u"), guard.counts("b")
    clock.now += 0.5

    assert (early, guard.counts("u")) == ((False, True), True)


def test_a_key_is_lost_once_another_follows_it_at_once() -> None:
    """Not while it is only held, and not any more with the key after that."""
    guard = Guard(Clock())
    guard.counts("1")
    guard.turned()
    lost = []
    for key in "1123":
        guard.counts(key)
        lost.append(guard.lost)

    assert lost == ["", "", "1", ""]
