"""Full, read-only and damaged stores: told in words, with the answer kept and a way to send it again."""

import pytest

from engine.errors import Damaged, Full, NotWritable, StoreFailure
from engine.records.event import Entry
from engine.records.memory import MemoryStore
from tests.tui.seat import TO_LISTEN, TO_PAD, TO_PARK, at, driven, seat
from tui.widgets.field import Field

FAILURES = {
    "full": (Full("There is no room left to write.", "Free some space."), "There is no room to write"),
    "read-only": (NotWritable("It cannot be written.", "Make it writable."), "The store may not be written"),
    "damaged": (Damaged("It is damaged.", "Rescue it."), "The store is damaged"),
    "locked": (StoreFailure("It is locked.", "Close what is using it."), "this cannot be done now"),
}


class Fickle(MemoryStore):
    """A store that fails while it is told to."""

    failure: StoreFailure | None = None

    def append(self, entry: Entry) -> None:
        """Fails, or keeps the entry."""
        if self.failure is not None:
            raise self.failure
        super().append(entry)


@pytest.mark.parametrize("kind", FAILURES)
@driven
async def test_a_failure_is_told_with_what_helps_and_that_nothing_was_lost(kind: str) -> None:
    """Its kind, the sentence, the cure."""
    failure, title = FAILURES[kind]
    store = Fickle()
    bench = at(*TO_LISTEN, store=store)
    store.failure = failure
    async with seat(bench) as s:
        seen = await s.press("1")

    for words in (f"NOT DONE: {title}", failure.message, failure.cure, "Nothing was lost."):
        assert words in seen


@driven
async def test_the_question_still_stands_after_a_failure() -> None:
    """Esc goes back to it; nothing was answered."""
    store = Fickle()
    bench = at(*TO_LISTEN, store=store)
    before = bench.job.entries
    store.failure = FAILURES["full"][0]
    async with seat(bench) as s:
        question = s.text()
        await s.press("1")
        after = await s.press("escape")

    assert after == question
    assert bench.job.entries == before


@driven
async def test_s_sends_the_same_answer_again() -> None:
    """Once there is room it is taken."""
    store = Fickle()
    bench = at(*TO_LISTEN, store=store)
    store.failure = FAILURES["full"][0]
    async with seat(bench) as s:
        await s.press("2")
        store.failure = None
        await s.press("s")

    assert bench.prompt().where.trail[-1].answer == "One scratch a turn 「カリッ」"


@driven
async def test_sending_again_without_room_tells_it_again() -> None:
    """As often as it takes."""
    store = Fickle()
    bench = at(*TO_LISTEN, store=store)
    store.failure = FAILURES["full"][0]
    async with seat(bench) as s:
        await s.press("2")
        seen = await s.press("s")

    assert "NOT DONE" in seen


@driven
async def test_enter_goes_back_and_does_not_send_again() -> None:
    """A key that is held sends nothing twice."""
    store = Fickle()
    bench = at(*TO_LISTEN, store=store)
    before = bench.job.entries
    store.failure = FAILURES["full"][0]
    async with seat(bench) as s:
        await s.press("1")
        store.failure = None
        await s.press("enter")

    assert bench.job.entries == before


@driven
async def test_a_typed_reading_stays_in_its_field_after_a_failure() -> None:
    """It can be sent again from there."""
    store = Fickle()
    bench = at(*TO_PAD, store=store)
    store.failure = FAILURES["read-only"][0]
    async with seat(bench) as s:
        await s.write("2.5")
        await s.press("enter", "escape")
        field = s.app.screen.query_one(Field).value
        store.failure = None
        await s.press("enter")

    assert field == "2.5"
    assert "2.5" in bench.prompt().where.trail[-1].answer


@driven
async def test_a_typed_note_is_there_again_after_a_failure() -> None:
    """The field of the note still holds it."""
    store = Fickle()
    bench = at(*TO_LISTEN, store=store)
    store.failure = FAILURES["full"][0]
    async with seat(bench) as s:
        await s.press("n")
        await s.write("left rear")
        await s.press("enter", "escape")
        seen = await s.press("n")

    assert "left rear" in seen


@driven
async def test_a_caution_that_could_not_be_written_is_shown_again() -> None:
    """It counts as read only once it is in the record."""
    store = Fickle()
    bench = at(store=store)
    store.failure = FAILURES["full"][0]
    async with seat(bench) as s:
        await s.press("u")
        seen = await s.press("escape")

    assert "Hot brakes burn" in seen


@driven
async def test_a_store_that_cannot_be_read_while_looking_out_is_told_in_a_line() -> None:
    """The question stands; nobody is interrupted."""
    store = Fickle()
    bench = at(*TO_PARK, store=store)
    async with seat(bench) as s:

        def heads() -> dict[str, int]:
            raise FAILURES["damaged"][0]

        store.heads = heads  # type: ignore[method-assign]  # reason: damaged from now on
        await s.pilot.pause(1.2)
        seen = s.text()

    assert "Not read: It is damaged. Rescue it." in seen
    assert "1  Done" in seen
