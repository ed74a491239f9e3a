"""The public face: libraries, jobs that are in their store before they move on, and old cases that last."""

import re
import shutil
from pathlib import Path
from textwrap import dedent

import pytest

from engine import api, resources
from engine.errors import Conflict, Damaged, Failure, Full, Refusal, Unreadable
from engine.interview.command import Accept, Choose, Command, Confirm, Follow, Note, Read, StepBack
from engine.interview.question import MeasurePrompt, VerdictPrompt
from engine.records.codec import NOTHING_BEFORE, seal
from engine.records.event import Answered, Entry
from engine.records.memory import MemoryStore
from engine.records.sqlite import SqliteStore
from tests.engine.interview.given import SHOP, library, procedure, tree
from tests.engine.proof.scripts import gathered

TREE = tree("""
    first: {do: Look., then: second}
    second: {ask: Worn?, answers: [{say: "Yes", then: worn}, {say: "No", then: third}]}
    third:
      measure: How far?
      readings: {gauge: rule, unit: mm, plausible: [0, 9], each: [left, right]}
      figure: spread
      bands: [{upto: 1, say: Good, then: fine}, {over: 1, then: worn}]
    worn: {verdict: Worn, suspects: [bearing], grade: repair, correction: C., follow: [look]}
    fine: {verdict: Fine, suspects: [], grade: no-fault, correction: C.}
    """)
LOOK = procedure("look", "seen: Seen", "first: {do: Look at it., then: seen}\n")
AT = "2026-03-05T08:30:00+01:00"


def opened(store: api.Store, case: str = "one", *, at: str = AT) -> api.Job:
    """A case just opened on the test tree."""
    return api.open_job(
        store, library(TREE, LOOK), "bench", "wagon", label="HP 118", by="Bay 2", case=case, at=at
    )


def acted(store: api.Store, job: api.Job, *commands: Command, at: str = AT) -> api.Job:
    """The job after these commands, each of which it must take."""
    for command in commands:
        after = api.act(store, job, command, at)
        assert not isinstance(after, Refusal), after
        job = after
    return job


def written(folder: Path, *texts: str) -> Path:
    """A folder with these documents, and what they need beside what is shipped."""
    needed = ((path, SHOP[path]) for path in ("shop/gauges.yaml", "shop/facts.yaml", "vehicles/wagon.yaml"))
    for path, text in (*needed, *((f"own/{k}.yaml", text) for k, text in enumerate(texts))):
        file = folder / path
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_text(dedent(text), encoding="utf-8")
    return folder


def test_every_public_name_is_there() -> None:
    """Whatever the face lists can be had from it."""
    assert [name for name in api.__all__ if not hasattr(api, name)] == []


def test_the_library_holds_the_shipped_documents() -> None:
    """Without a folder there is something to walk, and nothing is wrong with it."""
    held = api.library()

    assert (set(held.trees) >= {"no-rear-drive"}, held.problems) == (True, ())


def test_a_folder_adds_its_documents(tmp_path: Path) -> None:
    """Documents of a named folder stand beside the shipped ones."""
    (tmp_path / "own.yaml").write_text(LOOK, encoding="utf-8")

    assert {"look", "road-test"} <= set(api.library([tmp_path]).procedures)


def test_the_shipped_folder_may_be_named_itself() -> None:
    """A checkout whose settings name its own `trees` has every document once."""
    held = api.library([resources.trees()])

    assert held.problems == ()
    assert held.trees.keys() == api.library().trees.keys()


def test_a_folder_that_is_not_there_is_told(tmp_path: Path) -> None:
    """A path that does not exist is a failure with its cure."""
    with pytest.raises(Failure, match=r"There is no folder .*nowhere.* Check the path after `--library`"):
        api.library([tmp_path / "nowhere"])


def test_a_case_begins_with_what_it_was_opened_on() -> None:
    """The first entry is numbered 1, dated, sealed, and carries label and name."""
    store = MemoryStore()
    (entry,) = opened(store).entries

    assert (entry.case, entry.sequence, entry.at, entry.previous) == ("one", 1, AT, NOTHING_BEFORE)
    assert (entry.event.kind, store.read("one")) == ("opened", (entry,))
    assert (opened(store, "two").label, api.resume(store, "two").label) == ("HP 118", "HP 118")


def test_a_case_without_a_name_is_given_one() -> None:
    """The name is the day and five letters and digits, none of them easily misread."""
    job = api.open_job(MemoryStore(), library(TREE, LOOK), "bench", "wagon", at=AT)

    assert re.fullmatch(r"2026-03-05-[2-9b-df-hj-kmnp-tv-xz]{5}", job.case)


def test_a_case_is_dated_by_the_clock_when_no_time_is_given() -> None:
    """Without a time the entry has one with its offset, to the second."""
    job = api.open_job(MemoryStore(), library(TREE, LOOK), "bench", "wagon")

    assert re.fullmatch(r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d[+-]\d\d:\d\d", job.entries[0].at)


def test_a_name_is_used_once() -> None:
    """A second case under the same name is refused, and the first is left alone."""
    store = MemoryStore()
    first = opened(store)

    with pytest.raises(Failure, match="There is a case one already"):
        opened(store)
    assert store.read("one") == first.entries


def test_half_a_character_in_a_name_is_spelt_out() -> None:
    """A name that is no whole text, as an argument may be, is kept spelt out, and can be resumed."""
    store = MemoryStore()
    job = opened(store, "bay\udcff")

    assert api.resume(store, job.case).entries == job.entries


@pytest.mark.parametrize(
    ("name", "vehicle", "message"),
    [
        ("bensh", "wagon", "There is no tree `bensh`. Did you mean `bench`?"),
        ("bench", "wagen", "There is no vehicle `wagen`. Did you mean `wagon`?"),
    ],
)
def test_what_is_not_there_cannot_be_opened(name: str, vehicle: str, message: str) -> None:
    """A name that the library lacks is told with the nearest one, and nothing is written."""
    store = MemoryStore()

    with pytest.raises(Failure, match=re.escape(message)):
        api.open_job(store, library(TREE, LOOK), name, vehicle)
    assert store.cases() == ()


def test_a_tree_for_other_vehicles_cannot_be_opened() -> None:
    """A vehicle that the tree is not for is refused with the reason."""
    both = tree("first: {do: Go., then: ended}\n").replace("complaint:", "for: {axle: open}\ncomplaint:")

    with pytest.raises(Failure, match="axle is limited; the tree is for open"):
        api.open_job(MemoryStore(), gathered(both), "bench", "wagon")


@pytest.mark.parametrize(
    "documents",
    [
        [TREE.replace("then: second", "then: secnod"), LOOK],
        [TREE],
        [TREE, LOOK.replace("do:", "dew:")],
        [TREE, LOOK.replace("steps:", "steps: [")],
        [TREE.replace("do: Look.", "dew: Look."), LOOK],
    ],
    ids=["no-such-step", "no-procedure", "broken-procedure", "unreadable-procedure", "broken-tree"],
)
def test_documents_with_errors_cannot_be_opened(tmp_path: Path, documents: list[str]) -> None:
    """An error in any document of the walk is told with its place before anything is written."""
    store = MemoryStore()
    held = api.library([written(tmp_path, *documents)])

    with pytest.raises(Unreadable, match=r"\.yaml:\d+:\d+: "):
        api.open_job(store, held, "bench", "wagon")
    assert store.cases() == ()


def test_what_was_done_is_in_the_store() -> None:
    """When a command is taken its event is kept, chained to the one before it."""
    store = MemoryStore()
    job = acted(store, opened(store), Confirm(), Choose(0))

    assert store.read("one") == job.entries
    assert api.verify(job.entries) == ()
    assert job.entries[-1].event == Answered("second", 0, "Yes")


def test_a_refusal_keeps_nothing() -> None:
    """A command that is refused leaves job and store as they were."""
    store = MemoryStore()
    job = opened(store)
    refusal = api.act(store, job, Choose(0), AT)

    assert isinstance(refusal, Refusal)
    assert store.read("one") == job.entries


class FullOnce(MemoryStore):
    """A store without room for one append."""

    room = True

    def append(self, entry: Entry) -> None:
        """Refuse once, then keep as ever."""
        if not self.room:
            self.room = True
            raise Full("No room.", "Make some.")
        super().append(entry)


def test_a_command_may_be_given_again_once_there_is_room() -> None:
    """What the store had no room for moved nothing; the same command is taken afterwards."""
    store = FullOnce()
    job = opened(store)
    store.room = False

    with pytest.raises(Full):
        api.act(store, job, Confirm(), AT)
    assert store.read("one") == job.entries
    assert acted(store, job, Confirm()).state.where == "second"


def test_a_second_window_is_heard_of() -> None:
    """Where another window went on, the command raises Conflict, and a refresh shows what was added."""
    store = MemoryStore()
    here = opened(store)
    there = acted(store, api.resume(store, "one"), Note("from the other window"))

    with pytest.raises(Conflict):
        api.act(store, here, Confirm(), AT)
    assert api.refresh(store, here).state.notes == (("first", "from the other window"),)
    assert api.refresh(store, here).entries == there.entries


def test_a_case_that_is_not_there_cannot_be_resumed() -> None:
    """The failure says where cases are listed."""
    with pytest.raises(Failure, match=r"There is no case two here. `witnessmark cases`"):
        api.resume(MemoryStore(), "two")


def test_a_case_that_no_walk_can_have_written_is_damaged() -> None:
    """Entries that are whole, and do not fit their own documents, are told as damage with a cure."""
    store = MemoryStore()
    job = opened(store)
    store.append(seal("one", 2, AT, Answered("first", 7, "x"), job.entries[0].hash))

    with pytest.raises(Damaged, match=r"Case one cannot be walked again: .* `witnessmark cases export`"):
        api.resume(store, "one")


@pytest.mark.parametrize("change", ["rewritten", "broken", "gone"])
def test_an_old_case_outlives_its_documents(tmp_path: Path, change: str) -> None:
    """Whatever became of the documents on disk, the case goes on as it was opened."""
    folder = written(tmp_path / "own", TREE, LOOK)
    store = SqliteStore(tmp_path / "cases.db")
    held = api.library([folder])
    job = acted(store, api.open_job(store, held, "bench", "wagon", case="one"), Confirm())
    asked = api.prompt(job)
    if change == "gone":
        shutil.rmtree(folder)
    for file in folder.rglob("*.yaml"):
        text = file.read_text(encoding="utf-8")
        file.write_text(
            text.replace("Worn", "Quite new") if change == "rewritten" else "][", encoding="utf-8"
        )
    store.close()
    again = SqliteStore(tmp_path / "cases.db")
    resumed = api.resume(again, "one")

    assert api.prompt(resumed) == asked
    assert acted(again, resumed, Choose(0)).entries[-1].event == Answered("second", 0, "Yes")
    assert "Quite new" not in api.report(api.resume(again, "one"))
    again.close()


def test_cases_are_listed_by_when_they_were_touched() -> None:
    """The one touched last comes first, whatever offsets the clocks had."""
    store = MemoryStore()
    opened(store, "early", at="2026-10-25T02:50:00+02:00")
    opened(store, "late", at="2026-10-25T02:10:00+01:00")
    opened(store, "first", at="2026-10-24T23:00:00+02:00")

    assert [line.case for line in api.jobs(store)] == ["late", "early", "first"]


def test_a_line_tells_what_the_case_is_about() -> None:
    """The list names label, tree and vehicle by their titles, and when the case was opened and touched."""
    store = MemoryStore()
    acted(store, opened(store), Confirm(), at="2026-03-05T09:00:00+01:00")
    (line,) = api.jobs(store)

    assert (line.label, line.title, line.vehicle) == ("HP 118", "The bench tree", "Brennick test wagon")
    assert (line.opened, line.last, line.standing, line.verdict) == (
        AT,
        "2026-03-05T09:00:00+01:00",
        "open",
        "",
    )


@pytest.mark.parametrize(
    ("commands", "standing", "verdict"),
    [
        ((), "open", ""),
        ((Confirm(), Choose(0)), "open", ""),
        ((Confirm(), Choose(0), Accept()), "concluded", "Worn"),
        ((Confirm(), Choose(0), Accept(), Follow("look")), "concluded", "Worn"),
        ((Confirm(), Choose(0), Accept(), Follow("look"), StepBack(5)), "concluded", "Worn"),
        ((Confirm(), Choose(0), Accept(), StepBack(4)), "open", ""),
        ((Confirm(), Choose(0), Accept(), StepBack(3)), "open", ""),
        (
            (
                Confirm(),
                Choose(0),
                Accept(),
                StepBack(3),
                Choose(1),
                Read({"left": "1", "right": "1"}),
                Accept(),
            ),
            "concluded",
            "Fine",
        ),
    ],
)
def test_a_case_is_concluded_while_its_verdict_stands(
    commands: tuple[Command, ...], standing: str, verdict: str
) -> None:
    """Accepted and not stepped back over since, the verdict stands; the walk itself says the same."""
    store = MemoryStore()
    job = acted(store, opened(store), *commands)
    (line,) = api.jobs(store)

    assert (line.standing, line.verdict) == (standing, verdict)
    assert job.state.concluded == (standing == "concluded")


def test_a_damaged_case_hides_no_other(tmp_path: Path) -> None:
    """A case that cannot be read stands in the list as such, behind those that can."""
    store = SqliteStore(tmp_path / "cases.db")
    opened(store, "broken")
    opened(store, "whole")
    store._connection.execute("""UPDATE entries SET entry = x'00' WHERE "case" = 'broken'""")

    assert [(line.case, line.title) for line in api.jobs(store)] == [
        ("whole", "The bench tree"),
        ("broken", "This case is damaged and cannot be read"),
    ]
    store.close()


def test_prompt_figure_and_preview_speak_for_the_job() -> None:
    """What is asked, what the readings make, and what one reading means, come from the job alone."""
    store = MemoryStore()
    job = acted(store, opened(store), Confirm(), Choose(1))
    asked = api.prompt(job)

    assert isinstance(asked, MeasurePrompt)
    assert api.preview(asked.blanks[0], "1/8 in").text == "0.125 in = 3.175 mm"
    assert api.figure(job, {"left": "1", "right": "2"}) == "1 mm: up to 1 mm - Good, 50 % sure"
    assert api.figure(opened(store, "two"), {"left": "1"}) == ""


def test_the_verdict_of_a_job_can_be_followed() -> None:
    """After acceptance the procedure runs in the same case and ends at the verdict."""
    store = MemoryStore()
    asked = api.prompt(acted(store, opened(store), Confirm(), Choose(0), Accept(), Follow("look"), Confirm()))

    assert isinstance(asked, VerdictPrompt)
    assert asked.follow == (("look", "The procedure look", "Seen"),)


def test_the_export_of_a_case_can_be_verified() -> None:
    """The exported entries are those of the case, each with its hash."""
    store = MemoryStore()
    job = acted(store, opened(store), Confirm())
    told = api.export(job.entries)

    assert [entry["hash"] for entry in told["entries"]] == [entry.hash for entry in job.entries]
