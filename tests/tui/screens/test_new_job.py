"""A new job: vehicle, complaint, label; back and forth."""

from engine.errors import Full
from engine.records.event import Entry, Opened
from engine.records.memory import MemoryStore
from tests.tui.seat import Bench, driven, seat
from tui.app import Start
from tui.widgets.rows import Rows


def opened(bench: Bench) -> Opened:
    """The first event of the only case."""
    (case,) = bench.store.cases()
    event = bench.store.read(case)[0].event
    assert isinstance(event, Opened)
    return event


class FullStore(MemoryStore):
    """A store without room, until there is room again."""

    room = False

    def append(self, entry: Entry) -> None:
        """Fails as a full disk does."""
        if not self.room:
            raise Full("There is no room left.", "Free some space, then do it again.")
        super().append(entry)


@driven
async def test_three_questions_open_a_job() -> None:
    """The case in the store has the tree, the vehicle, the label and the name that were given."""
    bench = Bench()
    async with seat(bench) as s:
        await s.press("n", "1", "1")
        await s.write("HP-204")
        await s.press("enter")
        await s.write("Ana")
        seen = await s.press("enter")
    event = opened(bench)

    assert (event.tree, event.vehicle, event.label, event.by) == ("squeal", "fell", "HP-204", "Ana")
    assert "CAUTION" in seen


@driven
async def test_a_complaint_that_does_not_suit_is_listed_with_the_reason_and_cannot_be_chosen() -> None:
    """It has no digit, and the mark passes it by."""
    async with seat(Bench()) as s:
        seen = await s.press("n", "1")
        after = await s.press("2", "down", "enter")

    assert "Not for this one: drive is all-wheel; the tree is for front-wheel." in seen
    assert "2  It pulls" not in seen
    assert "3 of 3" in after


@driven
async def test_a_click_on_a_complaint_that_does_not_suit_does_nothing() -> None:
    """The question stands."""
    async with seat(Bench()) as s:
        before = await s.press("n", "1")
        await s.pilot.click("Row.-closed")
        await s.settle()

        assert s.text() == before


@driven
async def test_esc_goes_back_one_question_at_a_time() -> None:
    """From the label to the complaint, to the vehicle, to the jobs."""
    async with seat(Bench()) as s:
        await s.press("n", "1", "1")
        seen = [await s.press("escape") for _ in range(3)]

    assert ["2 of 3" in seen[0], "1 of 3" in seen[1], "No open job" in seen[2]] == [True] * 3


@driven
async def test_the_label_may_stay_empty() -> None:
    """Enter twice opens the job all the same."""
    bench = Bench()
    async with seat(bench) as s:
        await s.press("n", "1", "1", "enter", "enter")

    assert opened(bench).label == ""


@driven
async def test_who_works_is_remembered_for_the_next_job() -> None:
    """The name stands in the field."""
    bench = Bench()
    bench.by = "Ana"
    async with seat(bench) as s:
        seen = await s.press("n", "1", "1")

    assert "Ana" in seen


@driven
async def test_a_tree_from_the_command_line_is_not_asked_for() -> None:
    """Only vehicles are listed; those that it is not for say why."""
    async with seat(Bench(), start=Start(tree="squeal")) as s:
        seen = s.text()
        after = await s.press("1")

    assert "Not for this one: drive is front-wheel; the tree is for all-wheel." in seen
    assert "3 of 3" in after


@driven
async def test_a_vehicle_from_the_command_line_is_not_asked_for() -> None:
    """The complaint is the first question."""
    async with seat(Bench(), start=Start(vehicle="tarn")) as s:
        seen = s.text()

    assert "2 of 3" in seen
    assert "› 1  It pulls to one side" in seen


@driven
async def test_a_tree_that_is_not_there_is_told_with_those_that_are() -> None:
    """The failure stands above the jobs."""
    async with seat(Bench(), start=Start(tree="squeel")) as s:
        seen = s.text()

    assert "There is no tree `squeel`." in seen
    assert "squeal" in seen


@driven
async def test_a_tree_and_a_vehicle_from_the_command_line_open_the_job_at_once() -> None:
    """Under the label that was given."""
    bench = Bench()
    async with seat(bench, start=Start(tree="squeal", vehicle="fell", label="HP-9")) as s:
        seen = s.text()

    assert "HP-9 · Brennick Fellside" in seen


@driven
async def test_a_new_case_may_be_given_its_name_on_the_command_line() -> None:
    """It is opened under that name, and resumed when the same words are given again."""
    bench = Bench()
    start = Start(case="mine", tree="squeal", vehicle="fell")
    async with seat(bench, start=start) as s:
        await s.press("u", "u", "p")
    async with seat(Bench(bench.store), start=start) as s:
        seen = s.text()

    assert bench.store.cases() == ("mine",)
    assert "Park on a level floor" in seen


@driven
async def test_a_full_disk_keeps_the_label_and_lets_it_be_sent_again() -> None:
    """`s` opens the job once there is room."""
    store = FullStore()
    bench = Bench(store)
    async with seat(bench) as s:
        await s.press("n", "1", "1")
        await s.write("HP-204")
        seen = await s.press("enter", "enter")
        store.room = True
        await s.press("s")

    assert "There is no room left." in seen
    assert opened(bench).label == "HP-204"


@driven
async def test_a_late_answer_does_not_answer_the_next_question() -> None:
    """Two digits in one burst: the second was not meant for a complaint that nobody has seen."""
    async with seat(Bench()) as s:
        await s.press("n")
        s.app.screen.query_one(Rows).press("1")
        s.app.screen.query_one(Rows).press("1")
        await s.settle()
        seen = s.text()

    assert "2 of 3" in seen
