"""What became of the repair, said in the app: two questions, kept, shown, and said again."""

import pytest

from engine.interview.command import Accept, Acknowledge, CannotTell, Confirm, Settle
from engine.records.event import Confirmed
from tests.tui.seat import TO_ACCEPTED, TO_LISTEN, TO_VERDICT, Bench, at, driven, seat


def last(bench: Bench) -> object:
    """The last event of the case."""
    return bench.job.entries[-1].event


@driven
async def test_f_asks_whether_the_complaint_is_gone_and_then_for_the_cause() -> None:
    """The convicted suspect first, then the others, and what the tree does not name."""
    async with seat(at(*TO_ACCEPTED)) as s:
        offered = s.text()
        first = await s.press("f")
        second = await s.press("1")

    assert "f  Is the complaint gone?" in offered
    assert "› 1  Yes, it is gone" in first
    assert "What was the true cause?" in second
    assert "› 1  Brake pads worn out" in second
    assert "Something else, not in this tree" in second
    assert "Nobody knows yet" not in second


@pytest.mark.parametrize(
    ("keys", "event"),
    [
        (("f", "1", "1"), Confirmed(fixed=True, cause="pads-worn")),
        (("f", "enter", "enter"), Confirmed(fixed=True, cause="pads-worn")),
        (("f", "2", "up", "enter"), Confirmed(fixed=False)),
        (("down", "enter", "2", "up", "up", "enter"), Confirmed(fixed=False, cause="elsewhere")),
    ],
    ids=["digits", "enter", "nobody knows", "by its line"],
)
@driven
async def test_two_keys_are_kept(keys: tuple[str, ...], event: Confirmed) -> None:
    """It is in the record, and the screen says so."""
    bench = at(*TO_ACCEPTED)
    async with seat(bench) as s:
        seen = await s.press(*keys)

    assert last(bench) == event
    assert "Done: what became of the repair was written down" in seen
    assert f"the complaint is {'gone' if event.fixed else 'still there'}" in seen


@pytest.mark.parametrize("keys", [("f", "escape"), ("f", "1", "escape")], ids=["first", "second"])
@driven
async def test_esc_says_nothing(keys: tuple[str, ...]) -> None:
    """At either question."""
    bench = at(*TO_ACCEPTED)
    before = bench.job.entries
    async with seat(bench) as s:
        seen = await s.press(*keys)

    assert bench.job.entries == before
    assert "VERDICT, accepted" in seen


@driven
async def test_it_can_be_said_again() -> None:
    """The last word counts."""
    bench = at(*TO_ACCEPTED, Settle(fixed=True))
    async with seat(bench) as s:
        offered = s.text()
        seen = await s.press("f", "2", "1")

    assert "Is the complaint gone? Say it again" in offered
    assert last(bench) == Confirmed(fixed=False, cause="pads-worn")
    assert "the complaint is still there" in seen


@driven
async def test_before_the_verdict_is_accepted_f_does_nothing() -> None:
    """There is nothing to confirm yet."""
    async with seat(at(*TO_VERDICT)) as s:
        before = s.text()

        assert await s.press("f") == before


@driven
async def test_where_nobody_is_convicted_the_cause_may_stay_unknown() -> None:
    """Gone by itself, and nobody knows why."""
    bench = at(*TO_LISTEN, CannotTell("dark"), Acknowledge("below-raised"), Confirm(), Accept())
    async with seat(bench) as s:
        await s.press("f", "1", "up", "enter")

    assert last(bench) == Confirmed(fixed=True)
