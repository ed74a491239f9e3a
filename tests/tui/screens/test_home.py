"""The jobs: what is open, what is finished, what cannot be read."""

from collections.abc import Sequence
from pathlib import Path

import pytest

from engine.errors import Damaged, Failure
from engine.interview.command import Accept, Read
from engine.records.memory import MemoryStore
from tests.tui.seat import SQUEAL, TO_ACCEPTED, TO_PAD, TO_VERDICT, Bench, at, driven, seat
from tui.app import Start
from tui.screens.home import HomeScreen
from tui.session import Session


def put_aside(bench: Bench) -> Bench:
    """The same store, with no job at hand."""
    bench.leave()
    return bench


def many(count: int) -> Bench:
    """As many open jobs, the last one first."""
    bench = Bench()
    for number in range(1, count + 1):
        bench.minute = number
        bench.open("squeal", "fell", f"HP-{number:03}", case=f"case-{number:03}")
    return put_aside(bench)


class Unreadable(MemoryStore):
    """A store in which nothing can be read."""

    def cases(self) -> tuple[str, ...]:
        """Fails as a damaged file does."""
        raise Damaged("The cases are damaged.", "`witnessmark cases rescue` saves what can be read.")


class Crooked(Bench):
    """A session whose library has mistakes."""

    def problems(self) -> Sequence[str]:  # type: ignore[override]  # reason: any sequence will do here
        """Two of them."""
        return ("a.yaml:3:1: No key `stepz`. Did you mean `steps`?", "b.yaml:1:1: Another.")


@driven
async def test_open_jobs_are_listed_with_label_title_vehicle_and_time() -> None:
    """Two lines a job: whose it is and what is wrong; on what, and when it was touched last."""
    async with seat(put_aside(at(*TO_PAD))) as s:
        seen = s.text()

    assert "1  HP-204 · A rear wheel squeals" in seen
    assert "Brennick Fellside · 2026-11-25 14:02" in seen


@driven
async def test_a_job_that_was_left_at_a_close_reading_says_so() -> None:
    """Whoever takes it up knows that something has to be read again."""
    async with seat(put_aside(at(*TO_PAD, Read({"pad": "2.8"})))) as s:
        seen = s.text()

    assert "2026-11-25 14:02 · a reading is too close to call" in seen


@driven
async def test_enter_resumes_the_marked_job() -> None:
    """The job goes on at the reading where it was left."""
    async with seat(put_aside(at(*TO_PAD))) as s:
        seen = await s.press("enter")

    assert "How thick is the thinner of the two pads" in seen


@driven
async def test_a_digit_resumes_the_job_with_that_number() -> None:
    """The second line is the job touched before the last one."""
    async with seat(many(3)) as s:
        await s.press("2")

        assert s.session.job.label == "HP-002"


@driven
async def test_a_click_resumes_the_job() -> None:
    """The whole line is the target."""
    async with seat(many(1)) as s:
        await s.pilot.click("Row", offset=(60, 1))
        await s.settle()

        assert s.shown == "WalkScreen"


@driven
async def test_arrows_mark_another_job() -> None:
    """The mark moves down by one."""
    async with seat(many(2)) as s:
        seen = await s.press("down")

    assert "› 2  HP-001" in seen


@driven
async def test_a_finished_job_is_listed_among_the_finished_ones() -> None:
    """`f` shows it with its verdict; among the open ones it is not."""
    async with seat(put_aside(at(*TO_ACCEPTED))) as s:
        before = s.text()
        after = await s.press("f")

    assert "No open job. Press n to open one." in before
    assert "Brennick Fellside · 2026-11-25 14:02 · The rear brake pads are worn out" in after


@driven
async def test_nine_jobs_are_shown_at_a_time() -> None:
    """Page down shows the next ones, numbered from 1 again; page up the first ones."""
    async with seat(many(12)) as s:
        first = s.text()
        second = await s.press("pagedown")
        again = await s.press("pageup")

    assert "Open jobs: 1 to 9 of 12" in first
    assert "1  HP-003" in second
    assert again == first


@driven
async def test_page_down_stops_at_the_last_page() -> None:
    """There is no empty page behind it."""
    async with seat(many(12)) as s:
        last = await s.press("pagedown")

        assert await s.press("pagedown") == last


@driven
async def test_n_opens_a_new_job_and_esc_comes_back() -> None:
    """Nothing was opened on the way."""
    async with seat(Bench()) as s:
        await s.press("n")
        there = s.shown
        seen = await s.press("escape")

    assert there == "NewJobScreen"
    assert "No open job" in seen


@driven
async def test_q_ends_the_program() -> None:
    """With exit code 0."""
    async with seat(Bench()) as s:
        await s.pilot.press("q")

    assert (s.app.return_value, s.app.return_code) == (0, 0)


@driven
async def test_a_store_that_cannot_be_read_is_told_with_its_cure() -> None:
    """The line says what is wrong and what helps; the program stands."""
    async with seat(Bench(Unreadable())) as s:
        seen = s.text()

    assert "Cannot be read: The cases are damaged." in seen
    assert "cases rescue" in seen


@driven
async def test_a_document_that_cannot_be_read_is_told_with_its_place() -> None:
    """The first one, and how many more there are."""
    async with seat(Crooked()) as s:
        seen = s.text()

    assert "Cannot be read: a.yaml:3:1: No key `stepz`." in seen
    assert "(1 more" in seen


@driven
async def test_a_library_folder_that_is_not_there_is_told() -> None:
    """The sentence and the cure are those of the engine; a new job says it again."""
    bench = Session("memory:", [Path("nowhere-at-all")])
    async with seat(bench) as s:
        seen = s.text()
        await s.press("n")
        shown = s.shown

    assert "There is no folder nowhere-at-all." in " ".join(seen.split())
    assert shown == "FailureScreen"


@driven
async def test_the_list_is_read_again_when_a_job_was_put_aside() -> None:
    """The job that was just left stands in the list."""
    async with seat(Bench(), start=SQUEAL) as s:
        seen = await s.press("p")

    assert "1  HP-204 · A rear wheel squeals" in seen


@driven
async def test_a_case_that_is_gone_is_told_at_the_start() -> None:
    """The program opens, says it, and shows the jobs after Esc."""
    async with seat(Bench(), start=Start(case="nobody")) as s:
        seen = s.text()
        after = await s.press("escape")

    assert "There is no case nobody here." in seen
    assert "No open job" in after


@pytest.mark.parametrize("failure", [Failure("No.", "Yes."), Damaged("Broken.", "Mend it.")])
@driven
async def test_a_job_that_cannot_be_resumed_is_told(failure: Failure) -> None:
    """The failure stands on the screen with its cure; the list is still there behind it."""

    class Stuck(Bench):
        def resume(self, case: str) -> None:  # noqa: ARG002  reason: whichever it is
            raise failure

    bench = many(1)
    async with seat(Stuck(bench._store)) as s:
        seen = await s.press("1")
        await s.press("escape")

        assert failure.message in seen
        assert failure.cure in seen
        assert isinstance(s.app.screen, HomeScreen)


@driven
async def test_accepting_a_verdict_finishes_the_job() -> None:
    """It leaves the open ones."""
    bench = at(*TO_VERDICT)
    bench.act(Accept())
    async with seat(put_aside(bench)) as s:
        seen = s.text()

    assert "No open job" in seen
