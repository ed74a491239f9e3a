"""The session: the job at hand, what is typed, other windows, the report on disk."""

import errno
from pathlib import Path

import pytest

from engine.errors import Conflict, Failure, Refusal
from engine.interview.command import Choose, Confirm, Note, Read
from engine.interview.question import AskPrompt, MeasurePrompt
from engine.records.memory import MemoryStore
from tests.tui.seat import TO_LISTEN, TO_PAD, TO_PARK, Bench, at
from tui.session import Session


def second(store: MemoryStore) -> Bench:
    """Another window on the same case."""
    bench = Bench(store)
    bench.resume("the-case")
    return bench


def test_an_answer_is_in_the_store_when_act_returns() -> None:
    """A second window reads it at once."""
    store = MemoryStore()
    at(*TO_LISTEN, store=store).act(Choose(0))

    assert isinstance(second(store).prompt(), MeasurePrompt)


def test_a_turn_is_counted_whenever_something_else_is_asked() -> None:
    """A late answer can be told by the turn that it was given at."""
    bench = at(*TO_LISTEN)
    before = bench.turn
    bench.act(Choose(0))

    assert bench.turn == before + 1


def test_a_refused_reading_stays_with_its_refusal() -> None:
    """What was typed can be corrected, and what was wrong with it is known."""
    bench = at(*TO_PAD)
    refusal = bench.act(Read({"pad": "300"}))

    assert (bench.draft.typed, bench.draft.refusal) == ({"pad": "300"}, refusal)


def test_typing_ends_a_refusal() -> None:
    """A refusal of what stood there before says nothing of what stands there now."""
    bench = at(*TO_PAD)
    bench.act(Read({"pad": "300"}))
    bench.type("pad", "30")

    assert bench.draft.refusal is None


def test_what_is_typed_stays_when_a_note_is_written() -> None:
    """The step has stayed the same, so its fields keep their text."""
    bench = at(*TO_PAD)
    bench.type("pad", "2.5")
    bench.act(Note("left rear"))

    assert bench.draft.typed == {"pad": "2.5"}


def test_what_is_typed_is_gone_at_another_step() -> None:
    """No reading is carried into a question that did not ask for it."""
    bench = at(*TO_PAD)
    bench.type("pad", "2.5")
    bench.act(Read({"pad": "2.5"}))

    assert bench.draft.typed == {}


def test_polling_an_unchanged_case_changes_nothing() -> None:
    """As long as no other window writes, the turn stays."""
    bench = at(*TO_LISTEN)
    before = bench.turn

    assert (bench.poll(), bench.turn) == (None, before)


def test_polling_takes_over_what_another_window_wrote() -> None:
    """The new lines of the trail are told, and the question is the new one."""
    store = MemoryStore()
    bench = at(*TO_LISTEN, store=store)
    second(store).act(Choose(0))
    added = bench.poll()

    assert added is not None
    assert [line.answer for line in added] == ["A steady squeal, left or right"]
    assert isinstance(bench.prompt(), MeasurePrompt)


def test_an_answer_to_a_question_that_has_changed_is_a_conflict_and_nothing_is_lost() -> None:
    """The second answer is refused by the store; the job of this window stands where it stood."""
    store = MemoryStore()
    bench = at(*TO_LISTEN, store=store)
    second(store).act(Choose(1))

    with pytest.raises(Conflict):
        bench.act(Choose(0))
    assert isinstance(bench.prompt(), AskPrompt)


def test_vehicles_that_a_tree_is_not_for_come_last_with_the_reasons() -> None:
    """They are shown, so that nobody looks for them, and cannot be chosen."""
    offers = Bench().vehicles("squeal")

    assert [(offer.name, bool(offer.reasons)) for offer in offers] == [("fell", False), ("tarn", True)]


def test_complaints_that_do_not_suit_come_last_with_the_reasons() -> None:
    """The reason names the fact."""
    offers = Bench().complaints("tarn")

    assert [offer.name for offer in offers] == ["pulls", "squeal"]
    assert offers[1].reasons == ("drive is front-wheel; the tree is for all-wheel",)


@pytest.mark.parametrize(("ask", "name"), [("vehicles", "squeel"), ("complaints", "fel")])
def test_a_name_that_is_not_there_is_a_failure_that_lists_those_that_are(ask: str, name: str) -> None:
    """The cure names every one that could have been meant."""
    with pytest.raises(Failure) as told:
        getattr(Bench(), ask)(name)

    assert ("squeal" if ask == "vehicles" else "fell") in told.value.cure


def test_the_report_is_written_whole(tmp_path: Path) -> None:
    """The file holds the page, and nothing else is left in the folder."""
    path = at(*TO_PARK).write_report(tmp_path)

    assert path.read_text(encoding="utf-8").startswith("# A rear wheel squeals\n")
    assert list(tmp_path.iterdir()) == [path]


def test_an_earlier_report_of_the_case_is_replaced(tmp_path: Path) -> None:
    """The file always says how the case stands now."""
    bench = at(*TO_PARK)
    bench.write_report(tmp_path)
    bench.act(Confirm())
    path = bench.write_report(tmp_path)

    assert "**Done**" in path.read_text(encoding="utf-8")


@pytest.mark.parametrize("case", ["../../etc/passwd", "a/b", "\x1b[2J", "con:aux"])
def test_no_case_name_leads_out_of_the_folder(case: str, tmp_path: Path) -> None:
    """A name from a foreign store is data, never a path."""
    bench = Bench()
    bench.open("squeal", "fell")
    job = bench.job
    object.__setattr__(job, "case", case)
    path = bench.write_report(tmp_path)

    assert path.parent == tmp_path
    assert path.name.removeprefix("report-").removesuffix(".md").replace("-", "").isalnum()


def test_a_report_that_cannot_be_written_leaves_the_old_one_and_says_why(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A full disk is told with its cure, and half a file is never left."""
    bench = at(*TO_PARK)
    path = bench.write_report(tmp_path)
    old = path.read_text(encoding="utf-8")

    def full(_: int) -> None:
        raise OSError(errno.ENOSPC, "No space left on device")

    monkeypatch.setattr("os.fsync", full)
    bench.act(Confirm())
    with pytest.raises(Failure, match="No space left on device"):
        bench.write_report(tmp_path)
    assert (path.read_text(encoding="utf-8"), list(tmp_path.iterdir())) == (old, [path])


def test_closing_twice_is_harmless(tmp_path: Path) -> None:
    """The store is let go of once."""
    session = Session(str(tmp_path / "cases.db"))
    session.jobs()
    session.close()

    session.close()


def test_a_refusal_leaves_the_job_as_it_was() -> None:
    """An empty note is refused, and nothing is written."""
    bench = at(*TO_PARK)
    entries = bench.job.entries

    assert isinstance(bench.act(Note("  ")), Refusal)
    assert bench.job.entries == entries
