"""The verdict: what it rests on, accepting it, what follows, the report."""

from pathlib import Path

import pytest

from engine.records.event import Concluded, Followed
from tests.tui.seat import TO_ACCEPTED, TO_LISTEN, TO_VERDICT, Bench, at, driven, seat


@pytest.fixture(autouse=True)
def _somewhere_else(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)


@driven
async def test_a_verdict_shows_cause_grade_correction_and_the_sheet() -> None:
    """The trade's three, in words; the grade says what it means."""
    async with seat(at(*TO_VERDICT)) as s:
        seen = s.text()

    for words in (
        "VERDICT",
        "The rear brake pads are worn out",
        "Complaint    A rear wheel squeals",
        "Cause        Brake pads worn out",
        "Repair: a part has failed",
        "Replace the pads of both rear wheels, then bed them in.",
        "Brake pads, thickness, min: 3 mm",
        "They stand below the limit of the sheet.",
    ):
        assert words in seen


@pytest.mark.parametrize("key", ["a", "enter"])
@driven
async def test_a_or_enter_accepts_it(key: str) -> None:
    """It is in the record, and the screen says so."""
    bench = at(*TO_VERDICT)
    async with seat(bench) as s:
        seen = await s.press(key)

    assert isinstance(bench.job.entries[-1].event, Concluded)
    assert "VERDICT, accepted" in seen


@driven
async def test_a_second_a_changes_nothing() -> None:
    """It is accepted already."""
    bench = at(*TO_ACCEPTED)
    async with seat(bench) as s:
        before = s.text()

        assert await s.press("a") == before


@driven
async def test_a_procedure_that_follows_is_started_and_says_afterwards_how_it_ended() -> None:
    """1 starts it; its steps are walked like all others; then the verdict stands again."""
    bench = at(*TO_ACCEPTED)
    async with seat(bench) as s:
        offered = s.text()
        started = await s.press("1")
        seen = await s.press("u", "1")

    assert "1  Start: Bed the new pads in" in offered
    assert "A rear wheel squeals › Bed the new pads in" in started
    assert Followed("bed-in") in [entry.event for entry in bench.job.entries]
    assert "Done before: The pads are bedded in" in seen


@driven
async def test_b_steps_back_from_a_verdict() -> None:
    """The newest line of the trail is marked."""
    bench = at(*TO_VERDICT)
    async with seat(bench) as s:
        seen = await s.press("b", "enter")

    assert "CAUTION" in seen
    assert bench.prompt().where.step == "lower-rear/lower"


@pytest.mark.parametrize("keys", [("r",), ("down", "down", "enter")], ids=["key", "line"])
@driven
async def test_r_writes_the_report_and_says_where(keys: tuple[str, ...], tmp_path: Path) -> None:
    """The file is there, under the path on the screen."""
    path = tmp_path / "report-the-case.md"
    async with seat(at(*TO_ACCEPTED)) as s:
        seen = await s.press(*keys)

    assert path.exists()
    assert str(path) in "".join(line.strip(" █") for line in seen.splitlines())


class Wandering(Bench):
    """A session that is told a folder that is not there, and then a good one."""

    def write_report(self, folder: Path) -> Path:
        """Write elsewhere the first time."""
        self.tries = getattr(self, "tries", 0) + 1
        return super().write_report(folder / "shop" if self.tries == 1 else folder)


@driven
async def test_a_report_that_cannot_be_written_is_told_and_can_be_sent_again() -> None:
    """The folder is gone; once there is one, `s` writes the report."""
    bench = Wandering(at(*TO_ACCEPTED).store)
    bench.resume("the-case")
    async with seat(bench) as s:
        seen = await s.press("r")
        after = await s.press("s")

    assert "cannot be written: " in seen
    assert "Start the program in a folder" in seen
    assert "Done: the report was written to" in after


@driven
async def test_the_last_line_puts_the_job_aside() -> None:
    """p, or the line."""
    async with seat(at(*TO_ACCEPTED)) as s:
        seen = await s.press("up", "enter")

    assert "WITNESSMARK   Jobs" in seen


@driven
async def test_a_verdict_that_refers_says_so() -> None:
    """Nobody is convicted, and the grade says that it was not decided here."""
    bench = at(*TO_LISTEN)
    async with seat(bench) as s:
        seen = await s.press("x", "3", "u", "1")

    assert "It could not be decided here" in seen
    assert "no suspect is convicted" in seen
    assert "Refer: this cannot be decided here" in seen


@driven
async def test_a_finished_job_that_is_resumed_shows_its_verdict() -> None:
    """With what follows still on offer."""
    bench: Bench = at(*TO_ACCEPTED)
    bench.leave()
    async with seat(bench) as s:
        seen = await s.press("f", "1")

    assert "VERDICT, accepted" in seen
    assert "1  Start: Bed the new pads in" in seen
